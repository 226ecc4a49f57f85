// The tracks of a channel, shared by its heads and its rows.
#pragma once

#include "document/block.h"
#include "layout/pages/context.h"
#include "layout/pages/fragment.h"
#include "layout/type/lines.h"

namespace tub::layout {

/// The places of a channel's columns, in points from its left edge.
struct ChannelTracks {
  double now_right = 0;
  double plot_left = 0;
  double plot_width = 0;
  double band_left = 0;   ///< outer edge of the lower bank
  double band_right = 0;  ///< outer edge of the upper bank
  double after = 0;       ///< left edge of the last column
  double right = 0;
};

/// Names and numbers as wide as they need, the plot what is left; too little of it is reported.
ChannelTracks channel_tracks(const Channel& channel, double width, const Context& context);

/// A row's name, bold, and its unit.
Line channel_name(const Words& name, const Words& unit, const Context& context);
/// What the reading is now; words in place of a number are set small.
Line channel_now(const ChannelReading& reading, const Context& context);

/// The plot of one row (ring, line, bar, limits) around the bar's centre line: y = 0 there.
Mark channel_plot(const ChannelReading& reading, const ChannelTracks& tracks,
                  const Context& context);

}  // namespace tub::layout
