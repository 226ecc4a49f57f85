// Small pieces that JSON Schemas (2020-12) are put together from.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/modules.h"

namespace tub::job::schema {

nlohmann::ordered_json number();
nlohmann::ordered_json whole();
nlohmann::ordered_json text();
nlohmann::ordered_json flag();
/// The value, or null.
nlohmann::ordered_json or_null(nlohmann::ordered_json value);
nlohmann::ordered_json one_of_names(std::span<const std::string_view> names);
nlohmann::ordered_json constant(std::string_view text);
nlohmann::ordered_json list_of(nlohmann::ordered_json item);
/// An object with any keys, all of one kind of value.
nlohmann::ordered_json map_of(nlohmann::ordered_json value);
/// A part of the same schema, defined under "$defs".
nlohmann::ordered_json reference(std::string_view name);

/// The head of a whole schema: dialect, title, description.
nlohmann::ordered_json head(std::string_view title, std::string_view description);

}  // namespace tub::job::schema
