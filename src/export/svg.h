// A finished page as an SVG picture.
#pragma once

#include <string>

#include "layout/pages/page.h"

namespace tub::exporting {

/// The page as one SVG 1.1 document, its size in points, glyphs as outlines (no font is needed to
/// look at it). The same page gives the same bytes.
///
/// Throws: Error (the machine's fault) if Cairo cannot draw it
std::string to_svg(const Page& page, const FontSet& fonts);

}  // namespace tub::exporting
