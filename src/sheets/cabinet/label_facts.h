// What all labels say alike: taken from the facts of the plan.
#pragma once

#include <span>
#include <string_view>

#include "sheets/template/facts.h"
#include "sheets/template/wording.h"

namespace tub::sheets {

/// Sets in `to` those facts of `from` that both have.
void copy_common(const Facts& from, Facts& to);

/// A mark that templates ask for with `when`.
void set_mark(Facts& facts, std::string_view name, bool is_set);

}  // namespace tub::sheets
