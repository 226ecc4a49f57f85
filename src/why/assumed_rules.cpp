// What was assumed: rows of data, and what was worked out where nobody measured.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "why/asking.h"
#include "why/equations.h"
#include "why/floater_rules.h"
#include "why/grounds.h"
#include "why/judged_rules.h"
#include "why/rules.h"
#include "why/start_rules.h"

namespace tub::why {
namespace {

const Reason& reason_at(const Asking& asking, const Place& place) {
  return asking.plan.assumed.at(std::stoul(place.parts.at(1)));
}

/// A water of a reason: that of the plan, or the second one.
bool is_of_second(const Reason& reason) { return reason.text("water") == "second_source"; }

constexpr std::array assumption_rows = {
    &Assumptions::wait_minutes,
    &Assumptions::dosing_temperature_c,
    &Assumptions::bathing_temperature_c,
    &Assumptions::carbon_dioxide_lost_per_wait,
    &Assumptions::source_temperature_c,
    &Assumptions::magnesium_share,
    &Assumptions::chloride_mg_l,
    &Assumptions::sulfate_mg_l,
    &Assumptions::dissolved_solids_per_conductivity,
    &Assumptions::fresh_water_demand_mg_l,
    &Assumptions::tap_free_chlorine_mg_l,
    &Assumptions::tap_combined_chlorine_mg_l,
    &Assumptions::chlorine_per_combined,
    &Assumptions::bromide_bank_mg_l,
    &Assumptions::bromide_that_counts_mg_l,
    &Assumptions::hand_over_cyanuric_acid_mg_l,
    &Assumptions::no_more_dichlor_cyanuric_acid_mg_l,
    &Assumptions::sequestrant_reach,
    &Assumptions::sanitizer_half_life_h,
    &Assumptions::softener_leaves_mg_l,
    &Assumptions::steadying_alkalinity_mg_l,
    &Assumptions::refill_step,
    &Assumptions::refill_half_width,
    &Assumptions::most_replaced,
    &Assumptions::saturation_index,
};

const Assumed* row_of(const Assumptions& assumptions, const std::string& code) {
  for (const auto member : assumption_rows) {
    if ((assumptions.*member).code == code) return &(assumptions.*member);
  }
  return nullptr;
}

Node of_jets(Asking& asking, const std::string& field) {
  const GasExchange& gas = asking.species.gas_exchange();
  const double value = field == "low"    ? gas.jets_on.low
                       : field == "high" ? gas.jets_on.high
                                         : gas.jets_on.value;
  return same_as(asking,
                 data_row(asking, "species.json: gas_exchange/jets_on/" + field, "rate_of_the_jets",
                          value, "1/h", assumed_by_us(gas.rates_source)));
}

Node of_tablets(Asking& asking, const Place& place) {
  for (const Product& product : asking.data.products) {
    if (!product.dissolves) continue;
    const std::string where =
        fmt::format("products.json: {}/dissolves/{}", product.id, place.parts.back());
    return same_as(asking, data_row(asking, where, "g_per_day", asking.stated(place), "g/d",
                                    product.source_of("dissolves")));
  }
  return {"", "", 0, "", "counted", {}};
}

/// What was worked out about the water: by the code and the parameter's name.
Node of_water(Asking& asking, const Place& place, const Reason& reason, const std::string& field) {
  const std::string water = is_of_second(reason) ? "/second_source" : "/start";
  const std::string slip = is_of_second(reason) ? "/second_source" : asking.slip();
  if (reason.code == "dissolved_solids_as_salt") return missing_salt(asking, water, slip);
  if (field == "estimated_mg_l") return same_as(asking, solids_of_slip(asking, slip));
  if (field == "ions_mg_l") {
    return same_as(asking, reading_of(asking, water, "dissolved_solids_mg_l"));
  }
  if (reason.code == "charge_balance_closed") {
    const std::string key = reason.text("ion") + "_mg_l";
    if (field == "measured_mg_l") return same_as(asking, slip_reading(asking, slip, key));
    const std::string closing = reading_of(asking, water, key);
    if (asking.value(closing) == asking.stated(place)) return same_as(asking, closing);
    // Retests have moved the water since its charges were closed.
    return {"", "", 0, "", "charge_balance", {{"as_judged", closing}}};
  }
  if (number_of(water_named(asking, water).state, field) != 0 || field.ends_with("_mg_l")) {
    return same_as(asking, reading_of(asking, water, field));
  }
  return {"", "", 0, "", "counted", {}};
}

/// A row with that code has another value where a job or another data row stands behind it.
bool agrees_with_row(const Asking& asking, const Place& place, const Assumed& row) {
  const std::string& field = place.parts.back();
  const double value = field == "low" ? row.low : field == "high" ? row.high : row.value;
  return agrees(value, asking.stated(place));
}

}  // namespace

Node explain_assumed(Asking& asking, const Place& place) {
  const Reason& reason = reason_at(asking, place);
  const std::string& field = place.parts.back();
  const Assumed* row = row_of(asking.data.assumptions, reason.code);
  if (row != nullptr && agrees_with_row(asking, place, *row)) {
    return same_as(asking, assumption(asking, *row, field));
  }
  if (reason.code == "volume_give_or_take") {
    return same_as(asking, asking.ask("/vessel/volume_give_or_take"));
  }
  if (reason.code == "volume_judged") {
    return same_as(asking, asking.ask(field == "volume_l" ? "/vessel/volume_l"
                                                          : "/vessel/volume_give_or_take"));
  }
  if (reason.code == "strength_judged") {
    return {"", "", 0, "share", "judged", found_readings(asking)};
  }
  if (reason.code == "carbon_dioxide_release_per_hour") return of_jets(asking, field);
  if (reason.code == "tablet_dissolves_g_per_day") return of_tablets(asking, place);
  if (reason.code == "tablets_replace_what_is_used") return replaced_by_floater(asking);
  if (reason.code == "stop_assumed") {
    const std::string stop = fmt::format("/targets/readings/{}/stop", reason.text("reading"));
    if (asking.in_plan().number(stop)) return same_as(asking, asking.ask(stop));
  }
  return of_water(asking, place, reason, field);
}

}  // namespace tub::why
