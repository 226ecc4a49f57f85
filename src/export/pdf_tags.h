// The structure tree of a tagged PDF.
#pragma once

#include <span>

#include "export/pdf_drawing.h"
#include "layout/pages/page.h"

class QPDF;

namespace tub::exporting {

/// Adds the tree to a drawing's file: one document, in it one section a page with the page's
/// elements, and from each marked content the way back to its element.
///
/// language: of the file; a page in another one says so
/// Source:   ISO 32000-1, 14.7
void add_tags(QPDF& file, const Drawing& drawing, std::span<const Page> pages,
              const std::string& language);

}  // namespace tub::exporting
