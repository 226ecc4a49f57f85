// What a test can tell: for each reading its divisions and its error.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "planning/reading.h"
#include "planning/tables/provenance.h"

namespace tub::planning {

/// How finely and how well one test shows one reading.
struct TestRow {
  double division = 0;             ///< the step between two values that it can show; above 0
  double half_width = 0;           ///< 90 % half-width, in the reading's unit
  double relative_half_width = 0;  ///< 90 % half-width as a share of the value; the larger counts
  Provenance source;

  /// The 90 % half-width at that value.
  double half_width_at(double value) const {
    const double relative = relative_half_width * value;
    return relative > half_width ? relative : half_width;
  }
};

struct TestMethod {
  std::string id;                         ///< "strip", "drop_kit", "photometer"
  ByReading<TestRow> rows;                ///< a reading that it lacks is not here
  std::optional<TestRow> total_hardness;  ///< calcium and magnesium together; none: it lacks that
};

/// Every test method of `planning/data/test_methods.json`.
///
/// Throws: Error with every fault of the text, each at its place
std::vector<TestMethod> parse_test_methods(std::string_view text, const std::string& file);

}  // namespace tub::planning
