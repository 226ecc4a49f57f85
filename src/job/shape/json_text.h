// JSON as text: the shortest numbers that read back, short values on one line.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>

#include "base/modules.h"

namespace tub::job {

/// The text of a JSON value, ended by a newline. An object or list that fits into a line of 100
/// characters stays on it; others are broken, two spaces a level. Numbers that are not finite,
/// which JSON cannot hold, are null.
std::string to_text(const nlohmann::ordered_json& value);

}  // namespace tub::job
