// Comments in a file that has none by itself: fields whose name starts with "//".
#pragma once

#include <string_view>

#include "base/modules.h"

namespace tub::job {

/// True for "// vessel": a field that is for people, and read by nobody.
constexpr bool is_comment(std::string_view name) { return name.substr(0, 2) == "//"; }

}  // namespace tub::job
