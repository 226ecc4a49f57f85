// What must hold of labels before and after they are put on a sheet.
#pragma once

#include <span>

#include "layout/labels/impose.h"

namespace tub::layout {

/// Throws: Error with everything that stands in the way: a first position that is not on the sheet,
///         a wild correction, labels of another size or with something on what the stock keeps
///         free, bleed or crop marks without room
void require_possible(std::span<const Page> labels, const Stock& stock,
                      const Imposition& imposition, const FontSet& fonts);

/// Throws: Error if something would be printed past the paper's edge
void require_on_paper(std::span<const Page> pages, const Imposition& imposition,
                      const FontSet& fonts);

}  // namespace tub::layout
