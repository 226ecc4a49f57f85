#include "planning/goals/floater.h"

#include <algorithm>
#include <cmath>

namespace tub::planning {
namespace {

constexpr double hours_a_day = 24;

/// All the bromine that a mg of tablets makes, as Br2: with the bank there, its chlorine makes
/// bromine again of what was used.
double bromine_per_mg(const Supply& tablets) {
  Totals made;
  made[Component::bromine] =
      tablets.per_mg_l()[Component::bromine] + tablets.per_mg_l()[Component::chlorine];
  return total_bromine_mg_l(made);
}

/// Bromine of so many mg/L that is used in a day: it falls by its half-life, and is kept there.
double used_mg_l_a_day(const Situation& situation, double level_mg_l) {
  const double half_life_h = situation.assumptions.sanitizer_half_life_h.value;
  return level_mg_l * std::log(2.0) * hours_a_day / half_life_h;
}

}  // namespace

std::optional<FloaterMove> floater_after(const Situation& situation, std::span<const Move> moves) {
  const SanitizerRow& row = situation.sanitizer;
  const Supply* tablets = situation.first_of(row.products);
  const Resumption* const resumption = situation.resumption();
  const bool is_in = resumption != nullptr && resumption->floater_is_in;
  const Goal* goal = situation.goal(row.reading);
  if (tablets == nullptr || !tablets->product().dissolves || is_in || goal == nullptr) {
    return std::nullopt;
  }
  const Bench& bench = situation.bench;
  const double holds = bench.reading(row.reading, bench.after(situation.start.water, moves));
  // What is above the gate is to be used, not kept.
  const double level = std::min(holds, goal->band.high.value_or(holds));
  const double used_g = used_mg_l_a_day(situation, level) * situation.request.tub.volume_l * 1e-3;
  const double each_g = tablets->product().dissolves->g_per_day.value * bromine_per_mg(*tablets);
  return FloaterMove{tablets, std::max(1, static_cast<int>(std::ceil(used_g / each_g - 1e-9)))};
}

Step floater_step(const Situation& situation, const FloaterMove& move) {
  const Product& product = move.supply->product();
  const double count = move.tablets;
  Portion portion;
  portion.amount_g = count * product.dissolves->piece_g;
  portion.measure = {{count, "tablet"}};
  portion.wait_minutes = 0;
  Addition addition;
  addition.product = product.id;
  addition.reading = situation.sanitizer.reading;
  addition.amount_g = portion.amount_g;
  addition.portions = {portion};
  Step step{std::move(addition)};
  step.notes.push_back(
      {"floater_keeps_it_up",
       {{"tablets", count}, {"dissolves_g", count * product.dissolves->g_per_day.value}}});
  return step;
}

std::vector<Reason> assumed_by_floater(const Situation& situation, const FloaterMove& move) {
  const Product::Dissolving& tablet = *move.supply->product().dissolves;
  const double made_mg_l = move.tablets * tablet.g_per_day.value * bromine_per_mg(*move.supply) *
                           1e3 / situation.request.tub.volume_l;
  return {dissolving_reason(tablet),
          reason_of(situation.assumptions.sanitizer_half_life_h),
          {"tablets_replace_what_is_used", {{"total_bromine_mg_l", made_mg_l}}}};
}

Reason dissolving_reason(const Product::Dissolving& tablet) {
  const Interval& rate = tablet.g_per_day;
  return {"tablet_dissolves_g_per_day",
          {{"value", rate.value},
           {"unit", std::string("g/d")},
           {"low", rate.low},
           {"high", rate.high}}};
}

}  // namespace tub::planning
