#include "chemistry/dose.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <functional>
#include <optional>

#include "base/error.h"
#include "chemistry/measures.h"
#include "chemistry/precipitate.h"
#include "chemistry/root.h"

namespace tub::chemistry {
namespace {

constexpr double smallest_try = 0.01;  // mg/kg
constexpr double tolerance = 1e-10;    // mg/kg

// Amounts along a path of one parameter; nothing where there are none.
using Doses = std::vector<double>;
using Path = std::function<std::optional<Doses>(double)>;

double reading_of(const Water& water, double WaterState::*reading, const SpeciesTable& table) {
  for (const LinearReading& measure : measures)
    if (reading == measure.reading && grams_per_mole(measure.component) > 0) {
      double sum = water.totals[measure.component];
      for (const HeldMetal& metal : held_metals)
        if (metal.free == measure.component) sum += water.totals[metal.held];
      return sum * measure.grams_per_mole * 1e3;
    }
  if (reading == &WaterState::ph) return speciate(water, table).ph;
  if (reading == &WaterState::saturation_index) return saturation_index(water, table);
  return read(water, table).*reading;
}

// How far a path's readings are from a target, place by place.
class Search {
 public:
  Search(std::function<Water(const Doses&)> dosed, Path path, DoseTarget target,
         const SpeciesTable& table)
      : dosed_(std::move(dosed)), path_(std::move(path)), target_(target), table_(table) {}

  // The first root along the path, or the nearest place; nothing if the path has no place at all.
  std::optional<Sample> run() {
    collect();
    if (samples_.empty()) return std::nullopt;
    if (const auto root = first_root()) return root;
    return nearest();
  }

  bool moves() const {
    return std::any_of(samples_.begin(), samples_.end(), [&](const Sample& s) {
      return std::abs(s.y - samples_.front().y) > 1e-9 * (1 + std::abs(s.y));
    });
  }

 private:
  // The reading less the target; nothing where there is no water or no reading.
  std::optional<double> excess(double place) const {
    try {
      const auto doses = path_(place);
      if (!doses) return std::nullopt;
      const double value = reading_of(dosed_(*doses), target_.reading, table_) - target_.value;
      return std::isfinite(value) ? std::optional(value) : std::nullopt;
    } catch (const Error&) {
      return std::nullopt;  // too salty for the model: the path ends before
    }
  }

  double at(double place) const { return excess(place).value_or(std::nan("")); }

  void collect() {
    std::optional<double> last;
    double last_place = 0;
    const auto take = [&](double place) {
      const auto value = excess(place);
      if (place > 0 && value.has_value() != last.has_value()) add_edge(last_place, place, !!value);
      if (value) samples_.push_back({place, *value});
      last = value;
      last_place = place;
    };
    take(0);
    for (double place = smallest_try; place < largest_dose_mg_l; place *= 2) take(place);
    take(largest_dose_mg_l);
  }

  // The path begins or ends between two places: adds its last place, found by halving.
  void add_edge(double from, double to, bool begins) {
    for (int i = 0; i < 100 && to - from > tolerance * (1e-3 + 1e-2 * to); ++i) {
      const double middle = (from + to) / 2;
      (excess(middle).has_value() == begins ? to : from) = middle;
    }
    const double edge = begins ? to : from;
    if (const auto value = excess(edge)) samples_.push_back({edge, *value});
  }

  std::optional<Sample> first_root() const {
    for (std::size_t i = 0; i < samples_.size(); ++i) {
      if (samples_[i].y == 0) return samples_[i];
      if (i > 0 && std::signbit(samples_[i].y) != std::signbit(samples_[i - 1].y))
        return find_root([&](double x) { return at(x); }, samples_[i - 1], samples_[i], tolerance);
    }
    return std::nullopt;
  }

  // Golden section between the neighbours of the nearest sample; it may still meet the target.
  Sample nearest() const {
    const auto distance = [](const Sample& a, const Sample& b) {
      return std::abs(a.y) < std::abs(b.y);
    };
    const auto best = std::min_element(samples_.begin(), samples_.end(), distance);
    double low = best == samples_.begin() ? best->x : std::prev(best)->x;
    double high = std::next(best) == samples_.end() ? best->x : std::next(best)->x;
    Sample found = *best;
    constexpr double golden = 0.6180339887498949;
    while (high - low > 1e-6 * high) {
      const Sample left = {high - golden * (high - low), at(high - golden * (high - low))};
      const Sample right = {low + golden * (high - low), at(low + golden * (high - low))};
      for (const Sample& s : {left, right}) {
        if (std::signbit(s.y) != std::signbit(best->y))
          return find_root([&](double x) { return at(x); }, *best, s, tolerance);
        if (distance(s, found)) found = s;
      }
      (distance(left, right) ? high : low) = distance(left, right) ? right.x : left.x;
    }
    return found;
  }

  std::function<Water(const Doses&)> dosed_;
  Path path_;
  DoseTarget target_;
  const SpeciesTable& table_;
  std::vector<Sample> samples_;
};

bool is_met(double excess, const DoseTarget& target) {
  return std::abs(excess) <= 1e-9 * (1 + std::abs(target.value));
}

// One compound against one target, in water that already holds what else is dosed.
DoseAnswer dose_one(const Water& water, const Compound& compound, const DoseTarget& target,
                    const SpeciesTable& table) {
  Search search([&](const Doses& doses) { return add(water, compound, doses[0]); },
                [](double place) { return Doses{place}; }, target, table);
  const auto found = search.run();
  DoseAnswer answer;
  if (!found) return answer;
  answer.mg_l = {found->x};
  answer.readings = {found->y + target.value};
  answer.is_reached = is_met(found->y, target);
  if (!answer.is_reached)
    answer.why = !search.moves() ? Unreachable::not_changed
                 : found->x == 0 ? Unreachable::moves_away
                                 : Unreachable::levels_off;
  return answer;
}

// Two compounds: for each amount of the outer one, the inner one meets the inner target.
struct Roles {
  std::size_t outer = 0;  // compounds
  std::size_t inner = 1;
  DoseTarget outer_target;
  DoseTarget inner_target;
};

DoseAnswer dose_two(const Water& water, const Compounds& compounds, const Roles& roles,
                    const SpeciesTable& table) {
  const auto dosed = [&](const Doses& d) { return with_doses(water, compounds, d); };
  const Path path = [&](double place) -> std::optional<Doses> {
    const Water begun = add(water, *compounds[roles.outer], place);
    const DoseAnswer rest = dose_one(begun, *compounds[roles.inner], roles.inner_target, table);
    if (!rest.is_reached) return std::nullopt;
    Doses doses(2);
    doses[roles.outer] = place;
    doses[roles.inner] = rest.mg_l[0];
    return doses;
  };
  Search search(dosed, path, roles.outer_target, table);
  const auto found = search.run();
  DoseAnswer answer;
  answer.why = Unreachable::not_together;
  if (!found) return answer;
  answer.is_reached = is_met(found->y, roles.outer_target);
  answer.why = search.moves() ? Unreachable::levels_off : Unreachable::not_changed;
  answer.mg_l = *path(found->x);
  answer.readings = {found->y + roles.outer_target.value, roles.inner_target.value};
  return answer;
}

bool is_total(const DoseTarget& target) {
  return std::any_of(measures.begin(), measures.end(), [&](const LinearReading& m) {
    return target.reading == static_cast<double WaterState::*>(m.reading);
  });
}

// The target that is a plain total is met inside: that takes no speciation.
DoseAnswer dose_pair(const Water& water, const Compounds& compounds,
                     const std::vector<DoseTarget>& targets, const SpeciesTable& table) {
  const bool first_inside = is_total(targets[0]) && !is_total(targets[1]);
  const DoseTarget& inner = targets[first_inside ? 0 : 1];
  const DoseTarget& outer = targets[first_inside ? 1 : 0];
  DoseAnswer best = dose_two(water, compounds, {0, 1, outer, inner}, table);
  if (!best.is_reached) {
    DoseAnswer other = dose_two(water, compounds, {1, 0, outer, inner}, table);
    const auto miss = [&](const DoseAnswer& a) {
      return a.readings.empty() ? HUGE_VAL : std::abs(a.readings[0] - outer.value);
    };
    if (other.is_reached || miss(other) < miss(best)) best = std::move(other);
  }
  if (first_inside && best.readings.size() == 2) std::swap(best.readings[0], best.readings[1]);
  return best;
}

void check_value(const Water& water, const Compounds& compounds, const DoseTarget& target,
                 const SpeciesTable& table) {
  Doses some(compounds.size(), 1);
  if (std::isfinite(reading_of(with_doses(water, compounds, some), target.reading, table))) return;
  throw Error(Diagnostic{"the target has no value in this water: it lacks calcium or carbonate",
                         "",
                         {},
                         "choose another target, or add what is missing first"});
}

}  // namespace

Water with_doses(const Water& water, const Compounds& compounds, const std::vector<double>& mg_l) {
  Water result = water;
  for (std::size_t i = 0; i < mg_l.size(); ++i) result = add(result, *compounds[i], mg_l[i]);
  return result;
}

DoseAnswer dose_to(const Water& water, const Compounds& compounds,
                   const std::vector<DoseTarget>& targets, const SpeciesTable& table) {
  assert(compounds.size() == targets.size() && !compounds.empty() && compounds.size() <= 2);
  for (const DoseTarget& target : targets) check_value(water, compounds, target, table);
  if (compounds.size() == 1) return dose_one(water, *compounds[0], targets[0], table);
  return dose_pair(water, compounds, targets, table);
}

}  // namespace tub::chemistry
