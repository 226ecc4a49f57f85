// The sizes that a sheet is made for, in words and held against a stock.
#pragma once

#include <string>

#include "layout/labels/stock.h"
#include "sheets/template/sheet_template.h"

namespace tub::app {

/// "60 × 40 or 52 × 74 mm and larger; where words are short, from 50 × 30 mm"; empty where the
/// template names no sizes.
std::string sizes_text(const SheetTemplate& sheet);

/// True if a label of that stock is at least as large as one of the sheet's sizes, less what a
/// sheet of labels keeps free beyond the usual.
bool has_room(const SheetTemplate& sheet, const Stock& stock);

}  // namespace tub::app
