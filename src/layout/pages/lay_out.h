// Sets a document on pages: the one place where words get their places.
#pragma once

#include <vector>

#include "document/document.h"
#include "layout/labels/stock.h"
#include "layout/pages/page.h"
#include "layout/type/font.h"
#include "layout/type/style.h"

namespace tub::layout {

/// The finished pages of a document on sheets of one size.
///
/// Throws: Error naming the sheet, the block and the missing millimetres if something does not fit
///         at the style's tightest; naming the character if the faces lack one
std::vector<Page> lay_out(const Document& document, const Style& style, const Stock& stock,
                          const FontSet& fonts);

}  // namespace tub::layout
