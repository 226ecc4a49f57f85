// Laws that hold in every water: nothing is lost, charge balances, the order of doses is no matter.
#include <catch2/catch.hpp>
#include <cmath>

#include "chemistry/measures.h"
#include "chemistry/solve.h"
#include "random_water.h"
#include "reference_table.h"

using namespace tub;
using namespace tub::chemistry;
using reference::species;

namespace {

constexpr std::uint64_t seed = 20260504;

template <class Check>
void for_random_waters(int count, Check check) {
  Dice dice(seed);
  for (int i = 0; i < count; ++i)
    if (const auto water = random_water(dice, species())) check(*water, dice);
}

// What all species hold of a component, and the sum without regard to sign.
struct Sum {
  double value = 0;
  double magnitude = 0;
};

Sum held(const Speciation& speciation, Component component) {
  Sum sum;
  for (std::size_t s = 0; s < species().species().size(); ++s) {
    const double part = species().species()[s].composition.of(component) * speciation.molality[s];
    sum.value += part;
    sum.magnitude += std::abs(part);
  }
  return sum;
}

Sum charge(const Speciation& speciation) {
  Sum sum;
  for (std::size_t s = 0; s < species().species().size(); ++s) {
    const double part = species().species()[s].charge * speciation.molality[s];
    sum.value += part;
    sum.magnitude += std::abs(part);
  }
  return sum;
}

double ph(const Water& water) { return speciate(water, species()).ph; }

}  // namespace

TEST_CASE("species add up to the totals, and to no charge") {
  for_random_waters(5000, [](const Water& water, Dice&) {
    const Speciation found = speciate(water, species());
    for (std::size_t i = 0; i < component_count; ++i) {
      const auto c = static_cast<Component>(i);
      if (!species().component(c).master) continue;
      const Sum sum = held(found, c);
      const double total = c == Component::alkalinity ? -water.totals[c] : water.totals[c];
      INFO(name_of(c));
      CHECK(std::abs(sum.value - total) <= 1e-12 * sum.magnitude);
    }
    const Sum ions = charge(found);
    CHECK(std::abs(ions.value) <= 1e-12 * ions.magnitude);
  });
}

TEST_CASE("readings of a water give that water back") {
  for_random_waters(2000, [](const Water& water, Dice&) {
    const WaterState state = read(water, species());
    const Water again = water_from_readings(state, Balance::none, species());
    for (std::size_t i = 0; i < component_count; ++i) {
      INFO(component_names[i] << ": " << again.totals.at(i) << " for " << water.totals.at(i));
      CHECK(std::abs(again.totals.at(i) - water.totals.at(i)) <=
            1e-9 * std::abs(water.totals.at(i)) + 1e-18);
    }
    CHECK(read(again, species()).ph == Approx(state.ph).margin(1e-9));
  });
}

TEST_CASE("the order of two doses does not matter") {
  const std::vector<Compound>& compounds = species().compounds();
  for_random_waters(2000, [&](const Water& water, Dice& dice) {
    const auto any = [&] {
      return compounds[static_cast<std::size_t>(dice.between(0, double(compounds.size()) - 0.001))];
    };
    const Compound first = any(), second = any();
    const double one = dice.between(0, 50), two = dice.between(0, 50);
    const Water a = add(add(water, first, one), second, two);
    const Water b = add(add(water, second, two), first, one);
    INFO(first.formula << ", " << second.formula);
    for (std::size_t i = 0; i < component_count; ++i)
      CHECK(a.totals.at(i) == Approx(b.totals.at(i)).epsilon(1e-12).margin(1e-17));
  });
}

TEST_CASE("acid never raises pH, base never lowers it") {
  for_random_waters(2000, [](const Water& water, Dice& dice) {
    const double before = ph(water);
    const double dose = dice.between(0.01, 100);
    for (const char* acid : {"HCl", "NaHSO4", "H2SO4", "CO2"})
      CHECK(ph(add(water, acid, dose, species())) < before);
    CHECK(ph(add(water, "NaOH", dose, species())) > before);
  });
}

TEST_CASE("carbon dioxide leaves alkalinity as it is, and more of it means a lower pH") {
  for_random_waters(1000, [](const Water& water, Dice& dice) {
    const double much = dice.between(-3, -1), little = dice.between(-5, -3);
    const Water rich = exchange_carbon_dioxide(water, much, species());
    const Water poor = exchange_carbon_dioxide(water, little, species());
    CHECK(rich.totals[Component::alkalinity] == water.totals[Component::alkalinity]);
    CHECK(ph(rich) < ph(poor));
    CHECK(read(rich, species()).log10_pco2_atm == Approx(much).margin(1e-9));
    CHECK(read(poor, species()).log10_pco2_atm == Approx(little).margin(1e-9));
  });
}

TEST_CASE("heating keeps every total, and cooling again gives the water back") {
  for_random_waters(500, [](const Water& water, Dice&) {
    CHECK(heat(heat(water, celsius(40)), water.temperature) == water);
  });
}

TEST_CASE("a blend lies between its waters; with itself it is the same") {
  for_random_waters(500, [](const Water& water, Dice& dice) {
    const Water same = blend(water, water, dice.unit());
    for (std::size_t i = 0; i < component_count; ++i)
      CHECK(same.totals.at(i) == Approx(water.totals.at(i)).epsilon(1e-14));
    CHECK_THROWS_AS(blend(water, water, 1.2), Error);
  });
}

TEST_CASE("a warm start gives the same species") {
  for_random_waters(1000, [](const Water& water, Dice& dice) {
    const Speciation near =
        speciate(add(water, "NaHCO3", dice.between(0, 50), species()), species());
    const Speciation cold = speciate(water, species());
    const Speciation warm = speciate(water, species(), near);
    CHECK(warm.ph == Approx(cold.ph).margin(1e-11));
    CHECK(warm.ionic_strength == Approx(cold.ionic_strength).epsilon(1e-11));
  });
}

TEST_CASE("spent chlorine is an equivalent of acid; stabiliser stays") {
  for_random_waters(500, [](const Water& water, Dice&) {
    const Water spent = spend_all_free_chlorine(water);
    const double chlorine = water.totals[Component::chlorine];
    CHECK(spent.totals[Component::chlorine] == 0);
    CHECK(spent.totals[Component::alkalinity] ==
          Approx(water.totals[Component::alkalinity] - chlorine).margin(1e-17));
    CHECK(spent.totals[Component::cyanurate] == water.totals[Component::cyanurate]);
    CHECK_THROWS_AS(spend_free_chlorine(spent, 0.1), Error);
  });
}

TEST_CASE(
    "the solver converges far outside the range of tubs, on totals from traces to 0.2 mol/kg") {
  Dice dice(seed + 2);
  for (int i = 0; i < 3000; ++i) {
    Water water;
    water.temperature = celsius(dice.between(0, 50));
    for (std::size_t c = 1; c < component_count; ++c)
      if (dice.unit() < 0.6) water.totals.at(c) = std::pow(10, dice.between(-30, -0.7));
    const double alkalinity = std::pow(10, dice.between(-12, -0.7));
    water.totals[Component::alkalinity] = dice.unit() < 0.5 ? alkalinity : -alkalinity;
    const Speciation found = speciate(water, species());
    CHECK(std::isfinite(found.ph));
    for (std::size_t c = 0; c < component_count; ++c) {
      if (!species().component(static_cast<Component>(c)).master) continue;
      const Sum sum = held(found, static_cast<Component>(c));
      const double total = c == 0 ? -water.totals.at(c) : water.totals.at(c);
      CHECK(std::abs(sum.value - total) <= 1e-10 * sum.magnitude);
    }
  }
}

TEST_CASE("the solver converges on 100,000 random waters", "[robust]") {
  Dice dice(seed + 1);
  int waters = 0, rejected = 0, most_steps = 0;
  long all_steps = 0;
  while (waters < 100000) {
    const auto water = random_water(dice, species());
    if (!water) {
      ++rejected;
      continue;
    }
    const Speciation found = speciate(*water, species());
    if (!std::isfinite(found.ph) || !(found.ionic_strength > 0)) FAIL("not a number");
    most_steps = std::max(most_steps, found.steps);
    all_steps += found.steps;
    ++waters;
  }
  std::printf("seed %llu: %d waters, %d rejected, %.1f steps on average, %d at most\n",
              static_cast<unsigned long long>(seed + 1), waters, rejected,
              double(all_steps) / waters, most_steps);
  CHECK(most_steps < 60);
}
