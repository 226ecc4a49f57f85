#include "planning/retests/judged_water.h"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "base/error.h"

namespace tub::planning {
namespace {

using Kind = TakenForGranted::Kind;

/// Of a standard deviation: what moved less is not worth another figure on the card.
constexpr double worth_saying = 0.5;
/// Some of a volume or a strength is surely there, however little the readings tell of it.
constexpr double most_unknown = 0.9;
/// The test method of a reading that was not tested again, in the tables of one visit.
constexpr const char* carried_over = "carried_over";

const TestRow* row_of(const PlanningData& data, const std::string& method, Reading reading) {
  for (const TestMethod& one : data.test_methods) {
    if (one.id != method) continue;
    const auto row = one.rows.find(reading);
    return row == one.rows.end() ? nullptr : &row->second;
  }
  return nullptr;
}

/// Each column of the estimate is an error by itself.
std::vector<UncertainReading> errors_of(const Evidence& evidence, const Estimate& estimate) {
  std::vector<UncertainReading> errors;
  for (std::size_t column = 0; column < estimate.root.size(); ++column) {
    std::vector<double> low = estimate.values;
    std::vector<double> high = estimate.values;
    for (std::size_t i = 0; i < low.size(); ++i) {
      low[i] -= z_90 * estimate.root[i][column];
      high[i] += z_90 * estimate.root[i][column];
    }
    const UncertainReading error{UncertainReading::Of::judged, std::nullopt, evidence.water(low),
                                 evidence.water(high)};
    if (!(error.low == error.high)) errors.push_back(error);
  }
  return errors;
}

void judge_volume(const Evidence& evidence, const Estimate& estimate, JudgedTub& judged) {
  constexpr std::size_t volume = 0;
  const TakenForGranted& source = evidence.sources().at(volume);
  const double factor = 1 + estimate.values[volume];
  const bool has_moved = std::abs(factor - 1) > worth_saying * source.deviation;
  if (!evidence.is_given_up(volume) && !has_moved) return;
  Tub& tub = judged.request.tub;
  tub.volume_l /= factor;
  tub.volume_give_or_take = std::min(most_unknown, z_90 * estimate.deviation(volume) / factor);
  judged.start.assumed.push_back(
      {"volume_judged", {{"volume_l", tub.volume_l}, {"share", tub.volume_give_or_take}}});
}

/// What is judged of one product, as factors of its strength.
struct JudgedStrength {
  double factor = 1;
  double half_width = 0;
  bool is_said = false;
  bool is_loss_known = false;
};

JudgedStrength strength_of(std::size_t supply, const Evidence& evidence, const Estimate& estimate) {
  JudgedStrength judged;
  double variance = 0;
  for (std::size_t i = 0; i < evidence.sources().size(); ++i) {
    const TakenForGranted& source = evidence.sources()[i];
    const bool is_share = source.kind == Kind::strength || source.kind == Kind::loss;
    if (!is_share || source.index != supply) continue;
    const double value = estimate.values[i];
    judged.factor *= source.kind == Kind::loss ? 1 - value : 1 + value;
    variance += std::pow(estimate.deviation(i), 2);
    const bool has_moved =
        source.deviation > 0 && std::abs(value) > worth_saying * source.deviation;
    judged.is_said = judged.is_said || evidence.is_given_up(i) || has_moved;
    judged.is_loss_known =
        judged.is_loss_known || (source.kind == Kind::loss && evidence.is_given_up(i));
  }
  judged.half_width = z_90 * std::sqrt(variance) / judged.factor;
  return judged;
}

void judge_strengths(const Situation& situation, const Evidence& evidence, const Estimate& estimate,
                     JudgedTub& judged) {
  const ShelfItem* const first = situation.request.shelf.data();
  for (std::size_t i = 0; i < situation.supplies().size(); ++i) {
    const JudgedStrength strength = strength_of(i, evidence, estimate);
    if (!strength.is_said) continue;
    const auto place = static_cast<std::size_t>(&situation.supplies()[i].item() - first);
    Product& product = judged.request.shelf.at(place).product;
    for (Product::Part& part : product.parts) part.mass_fraction *= strength.factor;
    if (strength.is_loss_known) {
      product.strength_loss = 0;
      product.strength_half_width = std::min(most_unknown, strength.half_width);
    }
    judged.start.assumed.push_back(
        {"strength_judged", {{"product", product.id}, {"share", strength.factor}}});
  }
}

const std::array<std::pair<Reading, double Readings::*>, 10> carried = {{
    {Reading::ph, &Readings::ph},
    {Reading::total_alkalinity, &Readings::total_alkalinity_mg_l},
    {Reading::calcium_hardness, &Readings::calcium_hardness_mg_l},
    {Reading::free_chlorine, &Readings::free_chlorine_mg_l},
    {Reading::total_bromine, &Readings::total_bromine_mg_l},
    {Reading::combined_chlorine, &Readings::combined_chlorine_mg_l},
    {Reading::cyanuric_acid, &Readings::cyanuric_acid_mg_l},
    {Reading::copper, &Readings::copper_mg_l},
    {Reading::iron, &Readings::iron_mg_l},
    {Reading::manganese, &Readings::manganese_mg_l},
}};

/// How far the plan may have left a reading from what it foretold, as a test's error.
TestMethod errors_left(const StartWater& left, const Bench& bench) {
  TestMethod method;
  method.id = carried_over;
  for (const auto& [reading, member] : carried) {
    double variance = 0;
    for (const UncertainReading& error : left.uncertain) {
      const double across = bench.reading(reading, error.high) - bench.reading(reading, error.low);
      variance += std::pow(across / (error.low_share + error.share), 2);
    }
    if (variance > 0) method.rows[reading].half_width = std::sqrt(variance);
  }
  return method;
}

void name_what_is_carried(const RetestReport& report, const Situation& situation,
                          StartWater& start) {
  for (const auto& [reading, member] : carried) {
    const std::string key(key_of(reading));
    const bool is_steered = situation.goal(reading) != nullptr;
    if (!is_steered || report.readings.contains(key)) continue;
    start.assumed.push_back({"carried_over", {{"reading", key}}});
  }
}

}  // namespace

double test_half_width(const PlanningData& data, Reading reading, const MeasuredReading& measured,
                       double at) {
  const TestRow* const row = row_of(data, measured.method, reading);
  return row->half_width_at(at);
}

Interval expected_interval(Reading reading, double value, double deviation_below,
                           double deviation_above) {
  Interval interval{value - z_90 * deviation_below, value, value + z_90 * deviation_above};
  if (reading != Reading::ph) interval.low = std::max(0.0, interval.low);
  return interval;
}

JudgedTub judged_tub(const PlanRequest& stated, const Situation& situation,
                     const Evidence& evidence, const Estimate& estimate) {
  JudgedTub judged{stated, situation.start};
  judged.request.water_is_in_tub = true;
  judged.start.water = evidence.water(estimate.values);
  judged.start.state = situation.bench.state(judged.start.water);
  judged.start.uncertain = errors_of(evidence, estimate);
  judge_volume(evidence, estimate, judged);
  judge_strengths(situation, evidence, estimate, judged);
  return judged;
}

StartWater visited_water(const RetestReport& report, const Situation& situation,
                         const StartWater& left, const PlanningData& data) {
  PlanningData tables;
  tables.assumptions = data.assumptions;
  tables.test_methods = data.test_methods;
  tables.test_methods.push_back(errors_left(left, situation.bench));
  WaterTest test;
  test.temperature_c = report.temperature_c.value_or(left.state.temperature_c);
  for (const auto& key : reading_keys) {
    if (key.name == "temperature_c") continue;
    test.readings[std::string(key.name)] = {left.state.*key.member, carried_over};
  }
  for (const auto& [key, one] : report.readings) test.readings[key] = one;
  try {
    StartWater start = start_water(test, tables, situation.bench.species());
    start.measured.clear();
    for (const auto& [key, one] : report.readings) start.measured.push_back(key);
    // What closes the charge balance of the first water closes it no more.
    std::copy_if(left.assumed.begin(), left.assumed.end(),
                 std::inserter(start.assumed, start.assumed.begin()),
                 [](const Reason& reason) { return reason.code != "charge_balance_closed"; });
    name_what_is_carried(report, situation, start);
    return start;
  } catch (const Error& error) {
    throw Error({"there is no such water: " + error.diagnostics().front().message,
                 report.where,
                 {"putting what was found into what the plan left"},
                 "test pH and total alkalinity, and give both"});
  }
}

}  // namespace tub::planning
