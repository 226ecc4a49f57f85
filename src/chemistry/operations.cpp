#include "chemistry/operations.h"

#include <fmt/format.h>

#include <cmath>

#include "base/error.h"
#include "base/text.h"
#include "chemistry/measures.h"
#include "chemistry/oxidants.h"
#include "chemistry/speciation_series.h"

namespace tub::chemistry {
namespace {

// An oxidant's end: it becomes an ion, and gives so much acid.
struct Spending {
  Component oxidant;
  Component becomes;
  std::string_view name;
};

// HOCl -> Cl- + H+, HOBr -> Br- + H+, HSO5- -> SO4-2 + H+ (equations 15 to 17).
constexpr Spending chlorine = {Component::chlorine, Component::chloride, "free chlorine"};
constexpr Spending bromine = {Component::bromine, Component::bromide, "total bromine"};
constexpr Spending oxidizer = {Component::peroxymonosulfate, Component::sulfate,
                               "peroxymonosulfate"};

Water spend_moles(const Water& water, const Spending& spending, double moles) {
  Water result = water;
  result.totals[spending.oxidant] -= moles;
  result.totals[spending.becomes] += moles;
  result.totals[Component::alkalinity] -= moles;
  oxidise_bromide(result.totals);
  return result;
}

Water spend(const Water& water, const Spending& spending, double mg_l) {
  const double there = milligrams(water.totals, spending.oxidant);
  if (!(mg_l >= 0) || mg_l > there * (1 + 1e-12))
    throw Error(Diagnostic{fmt::format("{} mg/L of {} cannot be spent: there are {} mg/L",
                                       shortest(mg_l), spending.name, shortest(there)),
                           "",
                           {},
                           "spend at most what is there, or \"all\""});
  const double moles = mg_l / (grams_per_mole(spending.oxidant) * 1e3);
  return spend_moles(water, spending, std::min(moles, water.totals[spending.oxidant]));
}

Water spend_all(const Water& water, const Spending& spending) {
  return spend_moles(water, spending, water.totals[spending.oxidant]);
}

}  // namespace

void oxidise_bromide(Totals& totals) {
  const auto react = [&](Component oxidant, Component becomes) {
    const double moles = std::min(totals[Component::bromide], totals[oxidant]);
    totals[Component::bromide] -= moles;
    totals[oxidant] -= moles;
    totals[becomes] += moles;
    totals[Component::bromine] += moles;
  };
  react(Component::chlorine, Component::chloride);
  react(Component::peroxymonosulfate, Component::sulfate);
}

Water add(const Water& water, std::string_view compound, double mg_l, const SpeciesTable& table) {
  return add(water, table.compound(compound), mg_l);
}

Water add(const Water& water, const Compound& compound, double mg_l) {
  if (!(mg_l >= 0 && std::isfinite(mg_l)))
    throw Error(
        Diagnostic{fmt::format("a dose of {} mg/L of {} is impossible", mg_l, compound.formula),
                   "",
                   {},
                   "give a number that is not negative"});
  Water result = water;
  result.totals += compound.adds * (mg_l / (compound.molar_mass * 1e3));
  oxidise_bromide(result.totals);
  return result;
}

Water heat(const Water& water, Temperature to) {
  Water result = water;
  result.temperature = to;
  return result;
}

Water blend(const Water& water, const Water& other, double fraction) {
  if (!(fraction >= 0 && fraction <= 1))
    throw Error(Diagnostic{fmt::format("a fraction is from 0 to 1, found {}", fraction),
                           "",
                           {},
                           "write 0.25 for a quarter of the other water"});
  Water result = water;
  result.totals = water.totals * (1 - fraction) + other.totals * fraction;
  const double warmer_by = other.temperature.kelvin() - water.temperature.kelvin();
  result.temperature = Temperature::from_kelvin(water.temperature.kelvin() + warmer_by * fraction);
  oxidise_bromide(result.totals);
  return result;
}

Water exchange_carbon_dioxide(const Water& water, double log10_pco2_atm,
                              const SpeciesTable& table) {
  return SpeciationSeries(table).in_air(water, log10_pco2_atm);
}

Water spend_free_chlorine(const Water& water, double mg_l) { return spend(water, chlorine, mg_l); }
Water spend_all_free_chlorine(const Water& water) { return spend_all(water, chlorine); }
Water spend_total_bromine(const Water& water, double mg_l) { return spend(water, bromine, mg_l); }
Water spend_all_total_bromine(const Water& water) { return spend_all(water, bromine); }
Water spend_oxidizer(const Water& water, double mg_l) { return spend(water, oxidizer, mg_l); }
Water spend_all_oxidizer(const Water& water) { return spend_all(water, oxidizer); }

Water sequester(const Water& water, double fraction) {
  if (!(fraction >= 0 && fraction <= 1))
    throw Error(Diagnostic{fmt::format("a fraction is from 0 to 1, found {}", fraction),
                           "",
                           {},
                           "write 1 for all of the metal"});
  Water result = water;
  for (const HeldMetal& metal : held_metals) {
    const double moved = result.totals[metal.free] * fraction;
    result.totals[metal.free] -= moved;
    result.totals[metal.held] += moved;
  }
  return result;
}

}  // namespace tub::chemistry
