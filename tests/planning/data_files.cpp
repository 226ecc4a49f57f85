#include "data_files.h"

#include <catch2/catch.hpp>

#include "base/text.h"
#include "project_text.h"

namespace tub::planning::testing {

std::vector<CsvRow> reference_rows(const std::string& name) {
  std::vector<CsvRow> rows;
  std::vector<std::string> columns;
  for (const std::string& line : split(project_text("tests/reference/planning/" + name), '\n')) {
    if (line.empty() || line.front() == '#') continue;
    const std::vector<std::string> cells = split(line, ',');
    if (columns.empty()) {
      columns = cells;
      continue;
    }
    INFO(line);
    REQUIRE(cells.size() == columns.size());
    CsvRow row;
    for (std::size_t i = 0; i < cells.size(); ++i) row[columns[i]] = cells[i];
    rows.push_back(row);
  }
  REQUIRE_FALSE(rows.empty());
  return rows;
}

}  // namespace tub::planning::testing
