// The equations that explanations use: those that anyone can work out again from their inputs, and
// models, which are named and described.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "why/chain.h"

namespace tub::why {

/// An input's part in its equation, and its value.
using Term = std::pair<std::string, double>;

struct Equation {
  std::string_view code;
  /// What stands between the inputs: " + "; with `says`, the inputs are put in for {0}, {1}, …
  std::string_view between;
  std::string_view says;
  /// The value of the inputs; null for a model.
  double (*value)(std::span<const Term>) = nullptr;
};

/// Every equation, in the order of the documentation.
std::span<const Equation> all_equations();
/// REQUIRES: a code of the table.
const Equation& equation(std::string_view code);

/// The equation in plain symbols, with the names of the inputs: "first pour + second pour".
std::string formula(const Node& node);
/// What the equation gives for a node's inputs; nothing for a model or a ground.
std::optional<double> worked_out(const Node& node, const Chain& chain);
/// The same to nine digits, which sums in another order keep.
bool agrees(double stated, double found);

}  // namespace tub::why
