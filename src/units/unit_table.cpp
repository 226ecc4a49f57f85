// The one table of units. Factors are exact by definition unless their meaning says otherwise.
#include <array>

#include "units/display.h"
#include "units/temperature.h"

namespace tub {
namespace {

using enum QuantityKind;
using Words = std::vector<std::string>;

// Definitions (SI Brochure, NIST SP 811, from memory): litres, grams, metres.
constexpr double inch_m = 0.0254;
constexpr double foot_m = 12 * inch_m;
constexpr double cubic_inch_l = inch_m * inch_m * inch_m * 1000;
constexpr double us_gallon_l = 231 * cubic_inch_l;
constexpr double imp_gallon_l = 4.54609;
constexpr double cubic_foot_l = foot_m * foot_m * foot_m * 1000;
constexpr double pound_g = 453.59237;
constexpr double grain_mg = pound_g / 7;

// mg/L as CaCO3. Atomic weights: IUPAC abridged (Ca 40.078, Mg 24.305, C 12.011, O 15.999,
// H 1.008, N 14.007, S 32.06, Cl 35.45, Br 79.904), from memory.
constexpr double per_mmol = caco3_molar_mass;
constexpr double per_meq = caco3_molar_mass / 2;
constexpr double per_german_degree = 10 * caco3_molar_mass / 56.077;  // 10 mg/L of CaO
constexpr double per_english_degree = grain_mg / imp_gallon_l;
constexpr double per_us_grain = grain_mg / us_gallon_l;
constexpr double cl2 = 70.9;
constexpr double br2 = 159.808;

/// "mg/L as X" in the ways in which people write it.
Words spelt_as(const std::string& formula) {
  Words words;
  for (const char* unit : {"mg/L", "mg/l", "ppm"}) {
    words.push_back(std::string(unit) + " as " + formula);
    words.push_back(std::string(unit) + " " + formula);
    words.push_back(std::string(unit) + " (as " + formula + ")");
  }
  return words;
}

void add_mg_l(std::vector<Unit>& table, QuantityKind kind, const std::string& formula) {
  const std::string meaning = formula.empty() ? "" : "alone it means as " + formula;
  table.push_back({kind, "mg/L", 1, 0, meaning, {"mg/l", "ppm"}});
  if (!formula.empty()) table.push_back({kind, "mg/L as " + formula, 1, 0, "", spelt_as(formula)});
}

void add_as(std::vector<Unit>& table, QuantityKind kind, const std::string& formula,
            double factor) {
  table.push_back({kind, "mg/L as " + formula, factor, 0, "", spelt_as(formula)});
}

void add_volumes(std::vector<Unit>& t) {
  t.push_back({volume, "L", 1, 0, "", {"l", "litre", "litres", "liter", "liters"}});
  t.push_back({volume, "mL", 0.001, 0, "", {"ml", "millilitre", "millilitres"}});
  t.push_back({volume, "m3", 1000, 0, "", {"m³", "cubic metre", "cubic metres", "cubic meters"}});
  t.push_back({volume,
               "US gal",
               us_gallon_l,
               0,
               "231 cubic inches",
               {"US gallon", "US gallons", "gal US", "gallon US", "gallons US", "us gal"}});
  t.push_back({volume,
               "imp gal",
               imp_gallon_l,
               0,
               "4.54609 L",
               {"imp gallon", "imp gallons", "imperial gallon", "imperial gallons", "imperial gal",
                "UK gal", "UK gallon", "UK gallons"}});
  t.push_back({volume, "ft3", cubic_foot_l, 0, "", {"ft³", "cu ft", "cubic foot", "cubic feet"}});
  t.push_back({volume, "in3", cubic_inch_l, 0, "", {"in³", "cu in", "cubic inch", "cubic inches"}});
  t.push_back({volume, "US qt", us_gallon_l / 4, 0, "", {"US quart", "US quarts"}});
  t.push_back({volume, "US pt", us_gallon_l / 8, 0, "liquid", {"US pint", "US pints"}});
  t.push_back({volume, "US dry pt", 33.6003125 * cubic_inch_l, 0, "", {"US dry pint"}});
  t.push_back({volume, "imp pt", imp_gallon_l / 8, 0, "", {"imp pint", "imp pints", "UK pint"}});
  t.push_back(
      {volume, "US fl oz", us_gallon_l / 128, 0, "", {"US fluid ounce", "US fluid ounces"}});
  t.push_back({volume,
               "imp fl oz",
               imp_gallon_l / 160,
               0,
               "",
               {"imp fluid ounce", "imp fluid ounces", "UK fl oz"}});
  t.push_back({volume, "US cup", us_gallon_l / 16, 0, "", {"US cups"}});
  t.push_back({volume, "US legal cup", 0.24, 0, "of food labels", {"US legal cups"}});
  t.push_back({volume, "metric cup", 0.25, 0, "", {"metric cups"}});
  t.push_back({volume, "US tbsp", us_gallon_l / 256, 0, "", {"US tablespoon", "US tablespoons"}});
  t.push_back({volume, "metric tbsp", 0.015, 0, "", {"metric tablespoon", "metric tablespoons"}});
  t.push_back({volume, "AU tbsp", 0.02, 0, "", {"AU tablespoon", "AU tablespoons"}});
  t.push_back({volume, "US tsp", us_gallon_l / 768, 0, "", {"US teaspoon", "US teaspoons"}});
  t.push_back({volume, "metric tsp", 0.005, 0, "", {"metric teaspoon", "metric teaspoons"}});
}

void add_mechanical(std::vector<Unit>& t) {
  t.push_back({mass, "g", 1, 0, "", {"gram", "grams"}});
  t.push_back({mass, "kg", 1000, 0, "", {"kilogram", "kilograms"}});
  t.push_back({mass, "mg", 0.001, 0, "", {}});
  t.push_back({mass, "lb", pound_g, 0, "avoirdupois", {"lbs", "pound", "pounds"}});
  t.push_back({mass,
               "oz",
               pound_g / 16,
               0,
               "avoirdupois, of something solid",
               {"oz av", "ounce", "ounces"}});
  t.push_back({length, "m", 1, 0, "", {"metre", "metres", "meter", "meters"}});
  t.push_back({length, "cm", 0.01, 0, "", {}});
  t.push_back({length, "mm", 0.001, 0, "", {}});
  t.push_back({length, "in", inch_m, 0, "", {"inch", "inches", "\""}});
  t.push_back({length, "ft", foot_m, 0, "", {"foot", "feet", "'"}});
  t.push_back({length, "yd", 3 * foot_m, 0, "", {"yard", "yards"}});
  t.push_back({QuantityKind::time, "s", 1, 0, "", {"sec", "second", "seconds"}});
  t.push_back({QuantityKind::time, "min", 60, 0, "", {"minute", "minutes"}});
  t.push_back({QuantityKind::time, "h", 3600, 0, "", {"hr", "hrs", "hour", "hours"}});
  t.push_back({flow, "L/min", 1, 0, "", {"l/min", "lpm"}});
  t.push_back({flow, "L/s", 60, 0, "", {"l/s"}});
  t.push_back({flow, "L/h", 1.0 / 60, 0, "", {"l/h"}});
  t.push_back({flow, "m3/h", 1000.0 / 60, 0, "", {"m³/h"}});
  t.push_back({flow, "US gal/min", us_gallon_l, 0, "", {"US gpm", "US gallons/min"}});
  t.push_back({flow, "imp gal/min", imp_gallon_l, 0, "", {"imp gpm", "UK gal/min"}});
  t.push_back({temperature, "°C", 1, 0, "", {"C", "degC", "deg C", "° C"}});
  t.push_back({temperature, "°F", 1 / 1.8, -32 / 1.8, "", {"F", "degF", "deg F", "° F"}});
  t.push_back({temperature, "K", 1, -273.15, "", {}});
  t.push_back({share, "%", 0.01, 0, "", {"percent", "per cent"}});
  t.push_back({density, "g/mL", 1, 0, "", {"g/ml", "g/cm3", "g/cm³", "kg/L", "kg/l"}});
  t.push_back({density, "kg/m3", 0.001, 0, "", {"kg/m³", "g/L", "g/l"}});
  t.push_back({density, "lb/ft3", pound_g / cubic_foot_l / 1000, 0, "", {"lb/ft³", "lb/cu ft"}});
  t.push_back({density, "lb/US gal", pound_g / us_gallon_l / 1000, 0, "", {}});
  t.push_back({conductivity, "µS/cm", 1, 0, "at 25 °C", {"uS/cm", "µmho/cm", "umho/cm"}});
  t.push_back({conductivity, "mS/cm", 1000, 0, "at 25 °C", {}});
  t.push_back({conductivity, "mS/m", 10, 0, "at 25 °C", {}});
  t.push_back({conductivity, "S/m", 10000, 0, "at 25 °C", {}});
}

void add_degrees(std::vector<Unit>& t, QuantityKind kind) {
  t.push_back({kind,
               "°dH",
               per_german_degree,
               0,
               "German degree: 10 mg/L of CaO",
               {"dH", "° dH", "°d", "deg dH", "dKH", "°dKH", "dGH", "°dGH"}});
  t.push_back(
      {kind, "°fH", 10, 0, "French degree: 10 mg/L of CaCO3", {"fH", "° fH", "°f", "deg fH"}});
  t.push_back({kind,
               "°e",
               per_english_degree,
               0,
               "English (Clark) degree: 1 grain of CaCO3 per imperial gallon",
               {"°Clark", "° e", "deg e", "deg Clark", "°eH"}});
  t.push_back({kind, "°aH", 1, 0, "American degree: 1 mg/L of CaCO3", {"aH", "° aH", "deg aH"}});
  t.push_back(
      {kind, "°rH", per_meq, 0, "Russian degree: 1 meq/L", {"rH", "° rH", "deg rH", "°Ж", "° Ж"}});
  t.push_back({kind,
               "gpg",
               per_us_grain,
               0,
               "1 grain of CaCO3 per US gallon",
               {"grains/US gal", "gr/US gal", "grains per US gallon"}});
}

void add_alkalinity(std::vector<Unit>& t) {
  add_mg_l(t, alkalinity, "CaCO3");
  add_as(t, alkalinity, "HCO3", per_meq / 61.016);
  t.push_back(
      {alkalinity, "mmol/L", per_meq, 0, "of acid taken up, so 50.04 mg/L as CaCO3", {"mmol/l"}});
  t.push_back(
      {alkalinity,
       "mmol/L KS4.3",
       per_meq,
       0,
       "acid capacity to pH 4.3; the 0.05 mmol/L that pH 4.3 itself takes is not subtracted",
       {"mmol/l KS4.3", "mmol/L KS4,3", "mmol/l KS4,3", "mmol/L KS 4.3", "mmol/l KS 4.3",
        "mmol/L KS 4,3", "mmol/l KS 4,3"}});
  t.push_back({alkalinity, "meq/L", per_meq, 0, "", {"meq/l", "mval/L", "mval/l"}});
  add_degrees(t, alkalinity);
}

void add_hardness(std::vector<Unit>& t) {
  for (const QuantityKind kind : {calcium_hardness, magnesium_hardness, total_hardness}) {
    add_mg_l(t, kind, "CaCO3");
    if (kind == calcium_hardness) add_as(t, kind, "Ca", caco3_molar_mass / 40.078);
    if (kind == magnesium_hardness) add_as(t, kind, "Mg", caco3_molar_mass / 24.305);
    t.push_back({kind, "mmol/L", per_mmol, 0, "of the metal, so 100.09 mg/L as CaCO3", {"mmol/l"}});
    t.push_back({kind, "meq/L", per_meq, 0, "", {"meq/l", "mval/L", "mval/l"}});
    add_degrees(t, kind);
  }
}

void add_ion(std::vector<Unit>& t, QuantityKind kind, const std::string& formula,
             double molar_mass) {
  add_mg_l(t, kind, formula);
  t.push_back({kind, "µg/L", 0.001, 0, "", {"ug/L", "µg/l", "ug/l", "ppb"}});
  t.push_back({kind, "mmol/L", molar_mass, 0, "", {"mmol/l"}});
}

void add_solutes(std::vector<Unit>& t) {
  add_mg_l(t, chlorine, "Cl2");
  t.push_back({chlorine, "mmol/L", cl2, 0, "of Cl2", {"mmol/l"}});
  add_mg_l(t, bromine, "Br2");
  add_as(t, bromine, "Cl2", br2 / cl2);
  t.push_back({bromine, "mmol/L", br2, 0, "of Br2", {"mmol/l"}});
  add_mg_l(t, cyanuric_acid, "");
  add_mg_l(t, dissolved_solids, "");
  t.push_back({dissolved_solids, "g/L", 1000, 0, "", {"g/l"}});
  add_ion(t, sodium, "Na", 22.99);
  add_ion(t, chloride, "Cl", 35.45);
  add_ion(t, sulfate, "SO4", 96.056);
  add_as(t, sulfate, "S", 96.056 / 32.06);
  add_ion(t, nitrate, "NO3", 62.004);
  add_as(t, nitrate, "N", 62.004 / 14.007);
  add_ion(t, copper, "Cu", 63.546);
  add_ion(t, iron, "Fe", 55.845);
  add_ion(t, manganese, "Mn", 54.938);
  t.push_back({strength,
               "% w/w as …",
               1,
               0,
               "grams in 100 g of product, of what the label counts: as Cl2, HCl, CaCl2, …",
               {}});
  t.push_back({strength,
               "g/100 mL as …",
               1,
               0,
               "grams in 100 mL of solution: the trade per cent of hypochlorite, as Cl2",
               {}});
}

std::vector<Unit> all_units() {
  std::vector<Unit> table;
  add_volumes(table);
  add_mechanical(table);
  add_alkalinity(table);
  add_hardness(table);
  add_solutes(table);
  return table;
}

std::vector<AmbiguousUnit> all_ambiguous() {
  std::vector<AmbiguousUnit> table = {
      {volume, {"gal", "gallon", "gallons"}, {"US gal", "imp gal"}},
      {volume,
       {"oz", "ounce", "ounces", "fl oz", "fluid ounce", "fluid ounces"},
       {"US fl oz", "imp fl oz"}},
      {flow, {"gpm", "gal/min", "gallons/min"}, {"US gal/min", "imp gal/min"}},
      {strength, {"%", "percent", "per cent"}, {"% w/w as Cl2", "g/100 mL as Cl2"}},
  };
  for (const QuantityKind kind :
       {alkalinity, calcium_hardness, magnesium_hardness, total_hardness}) {
    table.push_back(
        {kind, {"grain", "grains", "gr", "grains/gal", "grains per gallon"}, {"gpg", "°e"}});
  }
  return table;
}

}  // namespace

std::span<const KindOfQuantity> kinds_of_quantity() {
  static const std::vector<KindOfQuantity> table = {
      {volume, "volume", "L", "1340 L"},
      {mass, "mass", "g", "85 g"},
      {length, "length", "m", "2.1 m", true},
      {QuantityKind::time, "time", "s", "34 min"},
      {flow, "flow", "L/min", "12 L/min"},
      {temperature, "temperature", "°C", "38 °C", true},
      {share, "share", "", "5 %"},
      {density, "density", "g/mL", "0.95 g/mL"},
      {conductivity, "conductivity", "µS/cm", "310 µS/cm"},
      {alkalinity, "alkalinity", "mg/L as CaCO3", "62 mg/L as CaCO3"},
      {calcium_hardness, "calcium hardness", "mg/L as CaCO3", "5 °dH"},
      {magnesium_hardness, "magnesium hardness", "mg/L as CaCO3", "1 °dH"},
      {total_hardness, "total hardness", "mg/L as CaCO3", "7 °dH"},
      {chlorine, "chlorine", "mg/L as Cl2", "0.2 mg/L"},
      {bromine, "bromine", "mg/L as Br2", "4 mg/L"},
      {cyanuric_acid, "cyanuric acid", "mg/L", "30 mg/L"},
      {dissolved_solids, "dissolved solids", "mg/L", "220 mg/L"},
      {sodium, "sodium", "mg/L", "12 mg/L"},
      {chloride, "chloride", "mg/L", "18 mg/L"},
      {sulfate, "sulfate", "mg/L as SO4", "25 mg/L"},
      {nitrate, "nitrate", "mg/L as NO3", "10 mg/L"},
      {copper, "copper", "mg/L", "0.1 mg/L"},
      {iron, "iron", "mg/L", "0.3 mg/L"},
      {manganese, "manganese", "mg/L", "0.02 mg/L"},
      {strength, "strength", "", "65 % w/w as Cl2"},
  };
  return table;
}

std::span<const Unit> units() {
  static const std::vector<Unit> table = all_units();
  return table;
}

std::span<const AmbiguousUnit> ambiguous_units() {
  static const std::vector<AmbiguousUnit> table = all_ambiguous();
  return table;
}

const KindOfQuantity& description_of(QuantityKind kind) {
  return kinds_of_quantity()[static_cast<std::size_t>(kind)];
}

}  // namespace tub
