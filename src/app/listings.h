// What jobs can name, as rows for people and programs.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string_view>

#include "app/library.h"

namespace tub::app {

/// A list of objects with the same keys; the first is the name that a job uses.
///
/// what: "products", "targets", "sanitizers", "sheets", "stocks", "languages" or "units"
nlohmann::ordered_json listing(std::string_view what, const DataFolders& folders);

/// The rows in columns, a name at the start of each line.
std::string in_columns(const nlohmann::ordered_json& rows);

}  // namespace tub::app
