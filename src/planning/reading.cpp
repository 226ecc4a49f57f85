#include "planning/reading.h"

namespace tub::planning {
namespace {

struct Row {
  Reading reading;
  std::string_view name;
  std::string_view key;
};

constexpr std::array<Row, all_readings.size()> rows = {{
    {Reading::ph, "ph", "ph"},
    {Reading::total_alkalinity, "total_alkalinity", "total_alkalinity_mg_l"},
    {Reading::calcium_hardness, "calcium_hardness", "calcium_hardness_mg_l"},
    {Reading::free_chlorine, "free_chlorine", "free_chlorine_mg_l"},
    {Reading::total_bromine, "total_bromine", "total_bromine_mg_l"},
    {Reading::combined_chlorine, "combined_chlorine", "combined_chlorine_mg_l"},
    {Reading::cyanuric_acid, "cyanuric_acid", "cyanuric_acid_mg_l"},
    {Reading::dissolved_solids, "dissolved_solids", "dissolved_solids_mg_l"},
    {Reading::copper, "copper", "copper_mg_l"},
    {Reading::iron, "iron", "iron_mg_l"},
    {Reading::manganese, "manganese", "manganese_mg_l"},
}};

}  // namespace

std::string_view key_of(Reading reading) { return rows.at(static_cast<std::size_t>(reading)).key; }

std::string_view name_of(Reading reading) {
  return rows.at(static_cast<std::size_t>(reading)).name;
}

std::optional<Reading> reading_named(std::string_view name_or_key) {
  for (const Row& row : rows) {
    if (row.name == name_or_key || row.key == name_or_key) return row.reading;
  }
  return std::nullopt;
}

double value_of(Reading reading, const WaterState& state) {
  const std::string_view key = key_of(reading);
  for (const auto& known : reading_keys) {
    if (known.name == key) return state.*known.member;
  }
  return state.dissolved_solids_mg_l;
}

}  // namespace tub::planning
