// What tests would show of a water, what is derived from its species, and how all of that changes.
#include <cmath>
#include <numbers>

#include "chemistry/derivatives.h"
#include "chemistry/measures.h"
#include "chemistry/operations.h"
#include "chemistry/precipitate.h"
#include "chemistry/sensitivity.h"

namespace tub::chemistry {
namespace {

using std::numbers::ln10;
const double as_caco3 = grams_per_mole(Component::alkalinity) * 1e3;

// Amounts of species and totals, or small changes of them: what is linear in them is one function.
struct Amounts {
  const std::array<double, max_species>& molality;
  const Totals& totals;
};

// Equivalents per kg that the species with a component took up of acid (equation 11).
double alkalinity_held(const Amounts& amounts, const SpeciesTable& table, Component c) {
  double sum = 0;
  for (std::size_t s = 0; s < table.species().size(); ++s) {
    const Composition& made_of = table.species()[s].composition;
    if (made_of.of(c) != 0) sum -= made_of.of(Component::alkalinity) * amounts.molality[s];
  }
  return sum;
}

// Hypochlorite's share that no cyanurate holds.
double hypochlorite_alkalinity(const Amounts& amounts, const SpeciesTable& table) {
  double sum = 0;
  for (std::size_t s = 0; s < table.species().size(); ++s) {
    const Composition& made_of = table.species()[s].composition;
    if (made_of.of(Component::chlorine) != 0 && made_of.of(Component::cyanurate) == 0)
      sum -= made_of.of(Component::alkalinity) * amounts.molality[s];
  }
  return sum;
}

double carbonate_alkalinity(const Amounts& amounts, const SpeciesTable& table) {
  double other = hypochlorite_alkalinity(amounts, table);
  for (const Component c :
       {Component::borate, Component::cyanurate, Component::bromine, Component::peroxymonosulfate})
    other += alkalinity_held(amounts, table, c);
  return (amounts.totals[Component::alkalinity] - other) * as_caco3;
}

double dissolved_solids(const Amounts& amounts, const SpeciesTable& table) {
  double sum = 0;
  const std::size_t carbon_dioxide = *table.component(Component::carbonate).master;
  for (std::size_t s = 0; s < table.species().size(); ++s)
    if (s != carbon_dioxide) sum += amounts.molality[s] * table.species()[s].molar_mass;
  for (std::size_t i = 0; i < component_count; ++i) {
    const ComponentRow& row = table.component(static_cast<Component>(i));
    if (!row.master) sum += amounts.totals.at(i) * row.molar_mass;
  }
  return sum * 1e3;
}

void read_totals(const Totals& totals, Readings& readings) {
  for (const LinearReading& m : measures)
    readings.*m.reading = totals[m.component] * m.grams_per_mole * 1e3;
  for (const HeldMetal& metal : held_metals)
    for (const LinearReading& m : measures)
      if (m.component == metal.free)
        readings.*m.reading += totals[metal.held] * m.grams_per_mole * 1e3;
}

// Chlorine in species that hold cyanurate too, mol/kg: added up, since a difference of the total
// and the rest leaves its rounding where there is none.
double bound_chlorine(const Amounts& amounts, const SpeciesTable& table) {
  double sum = 0;
  for (std::size_t s = 0; s < table.species().size(); ++s) {
    const Composition& made_of = table.species()[s].composition;
    if (made_of.of(Component::cyanurate) == 0) continue;
    sum += made_of.of(Component::chlorine) * amounts.molality[s];
  }
  return sum;
}

void read_linear(const Amounts& amounts, const SpeciesTable& table, WaterState& state) {
  read_totals(amounts.totals, state);
  state.carbonate_alkalinity_mg_l = carbonate_alkalinity(amounts, table);
  state.inorganic_carbon_mmol_kg = amounts.totals[Component::carbonate] * 1e3;
  state.dissolved_solids_mg_l = dissolved_solids(amounts, table);
  const double as_cl2 = grams_per_mole(Component::chlorine) * 1e3;
  state.hocl_mg_l = as_cl2 * amounts.molality[table.species_index("HOCl")];
  state.ocl_mg_l = as_cl2 * amounts.molality[table.species_index("OCl-")];
  state.bound_chlorine_mg_l = as_cl2 * bound_chlorine(amounts, table);
  state.cyanurate_alkalinity_mg_l =
      as_caco3 * alkalinity_held(amounts, table, Component::cyanurate);
}

// The sum of log10 activities of what a phase is made of, or its change.
double log10_product(const Phase& phase, const std::array<double, component_count>& log_activity) {
  double sum = 0;
  for (const Part& part : phase.composition)
    sum += part.number * log_activity[static_cast<std::size_t>(part.component)];
  return sum / ln10;
}

// The saturation index of a phase, or log10 of a gas's pressure (equation 10).
double phase_index(const Phase& phase, const Water& water, const Speciation& speciation) {
  for (const Part& part : phase.composition)
    if (part.component != Component::alkalinity && !(water.totals[part.component] > 0))
      return -HUGE_VAL;
  return phase.log_k.at(water.temperature) + log10_product(phase, speciation.log_activity);
}

// The fraction of HOBr in HOBr + OBr-, from pH where there is none of either (equation 12).
double hobr_fraction(const Water& water, const Speciation& speciation, const SpeciesTable& table) {
  const std::size_t acid = table.species_index("HOBr");
  const std::size_t base = table.species_index("OBr-");
  if (water.totals[Component::bromine] > 0)
    return speciation.molality[acid] / (speciation.molality[acid] + speciation.molality[base]);
  const Species& hypobromite = table.species()[base];
  double ratio = hypobromite.log_k.at(water.temperature) + speciation.ph;
  if (water.activities != Activities::ideal) {
    const Medium here = medium(debye_hueckel(water.temperature), speciation.ionic_strength);
    ratio += log_gamma(table.species()[acid].activity, 0, here).value -
             log_gamma(hypobromite.activity, -1, here).value;
  }
  return 1 / (1 + std::pow(10, ratio));
}

// A trace of every component that could react but is not there.
Water with_traces(Water water, const SpeciesTable& table) {
  constexpr double trace = 1e-12;
  for (std::size_t i = 1; i < component_count; ++i)
    if (water.totals.at(i) == 0 && table.component(static_cast<Component>(i)).master)
      water.totals.at(i) = trace;
  return water;
}

}  // namespace

double total_alkalinity_mg_l(const Totals& totals) {
  return milligrams(totals, Component::alkalinity);
}
double calcium_hardness_mg_l(const Totals& totals) {
  return milligrams(totals, Component::calcium);
}
double free_chlorine_mg_l(const Totals& totals) { return milligrams(totals, Component::chlorine); }
double total_bromine_mg_l(const Totals& totals) { return milligrams(totals, Component::bromine); }

double saturation_index(const Water& water, const SpeciesTable& table) {
  return phase_index(table.phase("calcite"), water, speciate(water, table));
}

double log10_pco2_atm(const Water& water, const Speciation& speciation, const SpeciesTable& table) {
  return phase_index(table.phase("carbon_dioxide"), water, speciation);
}

WaterState read(const Water& water, const SpeciesTable& table) {
  return read(water, speciate(water, table), table);
}

WaterState read(const Water& water, const Speciation& speciation, const SpeciesTable& table) {
  WaterState state;
  read_linear({speciation.molality, water.totals}, table, state);
  state.temperature_c = water.temperature.celsius();
  state.ph = speciation.ph;
  state.saturation_index = phase_index(table.phase("calcite"), water, speciation);
  state.log10_pco2_atm = phase_index(table.phase("carbon_dioxide"), water, speciation);
  state.ionic_strength_mol_kg = speciation.ionic_strength;
  state.hobr_fraction = hobr_fraction(water, speciation, table);
  const Response base = Sensitivity(water, speciation, table).to(Component::alkalinity);
  state.buffer_intensity_mmol_kg = 1e3 / base.ph;
  return state;
}

Derivatives::Derivatives(const Water& water, const SpeciesTable& table)
    : Derivatives(with_traces(water, table), speciate(with_traces(water, table), table), table) {}

Derivatives::Derivatives(const Water& water, const Speciation& speciation,
                         const SpeciesTable& table)
    : table_(table),
      speciation_(speciation),
      sensitivity_(water, speciation_, table),
      by_alkalinity_(sensitivity_.to(Component::alkalinity)) {}

WaterState Derivatives::by(Component total) const {
  Totals change;
  change[total] = 1;
  return slopes(sensitivity_.to(total), change);
}

WaterState Derivatives::by_constant(std::size_t species) const {
  return slopes(sensitivity_.to_constant(species), Totals{});
}

WaterState Derivatives::slopes(const Response& response, const Totals& change) const {
  WaterState slope;
  read_linear({response.molality, change}, table_, slope);
  slope.temperature_c = 0;
  slope.ph = response.ph;
  slope.saturation_index = log10_product(table_.phase("calcite"), response.log_activity);
  slope.log10_pco2_atm = log10_product(table_.phase("carbon_dioxide"), response.log_activity);
  slope.ionic_strength_mol_kg = response.ionic_strength;
  const std::size_t acid = table_.species_index("HOBr");
  const std::size_t base = table_.species_index("OBr-");
  const double a = speciation_.molality[acid], b = speciation_.molality[base];
  if (a + b > 0)
    slope.hobr_fraction =
        (response.molality[acid] * b - response.molality[base] * a) / ((a + b) * (a + b));
  slope.buffer_intensity_mmol_kg = -1e3 * sensitivity_.ph_curvature(by_alkalinity_, response) /
                                   (by_alkalinity_.ph * by_alkalinity_.ph);
  return slope;
}

}  // namespace tub::chemistry
