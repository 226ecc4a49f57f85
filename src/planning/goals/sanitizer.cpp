#include "planning/goals/sanitizer.h"

#include <algorithm>
#include <cmath>

#include "planning/goals/floater.h"
#include "planning/goals/single_reading.h"

namespace tub::planning {
namespace {

/// A bank that lacks less than this share is there.
constexpr double least_share_of_bank = 0.1;

double mg_l_as_bromine(double moles) {
  Totals totals;
  totals[Component::bromine] = moles;
  return total_bromine_mg_l(totals);
}

double mg_l_as_chlorine(double moles) {
  Totals totals;
  totals[Component::chlorine] = moles;
  return free_chlorine_mg_l(totals);
}

double grams_per_mole(Component component, const Situation& situation) {
  return situation.bench.species().component(component).molar_mass;
}

/// At which cyanuric acid dichlor hands over: the usual figure, or the set's limit where that is
/// lower.
double hand_over_mg_l(const Situation& situation) {
  const double usual = situation.assumptions.hand_over_cyanuric_acid_mg_l.value;
  const auto target = situation.targets.readings.find(Reading::cyanuric_acid);
  if (target == situation.targets.readings.end()) return usual;
  return std::min(usual, target->second.high.value_or(usual));
}

bool has_handed_over(const Situation& situation) {
  return !situation.sanitizer.then.empty() &&
         situation.start.state.cyanuric_acid_mg_l >= hand_over_mg_l(situation);
}

/// Bromide and an oxidiser make the first bromine where the tablets alone would take days.
bool starts_at_once(const Situation& situation) {
  const SanitizerRow& row = situation.sanitizer;
  return !row.at_once.empty() && situation.first_of(row.bank) != nullptr &&
         situation.first_of(row.at_once) != nullptr;
}

const std::vector<std::string>& makers(const Situation& situation) {
  const SanitizerRow& row = situation.sanitizer;
  if (has_handed_over(situation)) return row.then;
  if (!row.instead.empty() && is_full_of_stabiliser(situation)) return row.instead;
  return starts_at_once(situation) ? row.at_once : row.products;
}

bool needs_bank(const Situation& situation) {
  const SanitizerRow& row = situation.sanitizer;
  return !row.bank.empty() && (row.at_once.empty() || starts_at_once(situation));
}

/// Bromide that the bank lacks, mol/kg; 0 where it is there.
double missing_bank(const Situation& situation) {
  if (!needs_bank(situation)) return 0;
  const Totals& totals = situation.start.water.totals;
  const double bank = situation.assumptions.bromide_bank_mg_l.value * 1e-3 /
                      grams_per_mole(Component::bromide, situation);
  const double there = totals[Component::bromide] + totals[Component::bromine];
  return bank - there < least_share_of_bank * bank ? 0 : bank - there;
}

std::optional<DoseMove> maker_dose(const Situation& situation, const Draft& before) {
  const Supply* supply = situation.first_of(makers(situation));
  if (supply == nullptr) return std::nullopt;
  DoseMove dose{supply, situation.sanitizer.reading, 0, sanitizer_demand(situation)};
  if (supply->product().dissolves) {
    // Half of what a tablet brings is spent while it dissolves: as much as its bromine, which its
    // chlorine then makes again. The water's own demand is part of that.
    dose.spends_mg_l = 0;
    dose.spends_per_mg = mg_l_as_bromine(supply->per_mg_l()[Component::bromine]);
  }
  return dose_into_band(situation, dose, before);
}

/// Bromine that a plan made before the water was tested again.
bool was_made_before(const Situation& situation) {
  const Resumption* const resumption = situation.resumption();
  return resumption != nullptr && resumption->aims.contains(situation.sanitizer.reading);
}

/// The bank alone takes the reading into its gate: chlorine that the water had becomes bromine.
bool is_made_by(const Situation& situation, const Draft& bank) {
  const Reading reading = situation.sanitizer.reading;
  const Goal* goal = situation.goal(reading);
  const Water& start = situation.start.water;
  const Bench& bench = situation.bench;
  return goal != nullptr && !goal->band.holds(bench.reading(reading, start)) &&
         goal->band.holds(bench.reading(reading, bench.after(start, bank)));
}

/// Bank and maker, without what keeps it up.
Draft moves_into_gate(const Situation& situation) {
  Draft moves;
  if (const double missing = missing_bank(situation); missing > 0) {
    const Supply* bank = situation.first_of(situation.sanitizer.bank);
    moves.emplace_back(
        DoseMove{bank, std::nullopt, missing / bank->per_mg_l()[Component::bromide]});
  }
  if (const auto dose = maker_dose(situation, moves)) {
    moves.emplace_back(*dose);
    return moves;
  }
  return is_made_by(situation, moves) ? moves : Draft{};
}

}  // namespace

bool is_quick(const Move& move) {
  const auto* dose = std::get_if<DoseMove>(&move);
  return dose == nullptr || !dose->supply->product().dissolves;
}

double sanitizer_demand(const Situation& situation) {
  const Resumption* const resumption = situation.resumption();
  if (resumption != nullptr && resumption->demand_is_met) return 0;
  const Assumptions& assumed = situation.assumptions;
  const double as_chlorine =
      assumed.fresh_water_demand_mg_l.value +
      assumed.chlorine_per_combined.value * situation.start.state.combined_chlorine_mg_l;
  if (situation.sanitizer.reading == Reading::free_chlorine) return as_chlorine;
  return as_chlorine * mg_l_as_bromine(1) / mg_l_as_chlorine(1);
}

Draft sanitizer_moves(const Situation& situation) {
  if (has_loose_metals(situation)) return {};
  if (bromide_takes_the_chlorine(situation) || !sanitizer_lacks(situation).empty()) return {};
  Draft moves = moves_into_gate(situation);
  if (!starts_at_once(situation) || (moves.empty() && !was_made_before(situation))) return moves;
  if (const auto floater = floater_after(situation, moves)) moves.emplace_back(*floater);
  return moves;
}

std::vector<std::string> sanitizer_lacks(const Situation& situation) {
  std::vector<std::string> lacks;
  const auto& bank = situation.sanitizer.bank;
  if (missing_bank(situation) > 0 && situation.first_of(bank) == nullptr) {
    lacks.push_back(bank.front());
  }
  if (situation.first_of(makers(situation)) == nullptr) {
    lacks.push_back(makers(situation).front());
  }
  return lacks;
}

std::optional<HandOver> hand_over(const Situation& situation) {
  const SanitizerRow& row = situation.sanitizer;
  const Supply* first = situation.first_of(row.products);
  const Supply* next = situation.first_of(row.then);
  if (row.then.empty() || (first == nullptr && !has_handed_over(situation))) return std::nullopt;
  HandOver result{next == nullptr ? row.then.front() : next->product().id,
                  hand_over_mg_l(situation), 0};
  if (has_handed_over(situation)) return result;
  const double room_mg_l = result.cyanuric_acid_mg_l - situation.start.state.cyanuric_acid_mg_l;
  const double per_mg = first->per_mg_l()[Component::cyanurate] * 1e3 *
                        grams_per_mole(Component::cyanurate, situation);
  result.dichlor_g = room_mg_l / per_mg * situation.request.tub.volume_l * 1e-3;
  return result;
}

double bromide_as_bromine_mg_l(const Situation& situation) {
  const Totals& totals = situation.start.water.totals;
  return mg_l_as_bromine(totals[Component::bromide] + totals[Component::bromine]);
}

double bromine_from_chlorine_mg_l(const Situation& situation) {
  const Totals& totals = situation.start.water.totals;
  return mg_l_as_bromine(totals[Component::chlorine] + totals[Component::bromine]);
}

bool bromide_takes_the_chlorine(const Situation& situation) {
  return situation.sanitizer.reading == Reading::free_chlorine &&
         bromide_as_bromine_mg_l(situation) >= situation.assumptions.bromide_that_counts_mg_l.value;
}

Interval hours_to_fall(const Situation& situation, double from_mg_l, double to_mg_l) {
  const Assumed& half_life = situation.assumptions.sanitizer_half_life_h;
  const double halvings = std::max(0.0, std::log2(from_mg_l / to_mg_l));
  return {halvings * half_life.low, halvings * half_life.value, halvings * half_life.high};
}

}  // namespace tub::planning
