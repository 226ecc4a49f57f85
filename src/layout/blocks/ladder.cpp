// Tracks, heads and stiles of a ladder.
#include "layout/blocks/ladder.h"

#include <algorithm>
#include <utility>

#include "layout/blocks/marks.h"
#include "layout/type/lines.h"

namespace tub::layout {
namespace {

/// A track may take this much from the pour before its texts wrap.
/// Measured: the tightest track, "test", has 17 mm and needs 24 for "Säurekapazität" at 9.5 pt.
constexpr double most_taken = 8 * mm;

}  // namespace

LadderTracks ladder_tracks(const Ladder& ladder, double width, const Context& context) {
  const Lengths& lengths = context.lengths();
  const Type& body = context.types().body;
  LadderTracks tracks;
  tracks.right = width;
  tracks.key_width = ladder.key == Ladder::Key::name ? lengths.ladder_name : lengths.ladder_key;
  tracks.text = tracks.key_width + lengths.gutter;
  tracks.pour = tracks.text + lengths.tick + lengths.gutter;
  const auto widest = [&](double least, const Words Pour::*words, const Type& type) {
    double most = least;
    for (const Rung& rung : ladder.rungs) {
      for (const Pour& pour : rung.pours) {
        most = std::max(most, single_line(pour.*words, type, context).width);
      }
    }
    return std::min(most, least + most_taken);
  };
  tracks.wait_width = widest(lengths.wait_track, &Pour::wait, bold(body));
  tracks.test_width = widest(lengths.test_track, &Pour::test, body);
  tracks.reading_width = widest(lengths.reading_track, &Pour::reading, body);
  tracks.test = width - tracks.reading_width - lengths.gutter - tracks.test_width;
  tracks.wait = tracks.test - lengths.gutter - tracks.wait_width;
  tracks.pour_right = tracks.wait - lengths.gutter;
  return tracks;
}

Fragment lay_ladder_head(const Ladder& ladder, const LadderTracks& tracks, const Context& context) {
  const Type& type = context.types().small;
  const Lengths& lengths = context.lengths();
  Fragment fragment;
  Content content;
  const double baseline = lengths.ladder_head_above + context.rise(type);
  const auto add = [&](const Words& head, double x) {
    append(content, single_line(head, type, context), {x, baseline}, context);
  };
  add(ladder.pour_head, tracks.text);
  add(ladder.wait_head, tracks.wait);
  add(ladder.test_head, tracks.test);
  Line reading = single_line(ladder.reading_head, type, context);
  const double reading_x = tracks.right - reading.width;
  append(content, std::move(reading), {reading_x, baseline}, context);
  if (content.empty()) return fragment;
  fragment.write(Element::of(Role::paragraph), std::move(content));
  fragment.height = lengths.ladder_head_above + type.leading + lengths.ladder_head_below;
  return fragment;
}

Fragment lay_stiles(double height, const LadderTracks& tracks, const Context& context) {
  const double stile = context.lengths().stile;
  const Colour accent = context.inks().accent;
  Fragment fragment;
  fragment.height = height;
  fragment.draw(filled_box({0, 0}, stile, height, accent));
  fragment.draw(filled_box({tracks.key_width - stile, 0}, stile, height, accent));
  return fragment;
}

}  // namespace tub::layout
