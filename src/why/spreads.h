// How far a number may be off, source by source.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "planning/reading.h"
#include "planning/water/draft.h"
#include "planning/water/spread.h"
#include "why/chain.h"

namespace tub::why {

class Asking;

/// A number of the water after some moves, and what every source of error does to it.
struct SpreadOf {
  Spread spread;
  std::vector<Input> inputs;  ///< the value, then the sources

  /// How its quantiles are found.
  const char* equation() const { return spread.is_drawn() ? "quantile_of_draws" : "quantile"; }
};

/// id: what the nodes of the sources hang on; value: the node of the predicted number
SpreadOf spread_of(Asking& asking, const std::string& id, std::string_view key,
                   const std::string& value, std::span<const Move> moves);
/// The same with the error of the test that will read it.
void add_retest(Asking& asking, const std::string& id, Reading reading, SpreadOf& spread);

/// An end of the middle 90 %: "low" or "high".
std::string quantile_node(Asking& asking, const std::string& id, const std::string& unit,
                          const SpreadOf& spread, const std::string& end);

/// From the aim to the end of the interval that has to lie inside the band.
std::string reach_node(Asking& asking, const std::string& step, Reading reading, double reach,
                       const Draft& whole);

}  // namespace tub::why
