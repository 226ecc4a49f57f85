// The `water` format: one water a line in, its states a line out.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

#include "chemistry/species_table.h"
#include "chemistry/table_index.h"

namespace tub::water {

/// What answers are computed from.
struct WaterTables {
  SpeciesTable species;
  IndexTables index;
};

/// One line out, without its newline.
struct WaterAnswer {
  std::string text;
  bool is_error = false;
};

/// Answers one line of JSON: a start state and steps. A line at fault is answered by its `id`,
/// its number and an `error` that says everything that is wrong with it.
///
/// line_number: counted from 1
WaterAnswer answer_water_line(std::string_view line, std::size_t line_number,
                              const WaterTables& tables);

/// The JSON Schema (2020-12) of a line in and a line out.
std::string water_schema(const SpeciesTable& table);

}  // namespace tub::water
