// What was read from a file: valid values in a format's own units, each with its place.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "base/node.h"

namespace tub::job {

/// A figure and what it counts: 12.5 "g/100 mL as Cl2", 45 "mL"; "oz" is grams of an amount that
/// was written in plain ounces, which only something solid can be.
struct Measured {
  double value = 0;
  std::string unit;
};

/// A value that its shape allows. What was wrong has been reported, and holds nothing.
class Value {
 public:
  using Members = std::map<std::string, Value, std::less<>>;
  using Content = std::variant<std::monostate, double, bool, std::string, Measured, Members,
                               std::vector<Value>>;

  Value(Node node, Content content) : node_(std::move(node)), content_(std::move(content)) {}

  const Node& node() const { return node_; }
  bool is_read() const { return !std::holds_alternative<std::monostate>(content_); }
  bool is_object() const { return std::holds_alternative<Members>(content_); }
  bool is_text() const { return std::holds_alternative<std::string>(content_); }

  /// The value itself; nothing if it is of another kind.
  std::optional<double> number() const { return as<double>(); }
  std::optional<bool> flag() const { return as<bool>(); }
  std::optional<std::string> text() const { return as<std::string>(); }
  std::optional<Measured> measured() const { return as<Measured>(); }
  const std::vector<Value>& items() const;

  /// A member of an object; null if it is not there, or was wrong.
  const Value* find(std::string_view name) const;
  std::optional<double> number(std::string_view name) const;
  std::optional<bool> flag(std::string_view name) const;
  std::optional<std::string> text(std::string_view name) const;
  std::optional<Measured> measured(std::string_view name) const;

  /// Adds a problem at this place.
  void problem(std::string message, std::string help) const {
    node_.problem(std::move(message), std::move(help));
  }

 private:
  template <class T>
  std::optional<T> as() const {
    const T* const held = std::get_if<T>(&content_);
    return held == nullptr ? std::nullopt : std::optional<T>(*held);
  }

  Node node_;
  Content content_;
};

}  // namespace tub::job
