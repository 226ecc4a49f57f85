// The channel's rows: every reading between its limits, now and when all is done.
#pragma once

#include <vector>

#include "sheets/template/facts.h"
#include "sheets/template/wording.h"

namespace tub::sheets {

/// Readings that the target set bounds, in the order of all lists; the others that it bounds only
/// where a test gave them or where they stay unmet.
std::vector<Facts> reading_facts(const Wording& wording);

/// Metals that a sequestrant keeps dissolved.
std::vector<Facts> held_facts(const Wording& wording);

}  // namespace tub::sheets
