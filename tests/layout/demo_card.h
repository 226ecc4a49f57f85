// A startup card with every kind of rung, as words; its numbers are invented.
#pragma once

#include "document/document.h"

namespace tub::layout {

Document demo_card();

/// The same in German, with the longest words and names that such a card holds.
Document german_card();

/// One page with every kind of block that the startup card does not have.
Document demo_tables();

}  // namespace tub::layout
