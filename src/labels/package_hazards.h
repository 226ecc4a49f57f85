// What is known of a package's hazards: its codes, its active chlorine, the pictograms' names.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "labels/tables.h"
#include "planning/tables/product.h"

namespace tub::labels {

/// The pictogram of the sheets for a GHS code: "GHS05" is "ghs_corrosion"; empty: none.
std::string_view pictogram_for(std::string_view ghs_code);

/// Grams of active chlorine, as Cl2, in 100 g of a product; 0 for what is no chlorine product.
double active_chlorine_percent(const Product& product);

/// The H and EUH codes of a package: those that the job gives, else those of its harmonised entry.
///
/// Throws: Error if there are neither
std::vector<std::string> codes_of(const ShelfItem& item, bool has_own_statements,
                                  bool has_own_strength, const LabelTables& tables);

}  // namespace tub::labels
