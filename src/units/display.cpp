#include "units/display.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cassert>
#include <utility>

#include "base/nearest.h"
#include "base/text.h"

namespace tub {
namespace {

using Words = std::vector<std::string>;

/// What went wrong with a text, or nothing.
struct Complaint {
  std::string problem;
  std::string help;
};

/// Signs that look alike or are typed for one another, and the one that the tables have.
constexpr std::array<std::pair<std::string_view, std::string_view>, 17> look_alikes = {{
    {"\u00A0", " "},
    {"\u202F", " "},
    {"\u2009", " "},
    {"\u03BC", "µ"},
    {"º", "°"},
    {"−", "-"},
    {"₀", "0"},
    {"₁", "1"},
    {"₂", "2"},
    {"₃", "3"},
    {"₄", "4"},
    {"₅", "5"},
    {"₆", "6"},
    {"₇", "7"},
    {"₈", "8"},
    {"₉", "9"},
    {"\t", " "},
}};

std::string tidied(std::string_view text) {
  std::string result(text);
  for (const auto& [from, to] : look_alikes) result = replaced(result, from, to);
  while (result.find("  ") != std::string::npos) result = replaced(result, "  ", " ");
  return std::string(trimmed(result));
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// "1 340 L" as "1 340" and "L": digits with all that people put between them.
std::pair<std::string, std::string> number_and_unit(const std::string& text) {
  std::size_t end = !text.empty() && (text[0] == '-' || text[0] == '+') ? 1 : 0;
  const auto goes_on = [&](std::size_t i) {
    if (is_digit(text[i]) || text[i] == '.' || text[i] == ',') return true;
    const bool separates = text[i] == ' ' || text[i] == '\'';
    return separates && i > 0 && is_digit(text[i - 1]) && i + 1 < text.size() &&
           is_digit(text[i + 1]);
  };
  while (end < text.size() && goes_on(end)) ++end;
  return {text.substr(0, end), std::string(trimmed(text.substr(end)))};
}

std::string without(std::string text, char unwanted) {
  text.erase(std::remove(text.begin(), text.end(), unwanted), text.end());
  return text;
}

/// What to write for a number with a comma: between thousands, or for a decimal point.
std::string comma_help(const std::string& number) {
  const std::size_t comma = number.rfind(',');
  const bool may_be_thousands = number.size() - comma == 4;
  const bool is_alone =
      std::count(number.begin(), number.end(), ',') == 1 && number.find('.') == std::string::npos;
  const std::string plain = without(number, ',');
  const std::string decimal = replaced(number, ",", ".");
  if (may_be_thousands && is_alone) return fmt::format("write {} or {}", plain, decimal);
  return fmt::format("write {}", is_alone ? decimal : plain);
}

std::optional<Complaint> fault_of_number(const std::string& number, const std::string& text,
                                         const std::string& example) {
  if (std::none_of(number.begin(), number.end(), is_digit)) {
    return Complaint{fmt::format("expected a number and its unit, found \"{}\"", text),
                     fmt::format("write it as in \"{}\"", example)};
  }
  if (number.find(',') != std::string::npos) {
    return Complaint{fmt::format("the number \"{}\" has a comma in it", number),
                     comma_help(number)};
  }
  for (const char separator : {' ', '\''}) {
    if (number.find(separator) == std::string::npos) continue;
    return Complaint{fmt::format("the number \"{}\" has a separator in it", number),
                     fmt::format("write {}", without(number, separator))};
  }
  if (!to_number(number)) {
    return Complaint{fmt::format("\"{}\" is not a number", number),
                     "write digits with at most one decimal point"};
  }
  return std::nullopt;
}

bool is_spelt(const Unit& unit, std::string_view found) {
  return unit.name == found ||
         std::find(unit.spellings.begin(), unit.spellings.end(), found) != unit.spellings.end();
}

const Unit* find_unit(QuantityKind kind, std::string_view found) {
  for (const Unit& unit : units()) {
    if (unit.kind == kind && is_spelt(unit, found)) return &unit;
  }
  return nullptr;
}

std::string joined(const Words& words) {
  std::string list;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) list += i + 1 < words.size() ? ", " : " or ";
    list += words[i];
  }
  return list;
}

std::optional<Complaint> ambiguity_of(QuantityKind kind, std::string_view found) {
  for (const AmbiguousUnit& row : ambiguous_units()) {
    const bool is_meant =
        std::find(row.spellings.begin(), row.spellings.end(), found) != row.spellings.end();
    if (row.kind != kind || !is_meant) continue;
    return Complaint{fmt::format("the unit \"{}\" has more than one meaning", found),
                     "write " + joined(row.choices)};
  }
  return std::nullopt;
}

Complaint unknown_unit(QuantityKind kind, std::string_view found) {
  const KindOfQuantity& description = description_of(kind);
  if (found.empty()) {
    return {fmt::format("the unit of {} is missing", description.name),
            fmt::format("write it as in \"{}\"", description.example)};
  }
  Words names;
  Words spellings;
  for (const Unit& unit : units()) {
    if (unit.kind != kind) continue;
    names.push_back(unit.name);
    spellings.push_back(unit.name);
    spellings.insert(spellings.end(), unit.spellings.begin(), unit.spellings.end());
  }
  const std::string near = nearest(found, spellings);
  return {fmt::format("\"{}\" is not a unit of {}", found, description.name),
          near.empty() ? "known are: " + joined(names) : "did you mean " + near + "?"};
}

ParsedQuantity refused(Complaint complaint) {
  return {std::nullopt, std::move(complaint.problem), std::move(complaint.help)};
}

ParsedAmount refused_amount(Complaint complaint) {
  ParsedAmount result;
  result.problem = std::move(complaint.problem);
  result.help = std::move(complaint.help);
  return result;
}

/// "% w/w as Cl2" from "%w/w as Cl2", "g/100 mL as Cl2" from "g/100mL as Cl2" and "g/100 ml …".
std::string tidied_basis(std::string basis) {
  if (basis.starts_with("%w/w")) basis = "% w/w" + basis.substr(4);
  for (const std::string_view volume : {"g/100mL", "g/100ml", "g/100 ml", "g per 100 mL"}) {
    if (basis.starts_with(volume)) return "g/100 mL" + basis.substr(volume.size());
  }
  return basis;
}

ParsedAmount amount_of(const std::string& unit, const std::string& text) {
  if (unit == "oz" || unit == "ounce" || unit == "ounces") {
    return refused_amount({fmt::format("the unit \"{}\" has more than one meaning", unit),
                           "write oz av (by weight), US fl oz or imp fl oz"});
  }
  ParsedAmount result;
  const bool is_mass = find_unit(QuantityKind::mass, unit) != nullptr;
  const ParsedQuantity parsed =
      parse_quantity(is_mass ? QuantityKind::mass : QuantityKind::volume, text);
  if (!parsed.value) return refused_amount({parsed.problem, parsed.help});
  constexpr double ml_per_litre = 1000;
  result.unit = is_mass ? ParsedAmount::Unit::grams : ParsedAmount::Unit::millilitres;
  result.value = is_mass ? *parsed.value : *parsed.value * ml_per_litre;
  return result;
}

}  // namespace

ParsedQuantity parse_quantity(QuantityKind kind, std::string_view text) {
  assert(kind != QuantityKind::strength);
  const KindOfQuantity& description = description_of(kind);
  const std::string tidy = tidied(text);
  const auto [number, unit] = number_and_unit(tidy);
  if (auto fault = fault_of_number(number, tidy, description.example)) return refused(*fault);
  if (auto ambiguity = ambiguity_of(kind, unit)) return refused(*ambiguity);
  const Unit* const found = find_unit(kind, unit);
  if (!found) return refused(unknown_unit(kind, unit));
  const double value = *to_number(number);
  if (value < 0 && !description.may_be_negative) {
    return refused({fmt::format("expected {} of 0 or more, found {}", description.name, tidy),
                    fmt::format("write it as in \"{}\"", description.example)});
  }
  return {value * found->factor + found->offset, "", ""};
}

ParsedStrength parse_strength(std::string_view text) {
  const KindOfQuantity& description = description_of(QuantityKind::strength);
  const std::string tidy = tidied(text);
  const auto [number, basis] = number_and_unit(tidy);
  const auto refuse = [](const Complaint& complaint) {
    return ParsedStrength{std::nullopt, "", complaint.problem, complaint.help};
  };
  if (auto fault = fault_of_number(number, tidy, description.example)) return refuse(*fault);
  if (auto ambiguity = ambiguity_of(QuantityKind::strength, basis)) return refuse(*ambiguity);
  if (basis.empty()) return refuse(unknown_unit(QuantityKind::strength, basis));
  const double value = *to_number(number);
  if (value <= 0) {
    return refuse({fmt::format("expected a strength above 0, found {}", tidy),
                   "copy the strength from the label"});
  }
  return {value, tidied_basis(basis), "", ""};
}

ParsedAmount parse_amount(std::string_view text) {
  const std::string tidy = tidied(text);
  return amount_of(number_and_unit(tidy).second, tidy);
}

ParsedAmount parse_dose(std::string_view text) {
  const std::string tidy = tidied(text);
  const std::size_t per = tidy.find(" per ");
  if (per == std::string::npos) {
    return refused_amount({fmt::format("expected an amount per volume, found \"{}\"", tidy),
                           "write it as in \"45 mL per 1000 L\""});
  }
  ParsedAmount amount = parse_amount(tidy.substr(0, per));
  if (!amount.value) return amount;
  const ParsedQuantity water = parse_quantity(QuantityKind::volume, tidy.substr(per + 5));
  if (!water.value) return refused_amount({water.problem, water.help});
  if (*water.value <= 0) {
    return refused_amount({fmt::format("expected a volume above 0, found \"{}\"", tidy),
                           "write it as in \"45 mL per 1000 L\""});
  }
  constexpr double litres_of_dose = 1000;
  amount.value = *amount.value * litres_of_dose / *water.value;
  return amount;
}

std::string in_own_unit(QuantityKind kind, double value) {
  const std::string& unit = description_of(kind).own_unit;
  return unit.empty() ? shortest(value) : shortest(value) + " " + unit;
}

}  // namespace tub
