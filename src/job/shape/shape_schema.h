// The JSON Schema of a shape.
#pragma once

#include <nlohmann/json_fwd.hpp>

#include "job/shape/shape.h"

namespace tub::job {

/// What the shape allows, in the words of JSON Schema 2020-12. Units are in the descriptions: a
/// schema cannot check them.
nlohmann::ordered_json shape_schema(const FieldShape& shape);

}  // namespace tub::job
