// What tests would show of a water, and what is derived from its species.
#include <cmath>

#include "chemistry/measures.h"
#include "chemistry/operations.h"
#include "chemistry/precipitate.h"
#include "chemistry/sensitivity.h"

namespace tub {
namespace {

const double ln10 = std::log(10.0);

double log10_activity(const Speciation& speciation, Component c) {
  return speciation.log_activity[static_cast<std::size_t>(c)] / ln10;
}

// The saturation index of a phase, or log10 of a gas's pressure (equation 10).
double phase_index(const Phase& phase, const Water& water, const Speciation& speciation) {
  double sum = phase.log_k.at(water.temperature);
  for (const Part& part : phase.composition) {
    if (part.component != Component::alkalinity && !(water.totals[part.component] > 0))
      return -HUGE_VAL;
    sum += part.number * log10_activity(speciation, part.component);
  }
  return sum;
}

// Equivalents per kg that the species with a component take up of acid (equation 11).
double alkalinity_held(const Speciation& speciation, const SpeciesTable& table, Component c) {
  double sum = 0;
  for (std::size_t s = 0; s < table.species().size(); ++s) {
    const Composition& made_of = table.species()[s].composition;
    if (made_of.of(c) != 0) sum -= made_of.of(Component::alkalinity) * speciation.molality[s];
  }
  return sum;
}

// Hypochlorite's share that no cyanurate holds.
double hypochlorite_alkalinity(const Speciation& speciation, const SpeciesTable& table) {
  double sum = 0;
  for (std::size_t s = 0; s < table.species().size(); ++s) {
    const Composition& made_of = table.species()[s].composition;
    if (made_of.of(Component::chlorine) != 0 && made_of.of(Component::cyanurate) == 0)
      sum -= made_of.of(Component::alkalinity) * speciation.molality[s];
  }
  return sum;
}

double carbonate_alkalinity(const Water& water, const Speciation& speciation,
                            const SpeciesTable& table) {
  double other = hypochlorite_alkalinity(speciation, table);
  for (const Component c :
       {Component::borate, Component::cyanurate, Component::bromine, Component::peroxymonosulfate})
    other += alkalinity_held(speciation, table, c);
  return (water.totals[Component::alkalinity] - other) * grams_per_mole(Component::alkalinity) *
         1e3;
}

double dissolved_solids(const Water& water, const Speciation& speciation,
                        const SpeciesTable& table) {
  double sum = 0;
  const std::size_t carbon_dioxide = *table.component(Component::carbonate).master;
  for (std::size_t s = 0; s < table.species().size(); ++s)
    if (s != carbon_dioxide) sum += speciation.molality[s] * table.species()[s].molar_mass;
  for (std::size_t i = 0; i < component_count; ++i) {
    const ComponentRow& row = table.component(static_cast<Component>(i));
    if (!row.master) sum += water.totals.at(i) * row.molar_mass;
  }
  return sum * 1e3;
}

// The fraction of HOBr in HOBr + OBr-, from pH where there is none of either (equation 12).
double hobr_fraction(const Water& water, const Speciation& speciation, const SpeciesTable& table) {
  const Species& hypobromite = table.species()[table.species_index("OBr-")];
  const std::size_t acid = table.species_index("HOBr");
  const std::size_t base = table.species_index("OBr-");
  if (water.totals[Component::bromine] > 0)
    return speciation.molality[acid] / (speciation.molality[acid] + speciation.molality[base]);
  double ratio = hypobromite.log_k.at(water.temperature) + speciation.ph;
  if (water.activities != Activities::ideal) {
    const Medium here = medium(debye_hueckel(water.temperature), speciation.ionic_strength);
    ratio += log_gamma(table.species()[acid].activity, 0, here).value -
             log_gamma(hypobromite.activity, -1, here).value;
  }
  return 1 / (1 + std::pow(10, ratio));
}

void read_totals(const Totals& totals, Readings& readings) {
  for (const Measure& m : measures)
    readings.*m.reading = totals[m.component] * m.grams_per_mole * 1e3;
  for (const HeldMetal& metal : held_metals)
    for (const Measure& m : measures)
      if (m.component == metal.free)
        readings.*m.reading += totals[metal.held] * m.grams_per_mole * 1e3;
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

WaterState read(const Water& water, const SpeciesTable& table) {
  return read(water, speciate(water, table), table);
}

WaterState read(const Water& water, const Speciation& speciation, const SpeciesTable& table) {
  WaterState state;
  read_totals(water.totals, state);
  state.temperature_c = water.temperature.celsius();
  state.ph = speciation.ph;
  state.carbonate_alkalinity_mg_l = carbonate_alkalinity(water, speciation, table);
  state.inorganic_carbon_mmol_kg = water.totals[Component::carbonate] * 1e3;
  state.saturation_index = phase_index(table.phase("calcite"), water, speciation);
  state.log10_pco2_atm = phase_index(table.phase("carbon_dioxide"), water, speciation);
  state.ionic_strength_mol_kg = speciation.ionic_strength;
  state.dissolved_solids_mg_l = dissolved_solids(water, speciation, table);
  const double as_cl2 = grams_per_mole(Component::chlorine) * 1e3;
  state.hocl_mg_l = as_cl2 * speciation.molality[table.species_index("HOCl")];
  state.ocl_mg_l = as_cl2 * speciation.molality[table.species_index("OCl-")];
  state.bound_chlorine_mg_l = state.free_chlorine_mg_l - state.hocl_mg_l - state.ocl_mg_l;
  state.hobr_fraction = hobr_fraction(water, speciation, table);
  state.cyanurate_alkalinity_mg_l = grams_per_mole(Component::alkalinity) * 1e3 *
                                    alkalinity_held(speciation, table, Component::cyanurate);
  const Response base = Sensitivity(water, speciation, table).to(Component::alkalinity);
  state.buffer_intensity_mmol_kg = 1e3 / base.ph;
  return state;
}

}  // namespace tub
