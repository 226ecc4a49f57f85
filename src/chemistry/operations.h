// What happens to water: pure functions, water in, water out.
#pragma once

#include <string_view>

#include "chemistry/readings.h"
#include "chemistry/speciate.h"
#include "chemistry/species_table.h"
#include "chemistry/water.h"

namespace tub::chemistry {

/// Which ion's given value is replaced by the one that balances charge.
enum class Balance { sodium, chloride, none };

/// The totals behind readings: inorganic carbon follows from pH and alkalinity.
///
/// Bromide that meets free chlorine or peroxymonosulfate in the readings is oxidised first. Where
/// alkalinity is short of what the pH alone needs by less than 0.01 mg/L, which no test shows,
/// there is no carbon and pH holds: so pure water of pH 7 is water. Throws: Error if alkalinity is
/// more than the pH allows without carbon, if the carbon that it
///         asks for would boil off (above 1 atm of carbon dioxide), or if the balancing ion would
///         be negative (its help names the other ion)
Water water_from_readings(const Readings& readings, Balance balance, const SpeciesTable& table,
                          Activities activities = Activities::extended_debye_hueckel);

/// What tests would show of the water at its temperature, and what is derived.
WaterState read(const Water& water, const SpeciesTable& table);
WaterState read(const Water& water, const Speciation& speciation, const SpeciesTable& table);

/// The carbon dioxide pressure in equilibrium with the water, log10 of atm; minus infinity without
/// carbonate.
double log10_pco2_atm(const Water& water, const Speciation& speciation, const SpeciesTable& table);

/// Readings that are linear in the totals; no speciation is needed.
double total_alkalinity_mg_l(const Totals& totals);
double calcium_hardness_mg_l(const Totals& totals);
double free_chlorine_mg_l(const Totals& totals);
double total_bromine_mg_l(const Totals& totals);

/// Dissolves mg of a pure compound per kg of water; bromide that meets an oxidiser is oxidised.
///
/// Throws: Error for an unknown compound, or a dose that is negative or not finite
Water add(const Water& water, std::string_view compound, double mg_l, const SpeciesTable& table);
Water add(const Water& water, const Compound& compound, double mg_l);

/// Closed to the air, nothing precipitates.
Water heat(const Water& water, Temperature to);

/// A mix with `fraction` of the other water (0 to 1), at the mixed temperature.
///
/// Throws: Error if the fraction is outside 0 to 1
Water blend(const Water& water, const Water& other, double fraction);

/// Carbon dioxide comes or goes until it is in equilibrium with so much of it in the air;
/// alkalinity stays.
Water exchange_carbon_dioxide(const Water& water, double log10_pco2_atm, const SpeciesTable& table);

/// Chlorine, bromine or peroxymonosulfate is reduced; each mole gives one equivalent of acid.
///
/// Throws: Error if more is to be spent than there is
Water spend_free_chlorine(const Water& water, double mg_l);
Water spend_all_free_chlorine(const Water& water);
Water spend_total_bromine(const Water& water, double mg_l);
Water spend_all_total_bromine(const Water& water);
Water spend_oxidizer(const Water& water, double mg_l);
Water spend_all_oxidizer(const Water& water);

/// Metal is held by a sequestrant (1: all of it); a test of the total still reads it.
Water sequester(const Water& water, double fraction);

}  // namespace tub::chemistry
