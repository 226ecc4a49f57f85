// Reference tables: rows by column name, and a record of how far the engine is from them.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "chemistry/operations.h"

namespace tub::chemistry::reference {

/// One row of a table, by column name.
class Row {
 public:
  explicit Row(std::map<std::string, std::string> cells) : cells_(std::move(cells)) {}
  /// The text of a cell; empty if the table has no such column.
  std::string text(const std::string& column) const;
  bool has(const std::string& column) const { return !text(column).empty(); }
  /// REQUIRES: the cell holds a number.
  double number(const std::string& column) const;

 private:
  std::map<std::string, std::string> cells_;
};

/// The rows of tests/reference/chemistry/<name>.csv.
std::vector<Row> rows(const std::string& name);

/// The species file of the source tree.
const SpeciesTable& species();

/// The start water in the columns temp_C, pH, … with a prefix.
Readings start(const Row& row, const std::string& prefix = "");
Water water(const Row& row, const std::string& prefix = "");

/// What the columns after_… and SI_calcite_PB82 ask of a state; an empty cell asks nothing.
/// Rows marked extreme, or far above saturation, may be off three times as far.
void check_after(const Row& row, const WaterState& state);

/// A value against its tolerance: inside either the absolute or the relative one.
struct Tolerance {
  double absolute = 0;
  double relative = 0;
};
void check_near(const Row& row, const std::string& what, double found, double expected,
                const Tolerance& tolerance);

}  // namespace tub::chemistry::reference
