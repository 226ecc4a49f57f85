// A finished page in black and white dots, for label printers.
#pragma once

#include <string>

#include "layout/pages/page.h"

namespace tub::exporting {

enum class BitmapFormat { png, pbm };

/// The page with one bit a dot: black where the drawing is darker than middle grey (128 of 255).
/// Upright lines and boxes lie on whole dots, so that equal lines print equally wide.
///
/// dots_per_inch: above 0; PNG states it, PBM cannot
/// Throws: Error (the machine's fault) if Cairo cannot draw it or libpng cannot write it
std::string to_bitmap(const Page& page, const FontSet& fonts, double dots_per_inch,
                      BitmapFormat format);

}  // namespace tub::exporting
