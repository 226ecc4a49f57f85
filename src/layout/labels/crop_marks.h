// Lines beside a label's corners that say where it is cut.
#pragma once

#include "layout/labels/impose.h"

namespace tub::layout {

/// A position's upper left corner on a sheet of labels, in points; positions count from 0.
Point corner_of(const LabelGrid& grid, int position);

/// How far bleed and crop marks reach out from a label's edge, in millimetres.
double margin_around(const Imposition& imposition);

/// Two lines at each corner of the page's trimmed area, outside of its bleed.
void add_crop_marks(Page& page, double bleed);

/// Lines in the sheet's margins at the edges of every column and row of labels, corrected as the
/// labels are.
void add_crop_marks(Page& sheet, const Stock& stock, const Imposition& imposition);

}  // namespace tub::layout
