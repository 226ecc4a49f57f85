// The tracks of a channel, shared by its heads and its rows.
#pragma once

#include "document/block.h"
#include "layout/context.h"
#include "layout/fragment.h"

namespace tub {

/// The places of a channel's columns, in points from its left edge.
struct ChannelTracks {
  double now_right = 0;
  double plot_left = 0;
  double plot_width = 0;
  double band_left = 0;   ///< outer edge of the lower bank
  double band_right = 0;  ///< outer edge of the upper bank
  double right = 0;
};

ChannelTracks channel_tracks(double width, const Context& context);

/// The plot of one row (ring, line, bar, limits) around the bar's centre line: y = 0 there.
Mark channel_plot(const ChannelReading& reading, const ChannelTracks& tracks,
                  const Context& context);

}  // namespace tub
