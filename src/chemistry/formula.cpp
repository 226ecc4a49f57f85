#include "chemistry/formula.h"

#include <fmt/format.h>

#include <cctype>

#include "base/error.h"

namespace tub::chemistry {
namespace {

using Count = std::map<std::string, double, std::less<>>;

bool is_upper(char c) { return c >= 'A' && c <= 'Z'; }
bool is_lower(char c) { return c >= 'a' && c <= 'z'; }
bool is_digit(char c) { return c >= '0' && c <= '9'; }

// Reads one formula from left to right.
class FormulaReader {
 public:
  FormulaReader(std::string_view text, const Elements& elements)
      : text_(text), elements_(elements) {}

  Atoms read() {
    Atoms atoms;
    do {
      const double multiple = number();
      add(atoms.count, group(), multiple);
    } while (accept(':'));
    atoms.charge = charge();
    if (place_ != text_.size()) refuse();
    return atoms;
  }

 private:
  Count group() {
    Count atoms;
    while (place_ < text_.size() && (is_upper(text_[place_]) || text_[place_] == '(')) {
      if (accept('(')) {
        const Count inner = group();
        if (!accept(')')) refuse();
        add(atoms, inner, number());
      } else {
        const std::string found = symbol();
        atoms[found] += number();
      }
    }
    if (atoms.empty()) refuse();
    return atoms;
  }

  std::string symbol() {
    std::string found(1, text_[place_++]);
    while (place_ < text_.size() && is_lower(text_[place_])) found += text_[place_++];
    if (!elements_.contains(found)) refuse();
    return found;
  }

  double number() {
    if (place_ == text_.size() || !is_digit(text_[place_])) return 1;
    double value = 0;
    for (; place_ < text_.size() && is_digit(text_[place_]); ++place_)
      value = value * 10 + (text_[place_] - '0');
    return value;
  }

  int charge() {
    if (accept('+')) return static_cast<int>(number());
    if (accept('-')) return -static_cast<int>(number());
    return 0;
  }

  bool accept(char c) {
    if (place_ == text_.size() || text_[place_] != c) return false;
    ++place_;
    return true;
  }

  static void add(Count& sum, const Count& part, double multiple) {
    for (const auto& [symbol, count] : part) sum[symbol] += count * multiple;
  }

  [[noreturn]] void refuse() const {
    Diagnostic diagnostic;
    diagnostic.message = fmt::format("\"{}\" is no formula that can be read, from \"{}\" on", text_,
                                     text_.substr(place_));
    diagnostic.help = "write element symbols, counts, brackets and a charge: Ca(OCl)2, CO3-2";
    throw Error(diagnostic);
  }

  std::string_view text_;
  const Elements& elements_;
  std::size_t place_ = 0;
};

}  // namespace

Atoms atoms_of(std::string_view formula, const Elements& elements) {
  return FormulaReader(formula, elements).read();
}

double molar_mass(const Atoms& atoms, const Elements& elements) {
  double mass = 0;
  for (const auto& [symbol, count] : atoms.count) mass += count * elements.find(symbol)->second;
  return mass;
}

}  // namespace tub::chemistry
