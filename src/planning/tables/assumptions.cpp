#include "planning/tables/assumptions.h"

#include <fmt/format.h>

#include <array>
#include <utility>

#include "base/nearest.h"
#include "base/text.h"
#include "planning/tables/data_row.h"

namespace tub::planning {
namespace {

using Member = Assumed Assumptions::*;

constexpr auto members = std::to_array<std::pair<std::string_view, Member>>({
    {"overshoot_bound", &Assumptions::overshoot_bound},
    {"first_pour_share", &Assumptions::first_pour_share},
    {"least_first_pour_share", &Assumptions::least_first_pour_share},
    {"pour_ph", &Assumptions::pour_ph},
    {"wait_minutes", &Assumptions::wait_minutes},
    {"dosing_temperature_c", &Assumptions::dosing_temperature_c},
    {"bathing_temperature_c", &Assumptions::bathing_temperature_c},
    {"carbon_dioxide_lost_per_wait", &Assumptions::carbon_dioxide_lost_per_wait},
    {"source_temperature_c", &Assumptions::source_temperature_c},
    {"magnesium_share", &Assumptions::magnesium_share},
    {"untested_cyanuric_acid_mg_l", &Assumptions::untested_cyanuric_acid_mg_l},
    {"chloride_mg_l", &Assumptions::chloride_mg_l},
    {"sulfate_mg_l", &Assumptions::sulfate_mg_l},
    {"dissolved_solids_per_conductivity", &Assumptions::dissolved_solids_per_conductivity},
    {"fresh_water_demand_mg_l", &Assumptions::fresh_water_demand_mg_l},
    {"tap_free_chlorine_mg_l", &Assumptions::tap_free_chlorine_mg_l},
    {"tap_combined_chlorine_mg_l", &Assumptions::tap_combined_chlorine_mg_l},
    {"chlorine_per_combined", &Assumptions::chlorine_per_combined},
    {"bromide_bank_mg_l", &Assumptions::bromide_bank_mg_l},
    {"bromide_that_counts_mg_l", &Assumptions::bromide_that_counts_mg_l},
    {"hand_over_cyanuric_acid_mg_l", &Assumptions::hand_over_cyanuric_acid_mg_l},
    {"no_more_dichlor_cyanuric_acid_mg_l", &Assumptions::no_more_dichlor_cyanuric_acid_mg_l},
    {"sequestrant_reach", &Assumptions::sequestrant_reach},
    {"sanitizer_half_life_h", &Assumptions::sanitizer_half_life_h},
    {"cartridge_free_chlorine_mg_l", &Assumptions::cartridge_free_chlorine_mg_l},
    {"cartridge_total_bromine_mg_l", &Assumptions::cartridge_total_bromine_mg_l},
    {"refill_step", &Assumptions::refill_step},
    {"refill_half_width", &Assumptions::refill_half_width},
    {"softener_leaves_mg_l", &Assumptions::softener_leaves_mg_l},
    {"most_replaced", &Assumptions::most_replaced},
    {"steadying_alkalinity_mg_l", &Assumptions::steadying_alkalinity_mg_l},
    {"saturation_index", &Assumptions::saturation_index},
});

Assumed read_row(const std::string& code, const Node& row) {
  row.allow_only(Names{"low", "value", "high", "unit", "source"});
  constexpr double most = 1e4;
  Assumed assumed;
  assumed.code = code;
  assumed.value = data_row::number(row, "value", -most, most);
  assumed.low = data_row::optional_number(row, "low", -most, most).value_or(assumed.value);
  assumed.high = data_row::optional_number(row, "high", -most, most).value_or(assumed.value);
  assumed.unit = data_row::text(row, "unit");
  if (const auto source = row.require("source")) {
    assumed.source = read_provenance(*source).value_or(Provenance{});
  }
  if (assumed.low > assumed.value || assumed.value > assumed.high) {
    row.problem("low, value and high are in the wrong order");
  }
  return assumed;
}

void read_assumptions(const Node& table, Assumptions& assumptions) {
  Names known;
  for (const auto& [name, member] : members) {
    known.emplace_back(name);
    if (const auto row = table.require(name)) {
      assumptions.*member = read_row(std::string(name), *row);
    }
  }
  table.allow_only(known);
}

void read_metal_limits(const Node& table, Assumptions& assumptions) {
  Names known;
  for (const Reading metal : {Reading::copper, Reading::iron, Reading::manganese}) {
    known.emplace_back(name_of(metal));
    if (const auto row = table.require(name_of(metal))) {
      assumptions.metal_limits[metal] = read_row("metal_limit", *row);
    }
  }
  table.allow_only(known);
}

void read_softer_water(const Node& table, Assumptions& assumptions) {
  Names known;
  for (const Reading reading : {Reading::ph, Reading::total_alkalinity, Reading::calcium_hardness,
                                Reading::dissolved_solids}) {
    known.emplace_back(name_of(reading));
    if (const auto row = table.require(name_of(reading))) {
      assumptions.softer_water[reading] = read_row("softer_water", *row);
    }
  }
  table.allow_only(known);
}

}  // namespace

Assumptions parse_assumptions(std::string_view text, const std::string& file) {
  Problems problems;
  const Node root = Node::parse(text, file, problems);
  root.allow_only(Names{"_about", "assumptions", "metal_limits", "softer_water", "reasons"});
  Assumptions assumptions;
  if (const auto table = root.require("assumptions")) read_assumptions(*table, assumptions);
  if (const auto table = root.require("metal_limits")) read_metal_limits(*table, assumptions);
  if (const auto table = root.require("softer_water")) read_softer_water(*table, assumptions);
  if (const auto table = root.require("reasons")) assumptions.reasons = read_reason_priors(*table);
  problems.throw_if_any();
  return assumptions;
}

}  // namespace tub::planning
