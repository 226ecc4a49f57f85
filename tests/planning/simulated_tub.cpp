#include "simulated_tub.h"

#include <algorithm>
#include <cmath>

#include "chemistry/gas.h"
#include "planning/water/start_water.h"
#include "sample_job.h"

namespace tub::planning {
namespace {

const Product& product_named(const PlanRequest& request, const std::string& id) {
  return std::find_if(request.shelf.begin(), request.shelf.end(),
                      [&](const ShelfItem& item) { return item.product.id == id; })
      ->product;
}

double to_division(double value, double division) {
  return std::round(value / division) * division;
}

bool is_gas(const Plan& plan) {
  return std::any_of(plan.found.begin(), plan.found.end(), [](const FoundReading& found) {
    return found.likely && found.likely->code == "carbon_dioxide_lost";
  });
}

}  // namespace

SimulatedTub::SimulatedTub(const PlanRequest& request, Truth truth)
    : request_(request),
      truth_(std::move(truth)),
      water_(start_water(request.water, planning_data(), species_table()).water) {}

void SimulatedTub::wait() {
  if (truth_.carbon_dioxide_lost <= 0) return;
  water_ = lose_carbon_share(water_, truth_.carbon_dioxide_lost, species_table());
}

void SimulatedTub::pour(const Portion& portion, const std::string& id) {
  const Product& product = product_named(request_, id);
  const double grams =
      portion.amount_ml ? *portion.amount_ml * product.density_g_ml.value_or(1) : *portion.amount_g;
  const auto strength = truth_.strength.find(id);
  const double factor = strength == truth_.strength.end() ? 1 : strength->second;
  const double litres = request_.tub.volume_l * truth_.volume_factor;
  for (const Product::Part& part : product.parts) {
    water_ = add(water_, part.formula, factor * grams * part.mass_fraction * 1000 / litres,
                 species_table());
  }
}

void SimulatedTub::follow(const Step& step, std::size_t first_pour, std::size_t pours) {
  if (const auto* heating = std::get_if<Heat>(&step.what)) {
    water_ = heat(water_, celsius(heating->to_c));
  }
  if (const auto* release = std::get_if<ReleaseCarbonDioxide>(&step.what)) {
    water_ = exchange_carbon_dioxide(water_, release->to_log10_pco2_atm, species_table());
  }
  if (const auto* repeat = std::get_if<Repeat>(&step.what)) {
    for (int i = 0; i < repeat->times; ++i) {
      for (const Step& inner : repeat->steps) follow(inner);
    }
  }
  const auto* addition = std::get_if<Addition>(&step.what);
  if (addition == nullptr) return;
  const std::size_t end = pours == 0 ? addition->portions.size() : first_pour + pours;
  for (std::size_t i = first_pour; i < end; ++i) {
    pour(addition->portions.at(i), addition->product);
    for (const auto& [key, mg_l] : addition->spends) {
      if (i == 0) demand_mg_l_ += mg_l + truth_.extra_demand_mg_l;
      const double met = std::min(demand_mg_l_, state().free_chlorine_mg_l);
      water_ = spend_free_chlorine(water_, met);
      demand_mg_l_ -= met;
    }
    wait();
  }
}

WaterState SimulatedTub::state() const { return read(water_, species_table()); }

RetestReport SimulatedTub::report(int after_step, const std::string& method) const {
  RetestReport report;
  report.after_step = after_step;
  const TestMethod test = test_method(method);
  const WaterState now = state();
  for (const Reading reading : {Reading::ph, Reading::total_alkalinity, Reading::calcium_hardness,
                                Reading::free_chlorine}) {
    report.readings[std::string(key_of(reading))] = {
        to_division(value_of(reading, now), test.rows.at(reading).division), method};
  }
  return report;
}

Startup started_up(PlanRequest request, const Truth& truth, const std::string& method) {
  SimulatedTub tub(request, truth);
  Startup startup;
  startup.last = make_plan(request, planning_data(), species_table());
  for (startup.plans = 1; startup.plans < 40; ++startup.plans) {
    const std::vector<Step>& steps = startup.last.steps;
    const int number = steps.front().number;
    const bool is_last = number == steps.back().number;
    std::optional<int> pour;
    for (const Step& step : steps) {
      if (step.number != number) break;
      const auto* addition = std::get_if<Addition>(&step.what);
      const bool goes_on = !startup.last.done.empty() && startup.last.done.back().number == number;
      if (addition != nullptr && addition->portions.size() > 1 && !goes_on) pour = 1;
      tub.follow(step, 0, pour ? 1 : 0);
    }
    if (is_last) {
      startup.is_ended = true;
      break;
    }
    RetestReport report = tub.report(number, method);
    report.after_pour = pour;
    request.retests.push_back(report);
    startup.last = make_plan(request, planning_data(), species_table());
    if (is_gas(startup.last)) tub.close_air_valves();
  }
  startup.end = tub.state();
  return startup;
}

}  // namespace tub::planning
