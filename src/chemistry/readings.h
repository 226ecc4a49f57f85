// What tests show and what the engine derives: one struct each, one table of keys each.
#pragma once

#include <array>
#include <string_view>

#include "base/modules.h"

namespace tub::chemistry {

/// What is measured or assumed of a water. mg/L means mg per kg of water, so that heating changes
/// nothing; alkalinity and hardness as CaCO3, chlorine as Cl2, bromine as Br2, boron as B,
/// peroxymonosulfate as HSO5-, the others as themselves.
struct Readings {
  double temperature_c = 25;
  double ph = 7;
  double total_alkalinity_mg_l = 0;
  double calcium_hardness_mg_l = 0;
  double magnesium_hardness_mg_l = 0;
  double sodium_mg_l = 0;
  double potassium_mg_l = 0;
  double chloride_mg_l = 0;
  double sulfate_mg_l = 0;
  double nitrate_mg_l = 0;
  double borate_as_boron_mg_l = 0;
  double cyanuric_acid_mg_l = 0;
  double free_chlorine_mg_l = 0;
  double combined_chlorine_mg_l = 0;
  double bromide_mg_l = 0;
  double total_bromine_mg_l = 0;
  double copper_mg_l = 0;
  double iron_mg_l = 0;
  double manganese_mg_l = 0;
  double peroxymonosulfate_mg_l = 0;

  friend bool operator==(const Readings&, const Readings&) = default;
};

/// Readings and everything derived from the same water.
struct WaterState : Readings {
  double carbonate_alkalinity_mg_l =
      0;  ///< total less borate, cyanurate, hypochlorite and the like
  double inorganic_carbon_mmol_kg = 0;
  double saturation_index = 0;  ///< calcite, log10 of IAP/Ksp; minus infinity without calcium
                                ///< or carbonate
  double log10_pco2_atm = 0;    ///< minus infinity without carbonate
  double ionic_strength_mol_kg = 0;
  double dissolved_solids_mg_l = 0;  ///< everything dissolved but carbon dioxide
  double hocl_mg_l = 0;              ///< as Cl2
  double ocl_mg_l = 0;               ///< as Cl2
  double bound_chlorine_mg_l = 0;    ///< free chlorine held by cyanurate, as Cl2
  double hobr_fraction = 0;          ///< of HOBr + OBr-; what it would be where there is no bromine
  double cyanurate_alkalinity_mg_l = 0;
  double buffer_intensity_mmol_kg = 0;  ///< strong base per unit of pH, closed

  friend bool operator==(const WaterState&, const WaterState&) = default;
};

/// A number of a struct by its key. A start state outside low..high is refused.
template <class Record>
struct RecordKey {
  std::string_view name;
  double Record::*member;
  double low;
  double high;
  std::string_view meaning;
};

/// The start state's keys, in the order in which they are written.
inline constexpr std::array<RecordKey<Readings>, 20> reading_keys = {{
    {"temperature_c", &Readings::temperature_c, 0, 50, "degrees Celsius"},
    {"ph", &Readings::ph, 2, 12, "-log10 of the activity of H+"},
    {"total_alkalinity_mg_l", &Readings::total_alkalinity_mg_l, -500, 2000, "as CaCO3"},
    {"calcium_hardness_mg_l", &Readings::calcium_hardness_mg_l, 0, 5000, "as CaCO3"},
    {"magnesium_hardness_mg_l", &Readings::magnesium_hardness_mg_l, 0, 5000, "as CaCO3"},
    {"sodium_mg_l", &Readings::sodium_mg_l, 0, 10000, "as Na"},
    {"potassium_mg_l", &Readings::potassium_mg_l, 0, 10000, "as K"},
    {"chloride_mg_l", &Readings::chloride_mg_l, 0, 15000, "as Cl"},
    {"sulfate_mg_l", &Readings::sulfate_mg_l, 0, 10000, "as SO4"},
    {"nitrate_mg_l", &Readings::nitrate_mg_l, 0, 5000, "as NO3"},
    {"borate_as_boron_mg_l", &Readings::borate_as_boron_mg_l, 0, 500, "as B"},
    {"cyanuric_acid_mg_l", &Readings::cyanuric_acid_mg_l, 0, 1000, "as H3C3N3O3"},
    {"free_chlorine_mg_l", &Readings::free_chlorine_mg_l, 0, 1000, "as Cl2"},
    {"combined_chlorine_mg_l", &Readings::combined_chlorine_mg_l, 0, 1000, "as Cl2"},
    {"bromide_mg_l", &Readings::bromide_mg_l, 0, 5000, "as Br"},
    {"total_bromine_mg_l", &Readings::total_bromine_mg_l, 0, 1000, "as Br2"},
    {"copper_mg_l", &Readings::copper_mg_l, 0, 100, "as Cu, held part included"},
    {"iron_mg_l", &Readings::iron_mg_l, 0, 100, "as Fe, held part included"},
    {"manganese_mg_l", &Readings::manganese_mg_l, 0, 100, "as Mn, held part included"},
    {"peroxymonosulfate_mg_l", &Readings::peroxymonosulfate_mg_l, 0, 1000, "as HSO5"},
}};

/// The derived keys, written after the start state's.
inline constexpr std::array<RecordKey<WaterState>, 12> derived_keys = {{
    {"carbonate_alkalinity_mg_l", &WaterState::carbonate_alkalinity_mg_l, 0, 0, "as CaCO3"},
    {"inorganic_carbon_mmol_kg", &WaterState::inorganic_carbon_mmol_kg, 0, 0, "mmol per kg"},
    {"saturation_index", &WaterState::saturation_index, 0, 0, "calcite, log10 of IAP/Ksp"},
    {"log10_pco2_atm", &WaterState::log10_pco2_atm, 0, 0, "log10 of carbon dioxide in atm"},
    {"ionic_strength_mol_kg", &WaterState::ionic_strength_mol_kg, 0, 0, "mol per kg"},
    {"dissolved_solids_mg_l", &WaterState::dissolved_solids_mg_l, 0, 0, "all but carbon dioxide"},
    {"hocl_mg_l", &WaterState::hocl_mg_l, 0, 0, "hypochlorous acid as Cl2"},
    {"ocl_mg_l", &WaterState::ocl_mg_l, 0, 0, "hypochlorite ion as Cl2"},
    {"bound_chlorine_mg_l", &WaterState::bound_chlorine_mg_l, 0, 0, "held by cyanurate, as Cl2"},
    {"hobr_fraction", &WaterState::hobr_fraction, 0, 0, "of hypobromous acid in free bromine"},
    {"cyanurate_alkalinity_mg_l", &WaterState::cyanurate_alkalinity_mg_l, 0, 0, "as CaCO3"},
    {"buffer_intensity_mmol_kg", &WaterState::buffer_intensity_mmol_kg, 0, 0,
     "strong base per unit of pH, closed, mmol per kg"},
}};

}  // namespace tub::chemistry
