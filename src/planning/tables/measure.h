// What a person measures with: a scale, a jug, level spoons.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "planning/tables/provenance.h"

namespace tub::planning {

/// A count of one unit: 1.5 "us_teaspoon".
struct Measure {
  double count = 0;
  std::string unit;
  friend bool operator==(const Measure&, const Measure&) = default;
};

/// A spoon and the smallest part of it that can be filled.
struct Spoon {
  std::string unit;  ///< "us_teaspoon"
  double volume_ml = 0;
  double grain = 0;  ///< 0.25 of a teaspoon, 0.5 of a tablespoon
  double most = 0;   ///< more spoons than this: take the next larger
};

/// A row of `planning/data/measures.json`.
struct MeasureSystem {
  std::string id;         ///< "grams_and_us_spoons"
  std::string mass_unit;  ///< "g" or "oz": what the big figure is in
  double grain_g = 1;     ///< smallest step of the scale below `coarse_from_g`
  double coarse_grain_g = 5;
  double coarse_from_g = 100;
  std::string volume_unit = "ml";  ///< "ml" or "us_fluid_ounce": liquids
  double grain_ml = 5;
  double grain_oz = 0.1;        ///< ounces by weight and fluid ounces alike
  std::vector<Spoon> spoons;    ///< none: a scale only
  double spoon_half_width = 0;  ///< 90 % half-width of a filled spoon, as a share of its volume
  std::map<std::string, Provenance> sources;  ///< "grains", "spoons", "spoon_half_width"
};

/// Throws: Error with every fault of the text.
std::vector<MeasureSystem> parse_measures(std::string_view text, const std::string& file);

}  // namespace tub::planning
