// The units that people write: each means what its definition says, the rest is refused with help.
#include "units/display.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>
#include <map>
#include <random>
#include <set>

#include "base/text.h"

namespace {

using tub::parse_quantity;
using tub::ParsedQuantity;
using tub::QuantityKind;
using enum tub::QuantityKind;

QuantityKind kind_named(std::string name) {
  name = tub::replaced(name, "_", " ");
  for (const auto& row : tub::kinds_of_quantity()) {
    if (row.name == name) return row.kind;
  }
  FAIL("no kind " + name);
  return volume;
}

std::vector<std::vector<std::string>> reference(const std::string& name) {
  std::ifstream file(std::string(TUB_SOURCE_DIR) + "/tests/reference/units/" + name);
  REQUIRE(file.good());
  std::vector<std::vector<std::string>> rows;
  bool is_heading = true;
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line.front() == '#') continue;
    if (!is_heading) rows.push_back(tub::split(line, ','));
    is_heading = false;
  }
  REQUIRE(rows.size() > 10);
  return rows;
}

double number(const std::string& text) { return *tub::to_number(text); }

double value(QuantityKind kind, const std::string& text) {
  const ParsedQuantity parsed = parse_quantity(kind, text);
  INFO(text << ": " << parsed.problem);
  REQUIRE(parsed.value);
  return *parsed.value;
}

const tub::Unit& unit_named(QuantityKind kind, const std::string& name) {
  for (const tub::Unit& unit : tub::units()) {
    if (unit.kind == kind && unit.name == name) return unit;
  }
  FAIL("no unit " + name);
  return tub::units().front();
}

/// Half of the last digit that a reference prints.
double half_a_digit(const std::string& printed) {
  const std::size_t point = printed.find('.');
  const double decimals =
      point == std::string::npos ? 0 : static_cast<double>(printed.size() - point - 1);
  return 0.5001 * std::pow(10, -decimals);
}

std::string refusal(QuantityKind kind, const std::string& text) {
  const ParsedQuantity parsed = parse_quantity(kind, text);
  CHECK_FALSE(parsed.value);
  return parsed.problem + " | " + parsed.help;
}

}  // namespace

TEST_CASE("one of each unit is what its definition says") {
  for (const auto& row : reference("conversions.csv")) {
    INFO(row[0] << " " << row[1]);
    const double one = value(kind_named(row[0]), "1 " + row[1]);
    // The reference weighs CaCO3 at 100.0869 g/mol, the water engine at 100.086: 9 parts in 10^6.
    const double tolerance =
        row[3] == "1" ? 1e-12 * number(row[2]) : 1e-5 * number(row[2]) + half_a_digit(row[2]);
    CHECK(one == Approx(number(row[2])).margin(tolerance).epsilon(0));
  }
}

TEST_CASE("worked conversions come out to the printed digit") {
  for (const auto& row : reference("oracles.csv")) {
    INFO(row[1] << " " << row[2] << " in " << row[4]);
    const QuantityKind kind = kind_named(row[0]);
    const tub::Unit& target = unit_named(kind, row[4]);
    const double own = value(kind, row[1] + " " + row[2]);
    const double tolerance = half_a_digit(row[3]) + 1e-5 * number(row[3]);  // as above
    CHECK((own - target.offset) / target.factor ==
          Approx(number(row[3])).margin(tolerance).epsilon(0));
  }
}

TEST_CASE("a unit means something else for another quantity") {
  CHECK(value(alkalinity, "1 mmol/L") == Approx(50.04).margin(0.005));
  CHECK(value(calcium_hardness, "1 mmol/L") == Approx(100.09).margin(0.005));
  CHECK(value(chlorine, "1 mmol/L") == Approx(70.9));
  CHECK(value(bromine, "1 mg/L") == 1);
  CHECK(value(bromine, "1 mg/L as Cl2") == Approx(159.808 / 70.9));
}

TEST_CASE("a quantity may be written as people and reports write it") {
  CHECK(value(volume, "1340 L") == 1340);
  CHECK(value(volume, "1340L") == 1340);
  CHECK(value(volume, " 354  US gal ") == Approx(354 * 3.785411784));
  CHECK(value(volume, "1.34 m³") == Approx(1340));
  CHECK(value(temperature, "80 °F") == Approx(26.6667).margin(1e-4));
  CHECK(value(temperature, "-4 C") == -4);
  CHECK(value(alkalinity, "62 ppm") == 62);
  CHECK(value(alkalinity, "62 mg/L as CaCO₃") == 62);
  CHECK(value(alkalinity, "62 mg/L CaCO3") == 62);
  CHECK(value(alkalinity, "2.8 mmol/L KS4,3") == Approx(2.8 * 50.043));
  CHECK(value(conductivity, "310 µS/cm") == 310);
  CHECK(value(conductivity, "310 μS/cm") == 310);  // the Greek letter
  CHECK(value(conductivity, "310 uS/cm") == 310);
  CHECK(value(conductivity, "0.31 mS/cm") == Approx(310));
  CHECK(value(iron, "120 µg/L") == Approx(0.12));
  CHECK(value(volume, "1340\u202FL") == 1340);
  CHECK(value(QuantityKind::time, "34 min") == 34 * 60);
  CHECK(value(share, "5 %") == Approx(0.05));
  CHECK(value(density, "0.95 g/mL") == 0.95);
}

TEST_CASE("a unit with two meanings is refused with the choices") {
  CHECK(refusal(volume, "354 gal") ==
        "the unit \"gal\" has more than one meaning | write US gal or imp gal");
  CHECK(refusal(volume, "8 oz") ==
        "the unit \"oz\" has more than one meaning | write US fl oz or imp fl oz");
  CHECK(refusal(calcium_hardness, "5 grains") ==
        "the unit \"grains\" has more than one meaning | write gpg or °e");
  const auto strength_found = tub::parse_strength("12 %");
  CHECK_FALSE(strength_found.value);
  CHECK(strength_found.problem == "the unit \"%\" has more than one meaning");
  CHECK(strength_found.help == "write % w/w as Cl2 or g/100 mL as Cl2");
}

TEST_CASE("what is no quantity is refused with what to write") {
  CHECK(refusal(alkalinity, "7,9 mmol/L") == "the number \"7,9\" has a comma in it | write 7.9");
  CHECK(refusal(volume, "1,340 L") ==
        "the number \"1,340\" has a comma in it | write 1340 or 1.340");
  CHECK(refusal(volume, "1,340.5 L") == "the number \"1,340.5\" has a comma in it | write 1340.5");
  CHECK(refusal(volume, "1 340 L") == "the number \"1 340\" has a separator in it | write 1340");
  CHECK(refusal(volume, "1.3.4 L") ==
        "\"1.3.4\" is not a number | write digits with at most one decimal point");
  CHECK(refusal(volume, "1340") == "the unit of volume is missing | write it as in \"1340 L\"");
  CHECK(refusal(volume, "-5 L") ==
        "expected volume of 0 or more, found -5 L | write it as in \"1340 L\"");
  CHECK(refusal(volume, "lots") ==
        "expected a number and its unit, found \"lots\" | write it as in \"1340 L\"");
  for (const std::string text : {"", "NaN L", "inf L", "L", "-", "."}) {
    CHECK(refusal(volume, text).find("write it as in \"1340 L\"") != std::string::npos);
  }
  CHECK(refusal(volume, "5 °dH").find("\"°dH\" is not a unit of volume | known are: L, mL") == 0);
  CHECK(refusal(alkalinity, "5 mg/L as CaCo3") ==
        "\"mg/L as CaCo3\" is not a unit of alkalinity | did you mean mg/L as CaCO3?");
  CHECK(refusal(volume, "5e3 L").find("\"e3 L\" is not a unit of volume") == 0);
}

TEST_CASE("a strength keeps its basis, in one spelling") {
  const auto found = tub::parse_strength("12.5 g/100mL as Cl₂");
  CHECK(found.value == 12.5);
  CHECK(found.basis == "g/100 mL as Cl2");
  CHECK(tub::parse_strength("65 %w/w as Cl2").basis == "% w/w as Cl2");
  CHECK(tub::parse_strength("0 % w/w as Cl2").problem ==
        "expected a strength above 0, found 0 % w/w as Cl2");
  CHECK(tub::parse_strength("65").problem == "the unit of strength is missing");
}

TEST_CASE("a dose is an amount for a volume of water") {
  const auto millilitres = tub::parse_dose("45 mL per 1000 L");
  CHECK(millilitres.value == 45);
  CHECK(millilitres.unit == tub::ParsedAmount::Unit::millilitres);
  CHECK(*tub::parse_dose("2 US fl oz per 500 US gal").value ==
        Approx(2 * 29.5735295625 / (0.5 * 3.785411784)));
  const auto grams = tub::parse_dose("0.03 kg per 1 m3");
  CHECK(grams.value == Approx(30));
  CHECK(grams.unit == tub::ParsedAmount::Unit::grams);
  CHECK(tub::parse_dose("45 mL").problem == "expected an amount per volume, found \"45 mL\"");
  CHECK(tub::parse_dose("2 oz per 1000 L").help ==
        "write oz av (by weight), US fl oz or imp fl oz");
  CHECK(tub::parse_dose("45 mL per 300 gal").help == "write US gal or imp gal");
  CHECK(tub::parse_dose("45 mL per 0 L").problem ==
        "expected a volume above 0, found \"45 mL per 0 L\"");
  CHECK(tub::parse_amount("2 kg").value == 2000);
  CHECK(tub::parse_amount("1 L").value == 1000);
}

TEST_CASE("within a kind no spelling means two units") {
  std::map<std::pair<QuantityKind, std::string>, std::string> meaning;
  const auto claim = [&](QuantityKind kind, const std::string& spelling, const std::string& name) {
    const auto [place, is_new] = meaning.insert({{kind, spelling}, name});
    INFO(tub::description_of(kind).name << ": " << spelling);
    CHECK((is_new || place->second == name));
  };
  for (const tub::Unit& unit : tub::units()) {
    claim(unit.kind, unit.name, unit.name);
    for (const std::string& spelling : unit.spellings) claim(unit.kind, spelling, unit.name);
  }
  for (const tub::AmbiguousUnit& row : tub::ambiguous_units()) {
    for (const std::string& spelling : row.spellings) claim(row.kind, spelling, "ambiguous");
    if (row.kind == strength) continue;
    for (const std::string& choice : row.choices)
      CHECK(parse_quantity(row.kind, "1 " + choice).value);
  }
}

TEST_CASE("every kind's example and own unit can be read") {
  for (const auto& row : tub::kinds_of_quantity()) {
    INFO(row.name);
    CHECK(tub::description_of(row.kind).name == row.name);
    if (row.kind == strength) continue;
    CHECK(parse_quantity(row.kind, row.example).value);
    if (!row.own_unit.empty()) CHECK(value(row.kind, tub::in_own_unit(row.kind, 2)) == 2);
  }
}

TEST_CASE("whatever is typed gives a value, or a problem with help") {
  const std::vector<std::string> pieces = {"1",  "3.4", ",",    ".",   " ",     "L", "°dH",
                                           "mg", "-",   "µ",    "per", "1000 ", "%", "gal",
                                           "oz", "'",   "\xFF", "+",   "as Cl2"};
  std::mt19937 random(20260504);
  std::uniform_int_distribution<std::size_t> piece(0, pieces.size() - 1);
  for (int trial = 0; trial < 5000; ++trial) {
    std::string text;
    for (int i = 0; i < trial % 7; ++i) text += pieces[piece(random)];
    INFO("\"" << text << "\"");
    for (const QuantityKind kind : {volume, temperature, calcium_hardness, share}) {
      const ParsedQuantity parsed = parse_quantity(kind, text);
      REQUIRE(parsed.value.has_value() == parsed.problem.empty());
      REQUIRE(parsed.problem.empty() == parsed.help.empty());
      if (parsed.value) REQUIRE(std::isfinite(*parsed.value));
    }
    const auto found = tub::parse_strength(text);
    REQUIRE(found.value.has_value() == found.problem.empty());
    const auto dose = tub::parse_dose(text);
    REQUIRE(dose.value.has_value() == dose.problem.empty());
  }
}
