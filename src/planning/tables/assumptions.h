// The constants that no product, test or target row holds: each with its range and its source.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "planning/reading.h"
#include "planning/retests/reason_prior.h"
#include "planning/tables/provenance.h"

namespace tub::planning {

/// A named constant; low and high are the ends of its 90 % range (equal to value: no spread).
struct Assumed {
  std::string code;
  double low = 0;
  double value = 0;
  double high = 0;
  std::string unit;  ///< "mg/L as Cl2", "1/h", "share", …
  Provenance source;
};

/// Every row of `planning/data/assumptions.json`, by name.
struct Assumptions {
  // Additions
  Assumed overshoot_bound;         ///< most chance that a first pour passes the far edge
  Assumed first_pour_share;        ///< most of an amount in its first pour
  Assumed least_first_pour_share;  ///< least, where the limit of one pour would make it less
  Assumed pour_ph;                 ///< low and high: no pour takes closed pH further outside
  Assumed wait_minutes;
  Assumed dosing_temperature_c;
  Assumed bathing_temperature_c;
  // Carbon dioxide
  Assumed carbon_dioxide_lost_per_wait;  ///< share of the surplus over air; the rate of the
                                         ///< jets is chemistry's GasExchange
  // Water that was not measured
  Assumed source_temperature_c;
  Assumed magnesium_share;              ///< of total hardness, as CaCO3
  Assumed untested_cyanuric_acid_mg_l;  ///< of a tub in use
  Assumed chloride_mg_l;
  Assumed sulfate_mg_l;
  Assumed dissolved_solids_per_conductivity;  ///< mg/L for each µS/cm at 25 °C
  // Sanitizer
  Assumed fresh_water_demand_mg_l;  ///< of free chlorine, as Cl2
  Assumed tap_free_chlorine_mg_l;
  Assumed tap_combined_chlorine_mg_l;
  Assumed chlorine_per_combined;     ///< mg of free chlorine that a mg of combined chlorine eats
  Assumed bromide_bank_mg_l;         ///< as Br
  Assumed bromide_that_counts_mg_l;  ///< as Br2: chlorine cannot be kept beside so much
  Assumed hand_over_cyanuric_acid_mg_l;        ///< at which dichlor hands over
  Assumed no_more_dichlor_cyanuric_acid_mg_l;  ///< from which on no stabilised chlorine is poured
  Assumed sequestrant_reach;                   ///< times a metal's limit: more is not held surely
  Assumed sanitizer_half_life_h;               ///< unused tub, cover off
  Assumed cartridge_free_chlorine_mg_l;        ///< kept beside a mineral cartridge
  Assumed cartridge_total_bromine_mg_l;
  // Other water
  Assumed refill_step;           ///< share: as finely as two waters are measured into a tub
  Assumed refill_half_width;     ///< 90 %, of that share
  Assumed softener_leaves_mg_l;  ///< of calcium hardness, as CaCO3
  Assumed most_replaced;         ///< share: who has to replace more drains all of it
  // Balance
  Assumed steadying_alkalinity_mg_l;  ///< tried in turn where a set asks for none
  Assumed saturation_index;           ///< low and high: the soft band

  /// Aesthetic limits of metals, mg/L: above, a sequestrant is asked for.
  ByReading<Assumed> metal_limits;
  /// What soft water is thought to be like where none was tested: pH, alkalinity, hardness, solids.
  ByReading<Assumed> softer_water;
  /// What a retest may show to be altogether wrong.
  std::vector<ReasonPrior> reasons;
};

/// Throws: Error with every fault of the text, a constant that is missing included
Assumptions parse_assumptions(std::string_view text, const std::string& file);

}  // namespace tub::planning
