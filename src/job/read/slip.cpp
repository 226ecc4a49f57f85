#include "job/read/slip.h"

#include <algorithm>
#include <array>

namespace tub::job {
namespace {

using enum QuantityKind;

// The highest values are far above any water that a tub could be filled with; they catch slips of
// the pen, not bad water (assumption).
constexpr std::array<SlipField, 18> fields = {{
    {"ph", "ph", {}, 4, 11, "7.9", "a bare number"},
    {"total_alkalinity", "total_alkalinity_mg_l", alkalinity, 0, 1000, "62 mg/L as CaCO3",
     "also mmol/L, °dH, …: `tubwright list units`"},
    {"calcium_hardness", "calcium_hardness_mg_l", calcium_hardness, 0, 3000, "5 °dH",
     "of calcium alone"},
    {"total_hardness", "total_hardness_mg_l", total_hardness, 0, 4000, "7 °dH",
     "of calcium and magnesium; a share of it is taken as calcium where calcium is not given"},
    {"magnesium_hardness", "magnesium_hardness_mg_l", magnesium_hardness, 0, 3000, "1 °dH", ""},
    {"free_chlorine", "free_chlorine_mg_l", chlorine, 0, 100, "0.2 mg/L", "as Cl2"},
    {"total_chlorine", "total_chlorine_mg_l", chlorine, 0, 100, "0.5 mg/L",
     "as Cl2; what is not free is combined"},
    {"total_bromine", "total_bromine_mg_l", bromine, 0, 100, "4 mg/L", "as Br2"},
    {"cyanuric_acid", "cyanuric_acid_mg_l", cyanuric_acid, 0, 500, "30 mg/L", ""},
    {"copper", "copper_mg_l", copper, 0, 50, "0.0 mg/L", "test it before a first fill"},
    {"iron", "iron_mg_l", iron, 0, 50, "0.3 mg/L", "test it before a first fill"},
    {"manganese", "manganese_mg_l", manganese, 0, 50, "0.02 mg/L", ""},
    {"conductivity", "conductivity_us_cm", conductivity, 0, 20000, "310 µS/cm",
     "at 25 °C, for dissolved solids"},
    {"dissolved_solids", "dissolved_solids_mg_l", dissolved_solids, 0, 15000, "220 mg/L", ""},
    {"sodium", "sodium_mg_l", sodium, 0, 5000, "12 mg/L", "from a water report"},
    {"chloride", "chloride_mg_l", chloride, 0, 8000, "18 mg/L", "from a water report"},
    {"sulfate", "sulfate_mg_l", sulfate, 0, 5000, "25 mg/L", "from a water report"},
    {"nitrate", "nitrate_mg_l", nitrate, 0, 1000, "10 mg/L", "from a water report"},
}};

}  // namespace

std::span<const SlipField> slip_fields() { return fields; }

const SlipField* slip_field_of(Reading reading) {
  const auto found = std::find_if(fields.begin(), fields.end(), [&](const SlipField& field) {
    return field.name == name_of(reading);
  });
  return found == fields.end() ? nullptr : &*found;
}

}  // namespace tub::job
