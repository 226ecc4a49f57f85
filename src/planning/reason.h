// Reasons, consequences and assumptions: codes with parameters, never sentences.
#pragma once

#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "base/modules.h"

namespace tub::planning {

/// A code and what it is about; language files hold its words.
struct Reason {
  using Parameter = std::variant<double, std::string>;

  std::string code;                                             ///< "no_acid_on_shelf"
  std::vector<std::pair<std::string, Parameter>> parameters{};  ///< keys carry units: "amount_g"

  friend bool operator==(const Reason&, const Reason&) = default;
};

}  // namespace tub::planning
