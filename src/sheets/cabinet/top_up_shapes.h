// The names of facts about top-up amounts: what cabinet labels and dose tags may print.
#pragma once

#include "sheets/template/facts.h"

namespace tub::sheets {

const Shape& cabinet_shape();          ///< `"facts": "cabinet"`
const Shape& cabinet_reading_shape();  ///< of its readings
const Shape& cabinet_line_shape();     ///< of each reading's lines
const Shape& tag_shape();              ///< `"facts": "dose_tag"`
const Shape& tag_use_shape();          ///< of its uses
const Shape& tag_row_shape();          ///< of each use's rows

}  // namespace tub::sheets
