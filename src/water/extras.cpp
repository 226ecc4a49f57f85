#include "water/extras.h"

#include <fmt/format.h>

#include <array>

#include "base/error.h"
#include "chemistry/conductivity.h"
#include "chemistry/derivatives.h"
#include "chemistry/titration.h"
#include "water/steps.h"

namespace tub::water {
namespace {

constexpr double kit_end_ph = 4.5;

std::string specific_conductivity(const ReadWater& water, const WaterTables& tables) {
  return json_number(conductivity_us_cm(water.speciation, tables.species));
}

std::string titrated(const ReadWater& water, const WaterTables& tables) {
  return json_number(titrated_alkalinity_mg_l(water.water, Dechlorination::to_tetrathionate,
                                              kit_end_ph, tables.species));
}

// Null outside the tables.
std::string index_by(LookUp look_up, const ReadWater& water, const WaterTables& tables) {
  const WaterState& state = water.state;
  const IndexInputs inputs = {water.water.temperature,     state.ph,
                              state.calcium_hardness_mg_l, state.total_alkalinity_mg_l,
                              state.dissolved_solids_mg_l, 0};
  try {
    return json_number(table_index(inputs, look_up, tables.index).index);
  } catch (const Error&) {
    return "null";
  }
}

std::string index_nearest(const ReadWater& water, const WaterTables& tables) {
  return index_by(LookUp::nearest, water, tables);
}
std::string index_linear(const ReadWater& water, const WaterTables& tables) {
  return index_by(LookUp::linear, water, tables);
}
std::string index_closed_form(const ReadWater& water, const WaterTables& tables) {
  return index_by(LookUp::closed_form, water, tables);
}

// The readings whose spread is shown.
constexpr std::array<std::pair<std::string_view, double WaterState::*>, 6> spread_keys = {{
    {"hocl_mg_l", &WaterState::hocl_mg_l},
    {"ocl_mg_l", &WaterState::ocl_mg_l},
    {"bound_chlorine_mg_l", &WaterState::bound_chlorine_mg_l},
    {"hobr_fraction", &WaterState::hobr_fraction},
    {"carbonate_alkalinity_mg_l", &WaterState::carbonate_alkalinity_mg_l},
    {"saturation_index", &WaterState::saturation_index},
}};

}  // namespace

const std::vector<WaterExtra>& water_extras() {
  static const std::vector<WaterExtra> extras = {
      {"conductivity_us_cm", "microsiemens per cm at 25 degrees Celsius", specific_conductivity},
      {"titrated_alkalinity_mg_l",
       "as CaCO3: acid to pH 4.5 after thiosulfate, that to tetrathionate", titrated},
      {"table_index_nearest", "the trade's factor tables, nearest row", index_nearest},
      {"table_index_linear", "the trade's factor tables, between rows", index_linear},
      {"table_index_closed_form", "the trade's factors by logarithms", index_closed_form},
      {"spread", "90 % half-widths from the equilibrium constants alone", spread_as_json},
  };
  return extras;
}

bool needs_spread(const WaterState& state) {
  return (state.free_chlorine_mg_l > 0 && state.cyanuric_acid_mg_l > 0) ||
         state.total_bromine_mg_l > 0;
}

std::string spread_as_json(const ReadWater& water, const WaterTables& tables) {
  const WaterState spread = constant_spread(water.water, water.speciation, tables.species);
  std::string text;
  for (const auto& [name, member] : spread_keys)
    text += fmt::format("{}\"{}\":{}", text.empty() ? "" : ",", name, json_number(spread.*member));
  return "{" + text + "}";
}

}  // namespace tub::water
