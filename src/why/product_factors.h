// What a product is made of and how it is measured, as nodes.
#pragma once

#include <string>

#include "planning/water/draft.h"

namespace tub::why {

class Asking;

/// Grams of a pure compound in a gram of product.
std::string mass_fraction(Asking& asking, const Product& product, const std::string& formula);
/// What a mg of a pure compound adds to a reading that counts moles; empty if nothing.
/// key: "total_alkalinity_mg_l", …, "inorganic_carbon_mmol_kg"
std::string per_compound(Asking& asking, const std::string& formula, const std::string& key);
/// What a mg of product adds to it.
std::string per_product(Asking& asking, const Product& product, const std::string& key);
/// What a mg of oxidant spent does to it; empty if nothing.
std::string per_spent(Asking& asking, Reading sanitizer, const std::string& key);
/// mg of product in a gram or mL as it is measured out.
std::string mg_per_size(Asking& asking, const Supply& supply);
/// A row of the product's, from the file or from the job's own shelf.
std::string product_row(Asking& asking, const Product& product, const std::string& field,
                        double value, const std::string& unit);
/// Where the product stands on the job's shelf: "/shelf/3"; empty if it does not.
std::string shelf_pointer(const Asking& asking, const std::string& product);

}  // namespace tub::why
