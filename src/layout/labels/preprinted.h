// Labels for devices of one ink, on stock that carries the red frames of hazard pictograms.
#pragma once

#include "layout/labels/stock.h"
#include "layout/pages/page.h"
#include "layout/type/font.h"

namespace tub::layout {

/// The label with the symbols of its pictograms inside the stock's frames, no frame drawn, and the
/// frames that are left over filled with black. What stands beside and below the first pictogram
/// moves down with it.
///
/// label: a page of the size of `label_of(stock)`, its pictograms in reading order
/// Throws: Error if the stock has too few frames or none, frames of another size, or words would
///         stand in one
/// Source: OSHA interpretation of 29 CFR 1910.1200 Appendix C.2.3.1, quoted by a compliance site: a
///         frame without a symbol is not allowed, unused preprinted ones are blacked out
Page on_preprinted(Page label, const Stock& stock, const FontSet& fonts);

}  // namespace tub::layout
