// A finished page as a PNG picture.
#pragma once

#include <string>

#include "layout/pages/page.h"

namespace tub::exporting {

/// The page as a 24-bit PNG that states its resolution. The same page gives the same bytes.
///
/// dots_per_inch: above 0
/// Throws: Error (the machine's fault) if Cairo cannot draw it or libpng cannot write it
std::string to_png(const Page& page, const FontSet& fonts, double dots_per_inch);

}  // namespace tub::exporting
