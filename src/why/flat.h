// A JSON text as what stands at each pointer.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/modules.h"

namespace tub::why {

class Flat {
 public:
  /// REQUIRES: JSON that was written by us or read already.
  explicit Flat(std::string_view json);

  std::optional<double> number(const std::string& pointer) const;
  std::optional<std::string> text(const std::string& pointer) const;
  /// Something stands there, be it an object or a list.
  bool has(const std::string& pointer) const;
  /// Pointers of all numbers, in the order of the text.
  const std::vector<std::string>& numbers() const { return order_; }

 private:
  std::vector<std::string> order_;
  std::map<std::string, double> numbers_;
  std::map<std::string, std::string> texts_;
  std::map<std::string, bool> places_;
};

/// The steps of a pointer, '~' and '/' in them set right (RFC 6901); empty for the whole text.
std::vector<std::string> steps_of_pointer(std::string_view pointer);
/// The pointers nearest to one that leads nowhere, at most three, nearest first.
std::vector<std::string> nearest_pointers(const std::string& pointer, const Flat& plan);

}  // namespace tub::why
