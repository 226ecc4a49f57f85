// Finished pages as text, for tests: what is where, what it is, and in which order it is read.
#pragma once

#include <span>
#include <string>

#include "layout/pages/page.h"

namespace tub::exporting {

/// Every page's structure tree in reading order, each element with its items below it, then the
/// items that belong to none. Positions, widths and sizes to 0.01 pt, y downwards, as laid out.
///
/// A line is one element or item, indented by depth:
///   page 1 of 2 startup_card 595.28 x 841.89 en "title"
///   heading 1 · header_cell row spans 2 · figure "alternative text" · paragraph in de
///   text X Y width W regular 9.5 #000000 "characters"
///   rule X Y to X Y width W #000000
///   box X Y size W x H fill #D4D4D4 stroke 0.99 #000000
///   path N segments in X Y to X Y fill #000000
/// Inside quotes a backslash stands before a quote and a backslash. A path's place is the box
/// around its points, control points included.
std::string dump_text(std::span<const Page> pages);

}  // namespace tub::exporting
