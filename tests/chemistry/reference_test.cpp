// Every row of the reference tables; their source is in tests/reference/chemistry/README.md.
#include <catch2/catch.hpp>

#include "chemistry/activity.h"
#include "chemistry/dose.h"
#include "chemistry/precipitate.h"
#include "reference_table.h"

using namespace tub;
using namespace tub::chemistry;
using reference::check_after;
using reference::check_near;
using reference::Row;
using reference::rows;
using reference::species;

namespace {

// Liquid chlorine as the tables have it: a mole of salt and some soda with each of hypochlorite.
Water dose(const Water& water, const Row& row) {
  const std::string compound = row.text(row.has("compound") ? "compound" : "action");
  const double mg_l = row.number("dose_mgL");
  Water result = add(water, compound, mg_l, species());
  if (compound != "NaOCl") return result;
  const double moles = mg_l / species().compound("NaOCl").molar_mass;
  result = add(result, "NaCl", moles * species().compound("NaCl").molar_mass, species());
  const double soda =
      row.has("excess_NaOH_mol_per_mol") ? moles * row.number("excess_NaOH_mol_per_mol") : 0;
  return add(result, "NaOH", soda * species().compound("NaOH").molar_mass, species());
}

Water spend_everything(const Water& water) {
  return spend_all_oxidizer(spend_all_free_chlorine(water));
}

}  // namespace

TEST_CASE("species of a water agree with the reference program") {
  for (const Row& row : rows("speciation")) {
    const Water water = reference::water(row);
    const Speciation found = speciate(water, species());
    const WaterState state = read(water, found, species());
    const auto molality = [&](const char* name) {
      return found.molality[species().species_index(name)];
    };
    const auto gamma = [&](const char* name) {
      return found.log10_gamma[species().species_index(name)];
    };
    check_near(row, "DIC", state.inorganic_carbon_mmol_kg, row.number("DIC_mmol_per_kgw"),
               {0.0005, 0.002});
    check_near(row, "pCO2", state.log10_pco2_atm, row.number("log10_pCO2_atm"), {0.005, 0});
    check_near(row, "I", state.ionic_strength_mol_kg, row.number("ionic_strength_mol_per_kgw"),
               {1e-5, 0.005});
    if (row.has("SI_calcite_PB82"))
      check_near(row, "SI", state.saturation_index, row.number("SI_calcite_PB82"), {0.005, 0});
    check_near(row, "CO2", molality("CO2"), row.number("CO2_aq_mol_per_kgw"), {0, 0.003});
    check_near(row, "HCO3", molality("HCO3-"), row.number("HCO3_free_mol_per_kgw"), {0, 0.003});
    check_near(row, "CO3", molality("CO3-2"), row.number("CO3_free_mol_per_kgw"), {0, 0.01});
    check_near(row, "gamma HCO3", gamma("HCO3-"), row.number("log10_gamma_HCO3"), {0.001, 0});
    check_near(row, "gamma CO3", gamma("CO3-2"), row.number("log10_gamma_CO3"), {0.002, 0});
    check_near(row, "gamma H", gamma("H+"), row.number("log10_gamma_H"), {0.001, 0});
    check_near(row, "solids", state.dissolved_solids_mg_l, row.number("TDS_sum_of_ions_mgL"),
               {0.2, 0.002});
  }
}

TEST_CASE("one dose, closed, agrees with the reference program") {
  for (const Row& row : rows("doses"))
    check_after(row, read(dose(reference::water(row), row), species()));
}

TEST_CASE("sanitizers, dissolved and spent, agree with the reference program") {
  for (const Row& row : rows("sanitizer_doses")) {
    const Water dissolved = dose(reference::water(row), row);
    const bool spent = row.text("stage") == "spent";
    check_after(row, read(spent ? spend_everything(dissolved) : dissolved, species()));
  }
}

TEST_CASE("chains of doses agree with the reference program") {
  Water water;
  for (const Row& row : rows("sequences")) {
    const std::string action = row.text("action");
    if (action == "START") {
      water = reference::water(row, "start_");
    } else if (action == "EQUILIBRATE_CO2") {
      water = exchange_carbon_dioxide(water, row.number("target_log10_pCO2_atm"), species());
    } else {
      water = dose(water, row);
    }
    check_after(row, read(water, species()));
  }
}

TEST_CASE("carbon dioxide leaving agrees with the reference program") {
  for (const Row& row : rows("outgassing")) {
    const Water before = reference::water(row);
    const Water after =
        exchange_carbon_dioxide(before, row.number("target_log10_pCO2_atm"), species());
    check_after(row, read(after, species()));
    const double lost = before.totals[Component::carbonate] - after.totals[Component::carbonate];
    check_near(row, "lost", lost * 44009, row.number("CO2_lost_mgL"), {0.05, 0.005});
  }
}

TEST_CASE("heating, closed, agrees with the reference program") {
  for (const Row& row : rows("temperature"))
    check_after(row,
                read(heat(reference::water(row), celsius(row.number("end_temp_C"))), species()));
}

TEST_CASE("blends agree with the reference program") {
  for (const Row& row : rows("blending")) {
    const double of_second = 1 - row.number("fraction_A_by_mass_of_water");
    const Water mix = blend(reference::water(row, "A_"), reference::water(row, "B_"), of_second);
    check_after(row, read(mix, species()));
  }
}

TEST_CASE("precipitated calcite agrees with the reference program") {
  for (const Row& row : rows("precipitation")) {
    const Precipitation after = precipitate(reference::water(row), 0, species());
    check_near(row, "precipitated", after.moles * 100086, row.number("CaCO3_precipitated_PB82_mgL"),
               {0.1, 0.01});
    check_near(row, "pH", read(after.water, species()).ph, row.number("after_pH_PB82"), {0.005, 0});
  }
}

TEST_CASE("doses that reach a target agree with the reference program") {
  for (const Row& row : rows("targets")) {
    std::vector<DoseTarget> targets;
    if (row.has("target_pH")) targets.push_back({&WaterState::ph, row.number("target_pH")});
    if (row.has("target_total_alkalinity_mgL_CaCO3"))
      targets.push_back(
          {&WaterState::total_alkalinity_mg_l, row.number("target_total_alkalinity_mgL_CaCO3")});
    // The same water by its index on the engine's solubility product.
    if (row.has("target_SI_calcite"))
      targets.push_back({&WaterState::saturation_index, row.number("after_SI_calcite_PB82")});
    Compounds compounds = {&species().compound(row.text("compound_1"))};
    if (row.has("compound_2")) compounds.push_back(&species().compound(row.text("compound_2")));
    const DoseAnswer answer = dose_to(reference::water(row), compounds, targets, species());
    REQUIRE(answer.is_reached);
    check_near(row, "dose 1", answer.mg_l[0], row.number("dose_1_mgL"), {0.02, 0.007});
    if (row.has("compound_2"))
      check_near(row, "dose 2", answer.mg_l[1], row.number("dose_2_mgL"), {0.02, 0.007});
  }
}

TEST_CASE("chlorine held by cyanurate agrees with the reference program") {
  for (const Row& row : rows("hypochlorite")) {
    Readings readings;
    readings.temperature_c = 25;
    readings.ph = row.number("pH");
    readings.total_alkalinity_mg_l = 120;
    readings.calcium_hardness_mg_l = 200;
    readings.free_chlorine_mg_l = row.number("total_chlorine_mgL_Cl2");
    readings.cyanuric_acid_mg_l = row.number("cyanuric_acid_mgL");
    const WaterState state = read(
        water_from_readings(readings, Balance::chloride, species(), Activities::ideal), species());
    // The table's pKa of HOCl is 7.54, the engine's (Morris) 7.537: 0.7 % of OCl-.
    check_near(row, "HOCl", state.hocl_mg_l, row.number("HOCl_mgL_Cl2"), {0.0001, 0.009});
    check_near(row, "OCl", state.ocl_mg_l, row.number("OCl_mgL_Cl2"), {0.0001, 0.009});
    check_near(row, "bound", state.bound_chlorine_mg_l, row.number("bound_mgL_Cl2"),
               {0.002, 0.002});
    check_near(row, "cyanurate", state.cyanurate_alkalinity_mg_l,
               row.number("cyanurate_alkalinity_mgL_CaCO3"), {0.02, 0.003});
  }
}

TEST_CASE("the fraction of hypochlorous acid over temperature agrees") {
  for (const Row& row : rows("hypohalite_fraction")) {
    const double salt = row.number("NaCl_background_mgL") / 58.44;
    Readings readings;
    readings.temperature_c = row.number("temp_C");
    readings.ph = row.number("pH");
    readings.total_alkalinity_mg_l = 2;
    readings.free_chlorine_mg_l = 0.01;
    readings.chloride_mg_l = salt * 35.45;
    const WaterState state =
        read(water_from_readings(readings, Balance::sodium, species()), species());
    check_near(row, "fraction", state.hocl_mg_l / (state.hocl_mg_l + state.ocl_mg_l),
               row.number("HOCl_fraction_with_activity"), {0.002, 0});
  }
}

TEST_CASE("the fraction of hypobromous acid over pH agrees, all activity coefficients 1") {
  for (const Row& row : rows("hypohalite_fraction")) {
    Readings readings;
    readings.temperature_c = row.number("temp_C");
    readings.ph = row.number("pH");
    readings.total_alkalinity_mg_l = 20;
    readings.total_bromine_mg_l = 0.1;
    const Water water =
        water_from_readings(readings, Balance::sodium, species(), Activities::ideal);
    check_near(row, "HOBr", read(water, species()).hobr_fraction,
               row.number("HOBr_fraction_ideal_pKa8.65_at_25C"), {1e-4, 0});
  }
}

TEST_CASE("the density of water agrees with the reference program") {
  // The table's densities are of the solutions: 0.8 g/L a g/L of solids, about.
  for (const Row& row : rows("speciation")) {
    const double solids = row.number("TDS_sum_of_ions_mgL") * 1e-6;
    check_near(row, "density", water_density(celsius(row.number("temp_C"))) + 0.8 * solids,
               row.number("density_kg_per_L"), {3e-4, 0});
  }
}
