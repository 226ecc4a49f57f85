// How wide a channel's columns are.
#include <algorithm>
#include <variant>

#include "layout/blocks/channel.h"

namespace tub::layout {
namespace {

/// Between a name and its number.
constexpr double column_gap = 3 * mm;
/// The channel cannot be read on a plot narrower than this.
constexpr double least_plot = 80 * mm;

/// The widths that one row asks for.
struct Asked {
  double name_and_now = 0;
  double after = 0;
};

struct AskRow {
  const Context& context;

  Asked operator()(const ChannelReading& row) const {
    const Type number = bold(context.types().channel_number);
    return {channel_name(row.name, row.unit, context).width + column_gap +
                channel_now(row, context).width,
            single_line(plain(row.after), number, context).width};
  }
  Asked operator()(const ChannelHeld& row) const {
    const Type& number = context.types().channel_number;
    return {channel_name(row.name, row.unit, context).width + column_gap +
                single_line(plain(row.now), number, context).width,
            0};
  }
};

}  // namespace

Line channel_name(const Words& name, const Words& unit, const Context& context) {
  Words words;
  words.parts.emplace_back(Bold{text_of(name)});
  if (!unit.empty()) words.parts.emplace_back(Small{" " + text_of(unit)});
  return single_line(words, context.types().body, context);
}

Line channel_now(const ChannelReading& reading, const Context& context) {
  const Types& types = context.types();
  return single_line(plain(reading.now), reading.now_at ? types.channel_number : types.small,
                     context);
}

ChannelTracks channel_tracks(const Channel& channel, double width, const Context& context) {
  const Lengths& lengths = context.lengths();
  Asked asked{lengths.channel_name + lengths.channel_now, lengths.channel_after};
  for (const auto& row : channel.rows) {
    const Asked each = std::visit(AskRow{context}, row);
    asked.name_and_now = std::max(asked.name_and_now, each.name_and_now);
    asked.after = std::max(asked.after, each.after);
  }
  ChannelTracks tracks;
  tracks.right = width;
  tracks.now_right = asked.name_and_now;
  tracks.after = width - asked.after;
  tracks.plot_left = tracks.now_right + lengths.plot_left;
  tracks.plot_width = tracks.after - lengths.plot_right - tracks.plot_left;
  if (tracks.plot_width < least_plot) {
    context.too_wide(text_of(channel.title), least_plot - tracks.plot_width);
  }
  const Shares& shares = context.setting.shares;
  tracks.band_left = tracks.plot_left + shares.band_from * tracks.plot_width;
  tracks.band_right = tracks.plot_left + shares.band_to * tracks.plot_width;
  return tracks;
}

}  // namespace tub::layout
