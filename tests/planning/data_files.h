// The planning data and the reference tables, as the tests read them.
#pragma once

#include <map>
#include <string>
#include <vector>

namespace tub::planning::testing {

/// A row of a reference table, by column name.
using CsvRow = std::map<std::string, std::string>;

/// The rows of tests/reference/planning/NAME, without its '#' lines; cells hold no commas.
std::vector<CsvRow> reference_rows(const std::string& name);

}  // namespace tub::planning::testing
