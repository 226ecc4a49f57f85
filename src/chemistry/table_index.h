// The trade's saturation index by factor tables, and its closed form: hand methods, each by name.
//
// They are approximations. The equilibrium index is WaterState::saturation_index.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "units/temperature.h"

namespace tub::chemistry {

/// How a factor is taken from its table; results differ by up to 0.1.
enum class LookUp {
  nearest,     ///< the row that is nearest, the lower one of two
  linear,      ///< between two rows
  closed_form  ///< log10 CH - 0.4 and log10 TA; temperature linear
};

/// A row of a factor table.
struct FactorRow {
  double at = 0;
  double factor = 0;
};

/// The factor tables of a species of index, as data.
struct IndexTables {
  std::vector<FactorRow> temperature_f;  ///< °F
  std::vector<FactorRow> calcium;        ///< mg/L as CaCO3
  std::vector<FactorRow> alkalinity;     ///< mg/L as CaCO3
  std::vector<FactorRow> cyanurate;      ///< pH; mg/L of alkalinity a mg/L of cyanuric acid
  double constant_to_1000 = 0;           ///< of dissolved solids to 1,000 mg/L
  double constant_above = 0;
  std::string source;
};

/// Throws: Error with every problem of the text, each at its place
IndexTables parse_index_tables(std::string_view text, const std::string& filename);

struct IndexInputs {
  Temperature temperature = celsius(25);
  double ph = 7.5;
  double calcium_hardness_mg_l = 0;
  double total_alkalinity_mg_l = 0;
  double dissolved_solids_mg_l = 0;
  double cyanuric_acid_mg_l = 0;  ///< 0 leaves alkalinity as it was read
};

/// The index with everything it was summed from.
struct TableIndex {
  double temperature_factor = 0;
  double calcium_factor = 0;
  double alkalinity_factor = 0;
  double constant = 0;
  double carbonate_alkalinity_mg_l = 0;
  double index = 0;
};

/// pH + TF + CF + AF - constant (equation 26).
///
/// Throws: Error if an input lies outside its table
TableIndex table_index(const IndexInputs& inputs, LookUp look_up, const IndexTables& tables);

/// pH - pHs with pHs = 9.3 + A + B - C - D (equation 27), the closed form of the Langelier index
/// in common use.
///
/// Source: from memory; differs from the factor tables by up to 0.2 in hot water
/// Throws: Error if hardness, alkalinity or dissolved solids are not above 0
double langelier_closed_form(const IndexInputs& inputs);

}  // namespace tub::chemistry
