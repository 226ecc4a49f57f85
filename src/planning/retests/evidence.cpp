#include "planning/retests/evidence.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/error.h"
#include "planning/water/draws.h"
#include "planning/water/spread.h"

namespace tub::planning {
namespace {

using Kind = TakenForGranted::Kind;

/// A source that may be anything: so many times as wide as one that is altogether wrong.
constexpr double anything = 30;
/// Of a spread, for the difference that a slope is taken over.
constexpr double slope_step = 0.2;
constexpr int most_steps = 40;
constexpr int most_halvings = 8;
/// In spreads: nearer is the same.
constexpr double settled = 1e-4;

double half_range(const Assumed& assumed) { return (assumed.high - assumed.low) / 2; }

/// The standard deviation of what is altogether wrong; 0: it is never suspected.
double wrong_by(const ReasonPrior* prior) { return prior == nullptr ? 0 : prior->how_far / z_90; }

/// The spread of what changes by so much for each value.
double spread_of(const SquareMatrix& root, const std::vector<double>& slopes) {
  double sum = 0;
  for (std::size_t column = 0; column < slopes.size(); ++column) {
    double along = 0;
    for (std::size_t i = 0; i < slopes.size(); ++i) along += slopes[i] * root[i][column];
    sum += along * along;
  }
  return std::sqrt(sum);
}

/// Whether a line through what is known is a picture of a reading: of pH over as little as it takes
/// to bend, of anything else while it does not fall below nothing.
bool is_pictured_by(const Forecast& line, Reading reading) {
  constexpr double ph_bends = 0.5;
  const double below = z_90 * line.deviation_below;
  const double above = z_90 * line.deviation_above;
  if (reading == Reading::ph) return below <= ph_bends && above <= ph_bends;
  return line.value - below >= 0;
}

SquareMatrix normal_matrix(const SquareMatrix& slopes) {
  SquareMatrix normal = identity_matrix(slopes.size());
  for (std::size_t i = 0; i < slopes.size(); ++i) {
    for (std::size_t k = 0; k < slopes.size(); ++k) {
      for (std::size_t r = 0; r < slopes[i].size(); ++r)
        normal[i][k] += slopes[i][r] * slopes[k][r];
    }
  }
  return normal;
}

/// The step of a sum of squares to its least, in spreads; those in `held` stay.
std::vector<double> least_squares_step(const SquareMatrix& normal, std::vector<double> downhill,
                                       const std::vector<bool>& held,
                                       const std::vector<double>& held_steps) {
  SquareMatrix open = normal;
  const std::size_t size = normal.size();
  for (std::size_t i = 0; i < size; ++i) {
    if (!held[i]) continue;
    for (std::size_t k = 0; k < size; ++k) {
      if (!held[k]) downhill[k] -= normal[k][i] * held_steps[i];
      open[i][k] = open[k][i] = i == k ? 1 : 0;
    }
    downhill[i] = held_steps[i];
  }
  return product(inverse(open), downhill);
}

}  // namespace

double Estimate::deviation(std::size_t source) const {
  double sum = 0;
  for (const double along : root.at(source)) sum += along * along;
  return std::sqrt(sum);
}

Evidence::Evidence(const Situation& situation) : situation_(&situation), history_(situation) {
  const Assumptions& assumed = situation.assumptions;
  const ReasonPrior* const volume = prior_of(assumed.reasons, "volume");
  sources_.push_back({Kind::volume, 0, situation.request.tub.volume_give_or_take / z_90,
                      wrong_by(volume), false, volume});
  for (std::size_t i = 0; i < history_.starts().size(); ++i) {
    const StartShift& shift = history_.starts()[i];
    sources_.push_back({Kind::start, i, shift.deviation, 0, shift.only_more});
  }
  add_sources_of_supplies();
  const ReasonPrior* const demand = prior_of(assumed.reasons, "demand");
  sources_.push_back({Kind::demand, 0, half_range(assumed.fresh_water_demand_mg_l) / z_90,
                      wrong_by(demand), false, demand});
  given_up_.assign(sources_.size(), false);
  add_carbon_dioxide();
}

void Evidence::add_carbon_dioxide() {
  const Assumptions& assumed = situation_->assumptions;
  const ReasonPrior* const lost = prior_of(assumed.reasons, "carbon_dioxide_lost");
  sources_.push_back({Kind::carbon_dioxide, history_.stretch(),
                      assumed.carbon_dioxide_lost_per_wait.high / z_90, wrong_by(lost), true,
                      lost});
  given_up_.push_back(false);
}

void Evidence::begin_stretch() {
  history_.begin_stretch();
  add_carbon_dioxide();
}

void Evidence::add_sources_of_supplies() {
  const auto& supplies = situation_->supplies();
  for (std::size_t i = 0; i < supplies.size(); ++i) {
    const Product& product = supplies[i].product();
    const double spoon = situation_->spoon_half_width(supplies[i]);
    sources_.push_back(
        {Kind::strength, i, std::hypot(product.strength_half_width, spoon) / z_90, 0, false});
    const ReasonPrior* const weak =
        prior_of(situation_->assumptions.reasons, "weak_product", product.id);
    if (product.strength_loss <= 0 && weak == nullptr) continue;
    sources_.push_back({Kind::loss, i, product.strength_loss / z_90, wrong_by(weak), true, weak});
  }
}

Circumstances Evidence::circumstances(const std::vector<double>& values) const {
  Circumstances tub;
  tub.start_shifts.assign(history_.starts().size(), 0);
  tub.strength_factors.assign(situation_->supplies().size(), 1);
  tub.carbon_dioxide_lost.assign(history_.stretch() + 1, 0);
  for (std::size_t i = 0; i < sources_.size(); ++i) {
    const TakenForGranted& source = sources_[i];
    // A loss is never a gain, and no more than all, whatever a spread around it says.
    const double value = source.only_more ? std::max(0.0, values[i]) : values[i];
    if (source.kind == Kind::volume) tub.dose_factor += value;
    if (source.kind == Kind::start) tub.start_shifts[source.index] = value;
    if (source.kind == Kind::strength)
      tub.strength_factors[source.index] *= std::max(0.0, 1 + value);
    if (source.kind == Kind::loss) tub.strength_factors[source.index] *= std::max(0.0, 1 - value);
    if (source.kind == Kind::carbon_dioxide) {
      tub.carbon_dioxide_lost[source.index] = std::min(1.0, value);
    }
    if (source.kind == Kind::demand) tub.extra_demand_mg_l = value;
  }
  tub.dose_factor = std::max(0.0, tub.dose_factor);
  return tub;
}

double Evidence::lowest(std::size_t source) const {
  const TakenForGranted& one = sources_[source];
  if (one.only_more) return 0;
  constexpr double nearly_all = -0.9;
  const bool is_share = one.kind == Kind::volume || one.kind == Kind::strength;
  return is_share ? nearly_all : -std::numeric_limits<double>::infinity();
}

double Evidence::highest(std::size_t source) const {
  const Kind kind = sources_[source].kind;
  constexpr double nearly_all = 0.98;
  return kind == Kind::loss || kind == Kind::carbon_dioxide
             ? nearly_all
             : std::numeric_limits<double>::infinity();
}

void Evidence::found(Reading reading, double value, double deviation) {
  history_.read(reading);
  found_.push_back({value, deviation});
}

void Evidence::found_total(Component component, double mol_kg, double deviation) {
  const std::size_t error = history_.set_total(component, mol_kg, deviation);
  sources_.push_back({Kind::start, error, deviation, 0, false});
  given_up_.push_back(false);
}

void Evidence::give_up(std::size_t source) { given_up_.at(source) = true; }

bool Evidence::has_effect(const TakenForGranted& source) const {
  if (source.kind == Kind::start) return true;
  if (source.kind == Kind::carbon_dioxide) return history_.waits(source.index) > 0;
  const std::vector<std::size_t> poured = history_.poured();
  const bool is_of_product = source.kind == Kind::strength || source.kind == Kind::loss;
  if (!is_of_product) return !poured.empty();
  return std::find(poured.begin(), poured.end(), source.index) != poured.end();
}

std::vector<double> Evidence::spreads() const {
  std::vector<double> spreads;
  for (std::size_t i = 0; i < sources_.size(); ++i) {
    const double spread = given_up_[i] ? anything * sources_[i].wrong : sources_[i].deviation;
    spreads.push_back(has_effect(sources_[i]) ? spread : 0);
  }
  return spreads;
}

Estimate Evidence::estimate_if_wrong(std::size_t source) const {
  std::vector<double> wider = spreads();
  if (!given_up_[source]) wider[source] = sources_[source].wrong;
  return estimated(wider);
}

Estimate Evidence::estimate_if_unknown(std::size_t source) const {
  std::vector<double> wider = spreads();
  wider[source] = anything * sources_[source].wrong;
  return estimated(wider);
}

std::vector<double> Evidence::slope(const std::vector<double>& values, std::size_t source,
                                    const TubHistory& history,
                                    const std::vector<double>& readings) const {
  const TakenForGranted& one = sources_[source];
  const double step = slope_step * std::max(one.deviation, one.wrong / 4);
  const bool has_room = values[source] + step <= highest(source);
  std::vector<double> beside = values;
  beside[source] += has_room ? step : -step;
  std::vector<double> slopes = history.outcome(circumstances(beside)).readings;
  for (std::size_t i = 0; i < slopes.size(); ++i) {
    slopes[i] = (slopes[i] - readings[i]) / (beside[source] - values[source]);
  }
  return slopes;
}

/// By source, then by reading; in spreads of the source and of the test.
SquareMatrix Evidence::slopes(const std::vector<double>& values,
                              const std::vector<double>& spreads) const {
  const std::vector<double> readings = history_.outcome(circumstances(values)).readings;
  SquareMatrix result(sources_.size(), std::vector<double>(found_.size(), 0.0));
  for (std::size_t source = 0; source < sources_.size(); ++source) {
    if (spreads[source] <= 0) continue;
    result[source] = slope(values, source, history_, readings);
    for (std::size_t i = 0; i < found_.size(); ++i) {
      result[source][i] *= spreads[source] / found_[i].deviation;
    }
  }
  return result;
}

double Evidence::misfit(const std::vector<double>& values,
                        const std::vector<double>& spreads) const {
  double sum = 0;
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (spreads[i] > 0) sum += std::pow(values[i] / spreads[i], 2);
  }
  try {
    const std::vector<double> readings = history_.outcome(circumstances(values)).readings;
    for (std::size_t i = 0; i < found_.size(); ++i) {
      sum += std::pow((found_[i].value - readings[i]) / found_[i].deviation, 2);
    }
  } catch (const Error&) {
    return std::numeric_limits<double>::infinity();  // no such water: nearer to the plan there is
  }
  return sum;
}

std::vector<double> Evidence::step_from(const std::vector<double>& values,
                                        const std::vector<double>& spreads) const {
  const SquareMatrix by_source = slopes(values, spreads);
  const std::vector<double> readings = history_.outcome(circumstances(values)).readings;
  const std::size_t size = values.size();
  std::vector<double> downhill(size, 0.0);
  for (std::size_t i = 0; i < size; ++i) {
    if (spreads[i] <= 0) continue;
    downhill[i] = -values[i] / spreads[i];
    for (std::size_t r = 0; r < found_.size(); ++r) {
      downhill[i] += by_source[i][r] * (found_[r].value - readings[r]) / found_[r].deviation;
    }
  }
  const SquareMatrix normal = normal_matrix(by_source);
  std::vector<bool> held(size, false);
  std::vector<double> held_steps(size, 0.0);
  for (;;) {
    const std::vector<double> step = least_squares_step(normal, downhill, held, held_steps);
    bool is_inside = true;
    for (std::size_t i = 0; i < size; ++i) {
      if (spreads[i] <= 0 || held[i]) continue;
      const double to = values[i] + step[i] * spreads[i];
      const double within = std::clamp(to, lowest(i), highest(i));
      if (to == within) continue;
      is_inside = false;
      held[i] = true;
      held_steps[i] = (within - values[i]) / spreads[i];
    }
    if (is_inside) return step;
  }
}

Estimate Evidence::estimated(const std::vector<double>& spreads) const {
  Estimate result;
  result.values.assign(sources_.size(), 0.0);
  double least = misfit(result.values, spreads);
  for (int i = 0; i < most_steps; ++i) {
    std::vector<double> step = step_from(result.values, spreads);
    double longest = 0;
    for (const double along : step) longest = std::max(longest, std::abs(along));
    if (longest < settled) break;
    bool is_better = false;
    for (int half = 0; half < most_halvings && !is_better; ++half) {
      std::vector<double> next = result.values;
      for (std::size_t k = 0; k < next.size(); ++k) {
        next[k] += step[k] * spreads[k];
        step[k] /= 2;
      }
      const double there = misfit(next, spreads);
      is_better = there < least;
      if (!is_better) continue;
      least = there;
      result.values = next;
    }
    if (!is_better) break;
  }
  const SquareMatrix normal = normal_matrix(slopes(result.values, spreads));
  result.root = cholesky_root(inverse(normal));
  for (std::size_t i = 0; i < spreads.size(); ++i) {
    for (double& along : result.root[i]) along *= spreads[i];
  }
  result.readings = history_.outcome(circumstances(result.values)).readings;
  result.log_likelihood = -(least + log_determinant(normal)) / 2;
  return result;
}

std::vector<Forecast> Evidence::forecast(std::span<const Reading> readings) const {
  const Estimate known = estimate();
  TubHistory next = history_;
  for (const Reading reading : readings) next.read(reading);
  const std::size_t first = found_.size();
  const std::vector<double> values = next.outcome(circumstances(known.values)).readings;
  const std::vector<double> wide = spreads();
  const std::vector<double> none(sources_.size(), 0.0);
  SquareMatrix above(readings.size(), none);
  for (std::size_t i = 0; i < sources_.size(); ++i) {
    if (wide[i] <= 0) continue;
    const std::vector<double> along = slope(known.values, i, next, values);
    for (std::size_t r = 0; r < readings.size(); ++r) above[r][i] = along[first + r];
  }
  std::vector<Forecast> forecasts;
  for (std::size_t r = 0; r < readings.size(); ++r) {
    std::vector<double> below = above[r];
    for (std::size_t i = 0; i < sources_.size(); ++i) {
      if (!sources_[i].only_more || known.values[i] > 0) continue;
      (above[r][i] > 0 ? below : above[r])[i] = 0;
    }
    const Forecast line{values[first + r], spread_of(known.root, below),
                        spread_of(known.root, above[r])};
    forecasts.push_back(is_pictured_by(line, readings[r])
                            ? line
                            : drawn_forecast(line.value, known, next, first + r, above[r]));
  }
  return forecasts;
}

/// Whole histories, each with all that is not known drawn together.
Forecast Evidence::drawn_forecast(double value, const Estimate& known, const TubHistory& next,
                                  std::size_t reading, const std::vector<double>& slopes) const {
  std::vector<double> direction(sources_.size(), 0.0);
  for (std::size_t column = 0; column < direction.size(); ++column) {
    for (std::size_t i = 0; i < slopes.size(); ++i) {
      direction[column] += slopes[i] * known.root[i][column];
    }
  }
  const Draws draws(direction);
  std::vector<double> found;
  std::vector<double> normals(sources_.size());
  for (std::size_t draw = 0; draw < draw_count; ++draw) {
    draws.normals(draw, normals);
    std::vector<double> drawn = known.values;
    for (std::size_t i = 0; i < drawn.size(); ++i) {
      for (std::size_t k = 0; k < normals.size(); ++k) drawn[i] += known.root[i][k] * normals[k];
    }
    found.push_back(next.outcome(circumstances(drawn)).readings.at(reading));
  }
  const Interval interval = Spread::of_draws(value, std::move(found)).interval();
  return {value, (value - interval.low) / z_90, (interval.high - value) / z_90};
}

}  // namespace tub::planning
