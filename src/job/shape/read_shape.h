// Reads a file by the shape of its fields: every departure from it is reported at its place.
#pragma once

#include <optional>
#include <string_view>

#include "job/shape/catalogue.h"
#include "job/shape/shape.h"
#include "job/shape/value.h"
#include "planning/heading.h"

namespace tub::job {

/// What stands at the node, as far as its shape allows it; the rest is in the node's Problems.
Value read_shape(const Node& node, const FieldShape& shape, const Catalogue& catalogue);

/// A calendar day as "2026-05-04", from 2000 to 2099; nothing if the text is none.
std::optional<CalendarDate> date_from(std::string_view text);

}  // namespace tub::job
