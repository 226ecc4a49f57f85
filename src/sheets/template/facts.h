// What a template may print: names with words, numbers and lists, and the shape that says which
// names there are.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "document/words.h"

namespace tub::sheets {

struct Shape;

/// One name of a shape and what stands under it.
struct FactRow {
  enum class Kind { words, number, list };
  std::string_view name;
  Kind kind = Kind::words;
  const Shape* of = nullptr;  ///< of a list: what each of its elements holds
};

/// All names that one kind of facts has.
struct Shape {
  std::span<const FactRow> rows;

  const FactRow* find(std::string_view name) const;
};

inline constexpr std::array text_rows = {FactRow{"text"}};
inline constexpr Shape text_list{text_rows};  ///< what each of a list of texts holds
inline constexpr std::array sign_rows = {FactRow{"sign"}, FactRow{"alt"}};
inline constexpr Shape sign_list{sign_rows};  ///< and each of a row of signs or pictograms

/// Facts of one shape; what is not set is absent: empty words, no number, an empty list.
class Facts {
 public:
  explicit Facts(const Shape& shape);
  /// Facts in which every name is present and every list has one element: a template that can be
  /// filled from them can be filled from any facts of that shape.
  static Facts sample(const Shape& shape);

  // REQUIRES: a name of the shape, of that kind.
  void set(std::string_view name, Words words);
  void set(std::string_view name, std::string text);
  void set(std::string_view name, double number);
  void set(std::string_view name, std::vector<Facts> list);
  void add(std::string_view list, Facts element);

  const Shape& shape() const { return *shape_; }
  bool is_present(std::string_view name) const;
  const Words& words(std::string_view name) const;
  std::optional<double> number(std::string_view name) const;
  const std::vector<Facts>& list(std::string_view name) const;

 private:
  using Value = std::variant<Words, std::optional<double>, std::vector<Facts>>;
  Value& at(std::string_view name, FactRow::Kind kind);
  const Value& at(std::string_view name) const;

  const Shape* shape_;
  std::vector<Value> values_;
};

}  // namespace tub::sheets
