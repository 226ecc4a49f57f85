// What retests found, and why it was not what was expected.
#pragma once

#include <vector>

#include "sheets/template/facts.h"
#include "sheets/template/wording.h"

namespace tub::sheets {

/// A line that says what is done, then one for every reading that was far off; none where the plan
/// starts at its beginning.
std::vector<Facts> found_facts(const Wording& wording);

}  // namespace tub::sheets
