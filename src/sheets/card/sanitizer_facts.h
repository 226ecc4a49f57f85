// What the sanitizer in the finished water does, and when another takes over.
#pragma once

#include "document/words.h"
#include "sheets/template/wording.h"

namespace tub::sheets {

/// How much of what the test shows kills germs at once, and what the rest does; no words where the
/// finished water has no sanitizer.
Words active_sanitizer_words(const Wording& wording);

/// When dichlor hands over to another chlorine; no words where nothing is handed over.
Words hand_over_words(const Wording& wording);

}  // namespace tub::sheets
