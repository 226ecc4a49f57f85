#include "planning/retests/tub_history.h"

#include <algorithm>
#include <cmath>

#include "chemistry/gas.h"

namespace tub::planning {
namespace {

double factor_for(const Circumstances& tub, std::size_t supply) {
  const bool is_there = supply < tub.strength_factors.size();
  return tub.dose_factor * (is_there ? tub.strength_factors[supply] : 1);
}

/// The dose that is really in the water.
DoseMove in_this_tub(DoseMove dose, const Circumstances& tub, std::size_t supply) {
  dose.mg_l *= factor_for(tub, supply);
  return dose;
}

}  // namespace

TubHistory::TubHistory(const Situation& situation) : situation_(&situation) {
  const StartWater& start = situation.start;
  for (const UncertainReading& one : start.uncertain) {
    starts_.push_back({ErrorShape(one, start.water), 1 / z_90});
  }
  const auto& measured = start.measured;
  const auto is_measured = [&](Reading reading) {
    return std::find(measured.begin(), measured.end(), key_of(reading)) != measured.end();
  };
  const SpeciesTable& species = situation.bench.species();
  Totals chlorine;
  chlorine[Component::chlorine] = 1;
  Totals per_mg_l = chlorine * (1 / free_chlorine_mg_l(chlorine));
  if (!is_measured(Reading::free_chlorine)) {
    add_unmeasured(per_mg_l, situation.assumptions.tap_free_chlorine_mg_l.high / z_90);
  }
  // Water from a tap holds no cyanuric acid; what is in a tub may. What a plan has left there
  // before a visit has its own error.
  const bool is_carried = std::any_of(
      start.uncertain.begin(), start.uncertain.end(),
      [](const UncertainReading& one) { return one.reading == Reading::cyanuric_acid; });
  const bool is_known = is_measured(Reading::cyanuric_acid) || is_carried;
  if (!situation.request.water_is_in_tub || is_known) return;
  Totals cyanurate;
  cyanurate[Component::cyanurate] = 1e-3 / species.component(Component::cyanurate).molar_mass;
  add_unmeasured(cyanurate, situation.assumptions.untested_cyanuric_acid_mg_l.high / z_90);
}

void TubHistory::add_unmeasured(const Totals& per_mg_l, double deviation_mg_l) {
  if (deviation_mg_l <= 0) return;
  starts_.push_back({ErrorShape(per_mg_l), deviation_mg_l, true});
}

std::size_t TubHistory::index_of(const Supply& supply) const {
  const auto& all = situation_->supplies();
  return static_cast<std::size_t>(&supply - all.data());
}

/// What air leaves of carbon hangs on alkalinity and temperature, nearly along a line.
TubHistory::SettledCarbon TubHistory::settled_after(const DoseMove& dose) const {
  const Bench& bench = situation_->bench;
  const SpeciesTable& species = bench.species();
  const double air = species.gas_exchange().air_log10_pco2_atm;
  constexpr double beside = 1e-4;  // mol/kg: 5 mg/L of alkalinity
  const Water poured = bench.after(outcome({}).water, Move{dose});
  Water more = poured;
  more.totals[Component::alkalinity] += beside;
  SettledCarbon settled;
  settled.alkalinity = poured.totals[Component::alkalinity];
  settled.carbonate = exchange_carbon_dioxide(poured, air, species).totals[Component::carbonate];
  const double there = exchange_carbon_dioxide(more, air, species).totals[Component::carbonate];
  settled.per_alkalinity = (there - settled.carbonate) / beside;
  return settled;
}

void TubHistory::pour(std::size_t supply, DoseMove dose) {
  dose.supply = &situation_->supplies().at(supply);
  dose.pours = nullptr;
  has_met_demand_ = has_met_demand_ || dose.spends_mg_l > 0 || dose.spends_per_mg > 0;
  has_held_metals_ = has_held_metals_ || dose.supply->product().can(Purpose::hold_metals);
  const SettledCarbon settled = settled_after(dose);
  events_.emplace_back(Pour{supply, std::move(dose), settled, stretch_});
}

Water TubHistory::after_pour(const Water& water, const Pour& pour, const Circumstances& tub,
                             double& demand_mg_l) const {
  DoseMove dose = in_this_tub(pour.dose, tub, pour.supply);
  // A demand takes no more than there is, and never gives; what it still wants, the next pour
  // meets.
  if (dose.spends_mg_l > 0) demand_mg_l += std::max(0.0, dose.spends_mg_l + tub.extra_demand_mg_l);
  dose.spends_mg_l = dose.goal == situation_->sanitizer.reading ? demand_mg_l : 0;
  Water poured = situation_->bench.after(water, Move{dose});
  if (dose.spends_mg_l > 0) {
    const Water unspent = dose.supply->add_to(water, dose.mg_l);
    const double spent = situation_->bench.reading(*dose.goal, unspent) -
                         situation_->bench.reading(*dose.goal, poured);
    const double met = std::max(0.0, spent - dose.spends_per_mg * dose.mg_l);
    demand_mg_l = std::max(0.0, demand_mg_l - met);
  }
  double& carbonate = poured.totals[Component::carbonate];
  const double surplus = carbonate - pour.settled.at(poured.totals[Component::alkalinity]);
  const bool is_told = pour.stretch < tub.carbon_dioxide_lost.size();
  const double lost = is_told ? tub.carbon_dioxide_lost[pour.stretch] : 0;
  carbonate = std::max(0.0, carbonate - lost * surplus);
  return poured;
}

void TubHistory::pass(const Move& move) {
  if (const auto* rounds = std::get_if<RoundsMove>(&move)) {
    events_.emplace_back(Rounds{index_of(*rounds->dose.supply), *rounds});
  } else {
    events_.emplace_back(move);
  }
}

void TubHistory::mix(const Water& other, double fraction) {
  events_.emplace_back(Mix{other, fraction});
}

std::size_t TubHistory::set_total(Component component, double mol_kg, double deviation) {
  starts_.push_back({ErrorShape(Totals{}), deviation});
  events_.emplace_back(KnownTotal{component, mol_kg, starts_.size() - 1});
  return starts_.size() - 1;
}

void TubHistory::read(Reading reading) { events_.emplace_back(Look{reading}); }

std::vector<std::size_t> TubHistory::poured() const {
  std::vector<std::size_t> supplies;
  for (const Event& event : events_) {
    if (const auto* pour = std::get_if<Pour>(&event)) supplies.push_back(pour->supply);
    if (const auto* rounds = std::get_if<Rounds>(&event)) supplies.push_back(rounds->supply);
  }
  std::sort(supplies.begin(), supplies.end());
  supplies.erase(std::unique(supplies.begin(), supplies.end()), supplies.end());
  return supplies;
}

int TubHistory::waits(std::size_t stretch) const {
  return static_cast<int>(std::count_if(events_.begin(), events_.end(), [&](const Event& event) {
    const auto* pour = std::get_if<Pour>(&event);
    return pour != nullptr && pour->stretch == stretch;
  }));
}

Water TubHistory::start(const Circumstances& circumstances) const {
  Water water = situation_->start.water;
  double log_carbon = 0;
  for (std::size_t i = 0; i < circumstances.start_shifts.size(); ++i) {
    const double shift = circumstances.start_shifts[i];
    if (shift != 0) starts_.at(i).shape.add_to(water.totals, log_carbon, shift);
  }
  water.totals[Component::carbonate] *= std::exp(log_carbon);
  // A test may read too high, but there is never less than none; only alkalinity may be below 0.
  for (std::size_t i = 0; i < component_count; ++i) {
    if (static_cast<Component>(i) == Component::alkalinity) continue;
    water.totals.at(i) = std::max(0.0, water.totals.at(i));
  }
  return water;
}

TubHistory::Outcome TubHistory::outcome(const Circumstances& tub) const {
  struct Doing {
    const Circumstances& tub;
    const TubHistory& history;
    const Bench& bench;
    Outcome& result;
    double demand_mg_l = 0;  ///< of the sanitizer, that nothing has met so far

    void operator()(const Move& move) { result.water = bench.after(result.water, move); }
    void operator()(const Pour& pour) {
      result.water = history.after_pour(result.water, pour, tub, demand_mg_l);
    }
    void operator()(const Rounds& done) {
      RoundsMove rounds = done.rounds;
      rounds.dose = in_this_tub(rounds.dose, tub, done.supply);
      result.water = bench.after(result.water, Move{rounds});
    }
    void operator()(const Mix& mix) { result.water = blend(result.water, mix.other, mix.fraction); }
    void operator()(const KnownTotal& known) {
      const bool is_told = known.error < tub.start_shifts.size();
      const double off = is_told ? tub.start_shifts[known.error] : 0;
      // A test may read too high, but there is never less than none.
      result.water.totals[known.component] = std::max(0.0, known.mol_kg + off);
    }
    void operator()(const Look& look) {
      result.readings.push_back(bench.reading(look.reading, result.water));
    }
  };
  Outcome result{{}, start(tub)};
  Doing doing{tub, *this, situation_->bench, result};
  for (const Event& event : events_) std::visit(doing, event);
  return result;
}

}  // namespace tub::planning
