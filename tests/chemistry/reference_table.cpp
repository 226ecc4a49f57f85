#include "reference_table.h"

#include <catch2/catch.hpp>
#include <iterator>
#include <sstream>

#include "base/text.h"
#include "project_text.h"

namespace tub::chemistry::reference {
namespace {

struct Expected {
  const char* column;
  double WaterState::*member;
  Tolerance tolerance;
};

// The tolerances are tighter than databases agree with each other: what is left is rounding.
const std::vector<Expected> expectations = {
    {"after_pH", &WaterState::ph, {0.005, 0}},
    {"after_total_alkalinity_mgL_CaCO3", &WaterState::total_alkalinity_mg_l, {0.05, 0.0005}},
    {"after_carbonate_alkalinity_mgL_CaCO3", &WaterState::carbonate_alkalinity_mg_l, {0.05, 0.001}},
    {"after_calcium_hardness_mgL_CaCO3", &WaterState::calcium_hardness_mg_l, {0.05, 0.0005}},
    {"after_DIC_mmol_per_kgw", &WaterState::inorganic_carbon_mmol_kg, {0.0005, 0.002}},
    {"after_log10_pCO2_atm", &WaterState::log10_pco2_atm, {0.005, 0}},
    {"after_borate_as_boron_mgL", &WaterState::borate_as_boron_mg_l, {0.01, 0.001}},
    {"after_HOCl_mgL_Cl2", &WaterState::hocl_mg_l, {0.001, 0.005}},
    {"after_OCl_mgL_Cl2", &WaterState::ocl_mg_l, {0.001, 0.005}},
    {"after_cyanuric_total_mgL", &WaterState::cyanuric_acid_mg_l, {0.02, 0.001}},
    {"after_cyanurate_alkalinity_mgL_CaCO3", &WaterState::cyanurate_alkalinity_mg_l, {0.02, 0.003}},
    {"after_total_chlorine_mgL_Cl2", &WaterState::free_chlorine_mg_l, {0.005, 0.001}},
    {"after_potassium_mgL", &WaterState::potassium_mg_l, {0.001, 0.001}},
    {"after_ionic_strength_mol_per_kgw", &WaterState::ionic_strength_mol_kg, {0.00001, 0.005}},
    {"after_SI_calcite_PB82", &WaterState::saturation_index, {0.005, 0}},
};

std::string name_of(const Row& row) {
  return row.has("case_id") ? row.text("case_id") : row.text("chain_id") + "/" + row.text("step");
}

}  // namespace

std::string Row::text(const std::string& column) const {
  const auto cell = cells_.find(column);
  return cell == cells_.end() ? "" : cell->second;
}

double Row::number(const std::string& column) const {
  const auto value = to_number(text(column));
  INFO("column " << column);
  REQUIRE(value);
  return *value;
}

std::vector<Row> rows(const std::string& name) {
  std::istringstream text(
      project_text(std::string(TUB_SOURCE_DIR "/tests/reference/chemistry/") + name + ".csv"));
  std::string line;
  std::getline(text, line);
  const std::vector<std::string> columns = split(trimmed(line), ',');
  std::vector<Row> result;
  while (std::getline(text, line)) {
    const std::vector<std::string> cells = split(trimmed(line), ',');
    REQUIRE(cells.size() == columns.size());
    std::map<std::string, std::string> row;
    for (std::size_t i = 0; i < columns.size(); ++i) row[columns[i]] = cells[i];
    result.emplace_back(std::move(row));
  }
  REQUIRE_FALSE(result.empty());
  return result;
}

const SpeciesTable& species() {
  static const std::string path = TUB_SOURCE_DIR "/src/chemistry/data/species.json";
  static const SpeciesTable table = SpeciesTable::parse(project_text(path), path);
  return table;
}

Readings start(const Row& row, const std::string& prefix) {
  Readings readings;
  readings.temperature_c = row.number(prefix + "temp_C");
  readings.ph = row.number(prefix + "pH");
  readings.total_alkalinity_mg_l = row.number(prefix + "total_alkalinity_mgL_CaCO3");
  readings.calcium_hardness_mg_l = row.number(prefix + "calcium_hardness_mgL_CaCO3");
  readings.magnesium_hardness_mg_l = row.number(prefix + "magnesium_hardness_mgL_CaCO3");
  readings.sodium_mg_l = row.number(prefix + "sodium_mgL");
  readings.chloride_mg_l = row.number(prefix + "chloride_mgL");
  readings.sulfate_mg_l = row.number(prefix + "sulfate_mgL");
  return readings;
}

Water water(const Row& row, const std::string& prefix) {
  return water_from_readings(start(row, prefix), Balance::sodium, species());
}

void check_near(const Row& row, const std::string& what, double found, double expected,
                const Tolerance& tolerance) {
  INFO(name_of(row) << ", " << what << ": " << found << " for " << expected);
  const double allowed = std::max(tolerance.absolute, tolerance.relative * std::abs(expected));
  CHECK(std::abs(found - expected) <= allowed);
}

void check_after(const Row& row, const WaterState& state) {
  const bool far_above =
      row.has("after_SI_calcite_PB82") && row.number("after_SI_calcite_PB82") > 1.5;
  const double scale = row.text("extreme") == "1" || far_above ? 3 : 1;
  for (const Expected& e : expectations)
    if (row.has(e.column))
      check_near(row, e.column, state.*e.member, row.number(e.column),
                 {scale * e.tolerance.absolute, scale * e.tolerance.relative});
}

}  // namespace tub::chemistry::reference
