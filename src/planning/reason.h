// Reasons, consequences and assumptions: codes with parameters, never sentences.
#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
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

  /// The parameter of that name where it is a text, else empty.
  std::string text(std::string_view name) const {
    const std::string* const found = std::get_if<std::string>(parameter(name));
    return found == nullptr ? std::string() : *found;
  }

  /// The parameter of that name where it is a number, else nothing.
  std::optional<double> number(std::string_view name) const {
    const double* const found = std::get_if<double>(parameter(name));
    return found == nullptr ? std::nullopt : std::optional(*found);
  }

  friend bool operator==(const Reason&, const Reason&) = default;

 private:
  const Parameter* parameter(std::string_view name) const {
    const auto found = std::find_if(parameters.begin(), parameters.end(),
                                    [&](const auto& one) { return one.first == name; });
    return found == parameters.end() ? nullptr : &found->second;
  }
};

}  // namespace tub::planning
