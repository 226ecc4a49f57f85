// Volumes against worked problems that were printed elsewhere.
#include "job/read/vessel_volume.h"

#include <catch2/catch.hpp>
#include <numbers>

#include "base/text.h"
#include "job_test.h"
#include "project_text.h"
#include "units/display.h"

using namespace tub;
using namespace tub::job;
using namespace tub::job::test;

namespace {

double number(const std::string& text) { return *to_number(text); }

double in_metres(const std::string& value, const std::string& unit) {
  return *parse_quantity(QuantityKind::length, value + " " + unit).value;
}

std::vector<std::vector<std::string>> problems() {
  std::vector<std::vector<std::string>> rows;
  for (const std::string& line :
       split(project_text("tests/reference/job/volume_problems.csv"), '\n')) {
    if (line.empty() || line.front() == '#' || line.starts_with("id,")) continue;
    rows.push_back(split(line, ','));
  }
  return rows;
}

Basin basin_of(const std::vector<std::string>& row) {
  Basin basin;
  basin.shape = row[1] == "round" ? Basin::Shape::round : Basin::Shape::rectangle;
  basin.length_m = in_metres(row[3], row[2]);
  basin.width_m = in_metres(row[4], row[2]);
  basin.water_depth_m = in_metres(row[5], row[2]);
  for (const std::string& bench : split(row[6], ' ')) {
    const auto sides = split(bench, 'x');
    if (sides.size() != 3) continue;
    basin.benches.push_back(
        {in_metres(sides[0], row[2]), in_metres(sides[1], row[2]), in_metres(sides[2], row[2])});
  }
  return basin;
}

/// The printed answer with the source's rounded factors taken out of it, in litres.
double answer_l(const std::vector<std::string>& row) {
  constexpr double us_gal_per_ft3 = 1728.0 / 231;
  double answer = *parse_quantity(QuantityKind::volume, row[7] + " " + row[8]).value;
  if (!row[9].empty()) answer *= std::numbers::pi / number(row[9]);
  if (!row[10].empty()) answer *= us_gal_per_ft3 / number(row[10]);
  return answer;
}

}  // namespace

TEST_CASE("every worked volume problem comes to its printed answer, its rounded factors undone") {
  REQUIRE(problems().size() == 7);
  for (const auto& row : problems()) {
    CAPTURE(row[0]);
    CHECK(basin_of(row).litres() == Approx(answer_l(row)).epsilon(number(row[11])));
  }
}

TEST_CASE("a ring bench is as long as the middle of its seat") {
  // A ring 0.35 m wide in a round tub of 2 m: pi (1 - 0.65 x 0.65) m2 is 1.8143 m2.
  const SeatBench ring{2 * std::numbers::pi * (1 - 0.35 / 2), 0.35, 0.45};
  CHECK(ring.area_m2() == Approx(std::numbers::pi * (1 - 0.65 * 0.65)));
}

TEST_CASE("bicarbonate that raised alkalinity by so much tells the volume of a pool") {
  // w034: 4 lb of sodium bicarbonate raised total alkalinity from 100 to 115 ppm: 19,040 US gal by
  // the rule's number 71,400 x lb / ppm. Source: onBalance, chemical method of determining pool
  // volume. Each gram of NaHCO3 (84.007 g/mol) is 50.043 / 84.007 g as CaCO3.
  Dilution dilution;
  dilution.grams = 4 * 453.59237;
  dilution.rise_per_gram_per_litre = 1000 * 50.043 / 84.007;
  dilution.before = 100;
  dilution.after = 115;
  CHECK(dilution.litres() == Approx(19040 * 3.785411784).epsilon(0.003));
}

TEST_CASE("a dilution is as uncertain as its two tests and the product's strength") {
  Dilution dilution{100, 595.7, 60, 100, 10, 10, 0.01};
  // sqrt(0.25^2 + 0.25^2 + 0.01^2)
  CHECK(dilution.give_or_take() == Approx(0.3537).epsilon(1e-3));
}

TEST_CASE("two volumes agree within what two independent errors come to") {
  // 5 % of 1000 L and 10 % of 1100 L: sqrt(50^2 + 110^2) is 121 L.
  CHECK(agree({"volume", 1000, 0.05}, {"fill", 1100, 0.10}));
  // 10 % of 1130 L makes it 123.6 L; they are 130 L apart.
  CHECK_FALSE(agree({"volume", 1000, 0.05}, {"fill", 1130, 0.10}));
}
