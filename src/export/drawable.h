// What every exporter demands of a text run before it draws it.
#pragma once

#include <string>

#include "layout/pages/page.h"

namespace tub::exporting {

/// The run's characters, all of which the face has.
///
/// Throws: Error (the machine's fault: layout refuses such text, so this is a bug) if the text is
///         not UTF-8, or naming the first character that the face lacks
std::u32string drawable(const TextRun& run, const Font& font);

}  // namespace tub::exporting
