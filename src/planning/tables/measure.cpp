#include "planning/tables/measure.h"

#include <fmt/format.h>

#include "base/text.h"
#include "planning/tables/data_row.h"

namespace tub::planning {
namespace {

const Names measure_fields = {
    "id",       "mass_unit",   "grain_g", "coarse_grain_g",   "coarse_from_g", "grain_oz",
    "grain_ml", "volume_unit", "spoons",  "spoon_half_width", "sources"};

Spoon read_spoon(const Node& row) {
  row.allow_only(Names{"unit", "volume_ml", "grain", "most"});
  Spoon spoon;
  spoon.unit = data_row::text(row, "unit");
  spoon.volume_ml = data_row::number(row, "volume_ml", 0.5, 1000);
  spoon.grain = data_row::number(row, "grain", 0.1, 1);
  spoon.most = data_row::number(row, "most", 1, 100);
  return spoon;
}

void read_grains(const Node& row, MeasureSystem& system) {
  const auto put = [&](const char* name, double& grain) {
    grain = data_row::number(row, name, 0.01, 1000);
  };
  if (system.mass_unit == "oz") {
    put("grain_oz", system.grain_oz);
    return;
  }
  put("grain_g", system.grain_g);
  put("coarse_grain_g", system.coarse_grain_g);
  put("coarse_from_g", system.coarse_from_g);
  put("grain_ml", system.grain_ml);
}

void read_spoons(const Node& row, MeasureSystem& system) {
  for (const Node& item : data_row::items(row, "spoons")) {
    const Spoon spoon = read_spoon(item);
    if (!system.spoons.empty() && spoon.volume_ml <= system.spoons.back().volume_ml) {
      item.problem("the spoons do not grow", "list them from the smallest");
    }
    system.spoons.push_back(spoon);
  }
  if (system.spoons.empty()) return;
  system.spoon_half_width = data_row::number(row, "spoon_half_width", 0.01, 0.5);
}

void read_sources(const Node& row, MeasureSystem& system) {
  const std::optional<Node> sources = row.require("sources");
  if (!sources) return;
  sources->allow_only(Names{"grains", "spoons", "spoon_half_width"});
  for (const auto& [field, value] : sources->members()) {
    if (const auto source = read_provenance(value)) system.sources[field] = *source;
  }
  sources->require("grains");
  if (system.spoons.empty()) return;
  sources->require("spoons");
  sources->require("spoon_half_width");
}

MeasureSystem read_system(const Node& row) {
  row.allow_only(measure_fields);
  MeasureSystem system;
  system.id = data_row::text(row, "id");
  system.mass_unit = data_row::name(row, "mass_unit", Names{"g", "oz"});
  system.volume_unit = data_row::name(row, "volume_unit", Names{"ml", "us_fluid_ounce"});
  read_grains(row, system);
  read_spoons(row, system);
  read_sources(row, system);
  return system;
}

}  // namespace

std::vector<MeasureSystem> parse_measures(std::string_view text, const std::string& file) {
  return data_row::parse_list(text, file, "measures", read_system);
}

}  // namespace tub::planning
