// A ladder in parts, for the page to put together: heads, rungs, and the stiles beside them.
#pragma once

#include "document/block.h"
#include "layout/pages/context.h"
#include "layout/pages/fragment.h"

namespace tub::layout {

/// Where a ladder's tracks begin and end, in points from its left edge.
struct LadderTracks {
  double key_width = 0;  ///< the opening, stiles included
  double text = 0;       ///< the text edge: titles, large ticks
  double pour = 0;       ///< amounts, and all that is set in below them
  double pour_right = 0;
  double wait = 0;
  double wait_width = 0;
  double test = 0;
  double test_width = 0;
  double reading_width = 0;
  double right = 0;
};

/// Tracks for all rungs of a ladder: waits, tests and readings as wide as they need, the pour what
/// is left.
LadderTracks ladder_tracks(const Ladder& ladder, double width, const Context& context);

/// The row of column heads; without height if there are none.
Fragment lay_ladder_head(const Ladder& ladder, const LadderTracks& tracks, const Context& context);

/// One step, from its line to the space below it: one list item.
Fragment lay_rung(const Ladder& ladder, const Rung& rung, const LadderTracks& tracks,
                  const Context& context);

/// Two stiles of that height, for the opening.
Fragment lay_stiles(double height, const LadderTracks& tracks, const Context& context);

/// Adds the row of one pour to the content of a fragment, as one element hung on `parent`.
void lay_pour(Fragment& fragment, const Pour& pour, const LadderTracks& tracks, int parent,
              const Context& context);

}  // namespace tub::layout
