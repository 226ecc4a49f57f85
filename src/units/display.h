// The units that people write: what each means, for each kind of quantity.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/modules.h"

namespace tub {

/// What is measured. The unit that values are kept in stands beside; mg/L of one kind and of
/// another are different things.
enum class QuantityKind {
  volume,              // L
  mass,                // g
  length,              // m
  time,                // s
  flow,                // L/min
  temperature,         // °C
  share,               // 1
  density,             // g/mL
  conductivity,        // µS/cm at 25 °C
  alkalinity,          // mg/L as CaCO3
  calcium_hardness,    // mg/L as CaCO3
  magnesium_hardness,  // mg/L as CaCO3
  total_hardness,      // mg/L as CaCO3
  chlorine,            // mg/L as Cl2
  bromine,             // mg/L as Br2
  cyanuric_acid,       // mg/L
  dissolved_solids,    // mg/L
  sodium,              // mg/L
  chloride,            // mg/L
  sulfate,             // mg/L as SO4
  nitrate,             // mg/L as NO3
  copper,              // mg/L
  iron,                // mg/L
  manganese,           // mg/L
  strength,            // as its basis says
};

/// A row of the one table of units: value in the kind's own unit = number × factor + offset.
struct Unit {
  QuantityKind kind{};
  std::string name;  ///< as it is printed: "US gal"
  double factor = 1;
  double offset = 0;
  std::string meaning;                 ///< "231 cubic inches"; may be empty
  std::vector<std::string> spellings;  ///< other ways in which it may be written
};

/// A unit that means two things: refused, with what may be meant.
struct AmbiguousUnit {
  QuantityKind kind{};
  std::vector<std::string> spellings;
  std::vector<std::string> choices;
};

/// A kind's name in messages ("total alkalinity") and the unit that its values are kept in.
struct KindOfQuantity {
  QuantityKind kind{};
  std::string name;
  std::string own_unit;
  std::string example;           ///< "1340 L"
  bool may_be_negative = false;  ///< lengths that shift, temperatures
};

/// The tables, in the order in which they are listed.
std::span<const KindOfQuantity> kinds_of_quantity();
std::span<const Unit> units();
std::span<const AmbiguousUnit> ambiguous_units();

const KindOfQuantity& description_of(QuantityKind kind);

/// A value in its kind's own unit, or what is wrong with the text.
struct ParsedQuantity {
  std::optional<double> value;
  std::string problem;  ///< one sentence: what was expected, what was found; empty if none
  std::string help;     ///< what to write instead
};

/// The value of a text such as "354 US gal" in the kind's own unit.
///
/// Digits with at most one decimal point, then the unit. A decimal comma, a blank or a comma
/// between thousands, a missing, unknown or ambiguous unit and a negative amount are problems.
/// REQUIRES: another kind than strength, whose unit depends on the product
ParsedQuantity parse_quantity(QuantityKind kind, std::string_view text);

/// A number and the words that follow it: "12.5" and "g/100 mL as Cl2".
struct ParsedStrength {
  std::optional<double> value;
  std::string basis;
  std::string problem;
  std::string help;
};

/// A strength with its basis, blanks and subscripts set right; a bare % is a problem.
ParsedStrength parse_strength(std::string_view text);

/// An amount of product: grams, or mL for a liquid.
struct ParsedAmount {
  enum class Unit { grams, millilitres };
  std::optional<double> value;
  Unit unit = Unit::grams;
  std::string problem;
  std::string help;
};

/// "2 kg", "1 L", "8 US fl oz"; "oz" counts as weight only with `avoirdupois` spelt out: "oz av".
ParsedAmount parse_amount(std::string_view text);
/// "45 mL per 1000 L", "2 US fl oz per 500 US gal": the amount for 1000 L.
ParsedAmount parse_dose(std::string_view text);

/// A value in its kind's own unit, shortest form: "1340 L".
std::string in_own_unit(QuantityKind kind, double value);

}  // namespace tub
