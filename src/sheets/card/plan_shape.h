// The shapes of a plan's facts, from the whole down to one pour.
#pragma once

#include "sheets/template/facts.h"

namespace tub::sheets {

const Shape& unmet_shape();    ///< a reading that ends outside its target
const Shape& reading_shape();  ///< a row of the channel
const Shape& held_shape();     ///< a metal that is kept dissolved
const Shape& pour_shape();
const Shape& outcome_shape();
const Shape& rung_shape();

}  // namespace tub::sheets
