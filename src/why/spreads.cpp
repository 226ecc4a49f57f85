#include "why/spreads.h"

#include <fmt/format.h>

#include <cmath>
#include <set>

#include "planning/water/start_errors.h"
#include "why/asking.h"
#include "why/grounds.h"
#include "why/product_factors.h"

namespace tub::why {
namespace {

using SourceKind = ErrorSource::Kind;

std::string name_of_source(const ErrorSource& source) {
  switch (source.kind) {
    case SourceKind::volume:
      return "volume";
    case SourceKind::start_reading:
      return "test_of_" + std::string(name_of(source.reading));
    case SourceKind::total_hardness:
      return "test_of_total_hardness";
    case SourceKind::magnesium_share:
      return "magnesium_share";
    case SourceKind::refilled_share:
      return "share_refilled";
    case SourceKind::judged:
      return "what_retests_leave_open";
    case SourceKind::strength:
      return "strength_of_" + source.supply->product().id;
    case SourceKind::staleness:
      return "staleness_of_" + source.supply->product().id;
    case SourceKind::dissolving:
      return "dissolving_of_" + source.supply->product().id;
    default:
      return "spoon_of_" + source.supply->product().id;
  }
}

/// The error of a slip's own test.
std::string test_error(Asking& asking, Reading reading, const std::string& slip) {
  const std::string key(key_of(reading));
  if (const auto found = error_row(reading, asking.slip_readings(slip), asking.data)) {
    return data_row(asking,
                    fmt::format("test_methods.json: {}/{} at {}", found->method->id,
                                name_of(found->of), found->at),
                    "half_width", found->half_width(), unit_of_key(key), found->row->source);
  }
  return constant(asking, "error of " + key, 0, unit_of_key(key), definition("not stated"));
}

/// The same of total hardness.
std::string total_hardness_error(Asking& asking, const std::string& slip) {
  const WaterTest& test = asking.slip_readings(slip);
  const auto found = test.readings.find("total_hardness_mg_l");
  for (const TestMethod& method : asking.data.test_methods) {
    if (found == test.readings.end() || method.id != found->second.method) continue;
    if (!method.total_hardness) continue;
    return data_row(
        asking,
        fmt::format("test_methods.json: {}/total_hardness at {}", method.id, found->second.value),
        "half_width", method.total_hardness->half_width_at(found->second.value), "mg/L as CaCO3",
        method.total_hardness->source);
  }
  return constant(asking, "error of total hardness", 0, "mg/L as CaCO3", definition("not stated"));
}

/// A spoon: how level it is filled, and how loose the product lies.
std::string spoon_error(Asking& asking, const ErrorSource& source) {
  const Product& product = source.supply->product();
  const MeasureSystem& measure = asking.request.measure;
  const auto from = measure.sources.find("spoon_half_width");
  const std::string filled =
      data_row(asking, fmt::format("measures.json: {}/spoon_half_width", measure.id),
               "spoon_half_width", measure.spoon_half_width, "share",
               from == measure.sources.end() ? definition("") : from->second);
  std::vector<Input> inputs = {{"filling", filled}};
  if (product.bulk_density_g_ml && product.bulk_density_range_g_ml &&
      product.form != Form::liquid) {
    const Range& range = *product.bulk_density_range_g_ml;
    const double share = (range.high - range.low) / 2 / *product.bulk_density_g_ml;
    const auto density = product.sources.find("bulk_density_range");
    inputs.push_back(
        {"looseness",
         data_row(asking, fmt::format("products.json: {}/bulk_density_range_g_ml", product.id),
                  "looseness", share, "share",
                  density == product.sources.end() ? definition("") : density->second)});
  }
  return asking.put("spoon error of " + product.id, "spoon_error", "share", "root_sum_of_squares",
                    std::move(inputs), source.half_width);
}

std::string half_width_node(Asking& asking, const ErrorSource& source, const std::string& slip) {
  switch (source.kind) {
    case SourceKind::volume:
      return asking.ask("/vessel/volume_give_or_take");
    case SourceKind::start_reading:
      return test_error(asking, source.reading, slip);
    case SourceKind::total_hardness:
      return total_hardness_error(asking, slip);
    case SourceKind::magnesium_share:
      return assumption(asking, asking.data.assumptions.magnesium_share);
    case SourceKind::judged:
      return constant(asking, "90 % of what retests leave open", 1, "half-width",
                      definition("one of the independent errors of the estimate"));
    case SourceKind::refilled_share:
      return assumption(asking, asking.data.assumptions.refill_half_width);
    case SourceKind::strength:
      return product_row(asking, source.supply->product(), "strength_half_width", source.half_width,
                         "share");
    case SourceKind::dissolving:
      return product_row(asking, source.supply->product(), "dissolves", source.half_width, "share");
    case SourceKind::staleness:
      return product_row(asking, source.supply->product(), "strength_loss", source.half_width,
                         "share");
    default:
      return spoon_error(asking, source);
  }
}

double size_of(const ErrorEffect& effect) {
  return effect.is_one_sided ? std::abs(effect.at_high)
                             : std::abs(effect.at_high - effect.at_low) / 2;
}

}  // namespace

SpreadOf spread_of(Asking& asking, const std::string& id, std::string_view key,
                   const std::string& value, std::span<const Move> moves) {
  const Branches branches = asking.situation.uncertainty().after(moves);
  const Outcomes outcomes = branches.outcomes();
  SpreadOf result{branches.spread(key, outcomes), {{"value", value}}};
  std::set<std::string> seen;
  for (const NamedEffect& one : branches.effects(member_of(key))) {
    if (size_of(one.effect) == 0) continue;
    std::string name = name_of_source(one.source);
    // The errors of a mixture: those of the first slip, then those of the other.
    const bool is_second = one.source.kind == SourceKind::start_reading &&
                           (asking.situation.refill.fraction >= 1 || !seen.insert(name).second);
    const std::string slip = is_second ? "/second_source" : asking.slip();
    if (is_second) name += "_of_second_source";
    const std::string node = asking.put(
        fmt::format("{}#by_{}", id, name), "half_width_by_" + name, unit_of_key(key), "effect_of",
        {{name, half_width_node(asking, one.source, slip)}}, size_of(one.effect));
    result.inputs.push_back({"by_" + name, node});
  }
  return result;
}

void add_retest(Asking& asking, const std::string& id, Reading reading, SpreadOf& spread) {
  static_cast<void>(id);
  const TestMethod& retest = asking.request.retest_with;
  const auto row = retest.rows.find(reading);
  if (row == retest.rows.end()) return;
  const double half_width = row->second.half_width_at(spread.spread.predicted());
  spread.spread.add_normal(half_width);
  if (reading != Reading::ph) spread.spread.read_as_no_less_than(0);
  spread.inputs.push_back(
      {"by_the_retest",
       data_row(asking,
                fmt::format("test_methods.json: {}/{} at {}", retest.id, name_of(reading),
                            spread.spread.predicted()),
                "half_width", half_width, unit_of_key(key_of(reading)), row->second.source)});
}

std::string quantile_node(Asking& asking, const std::string& id, const std::string& unit,
                          const SpreadOf& spread, const std::string& end) {
  const Interval interval = spread.spread.interval();
  return asking.put(id + "#" + end, end + "_end_of_90_%", unit, spread.equation(), spread.inputs,
                    end == "low" ? interval.low : interval.high);
}

std::string reach_node(Asking& asking, const std::string& step, Reading reading, double reach,
                       const Draft& whole) {
  const std::string key(key_of(reading));
  const Bench& bench = asking.situation.bench;
  const double predicted = bench.reading(reading, bench.after(asking.situation.start.water, whole));
  const std::string id = step + "#reach";
  const std::string value = asking.put(Node{id + "_value",
                                            "as_solved",
                                            0,
                                            unit_of_key(key),
                                            "solved",
                                            {{"start", reading_of(asking, asking.before(0), key)}}},
                                       predicted);
  SpreadOf spread = spread_of(asking, id, key, value, whole);
  return asking.put(id, "reach_of_90_%", unit_of_key(key), "interval_reach",
                    std::move(spread.inputs), reach);
}

}  // namespace tub::why
