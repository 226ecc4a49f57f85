// A startup card with every kind of rung, as words; its numbers are invented.
#pragma once

#include "document/document.h"

namespace tub {

Document demo_card();

}  // namespace tub
