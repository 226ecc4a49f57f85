// Draws one row of the channel: limits beside their banks, the ring now, the bar afterwards, and
// the line from one to the other.
#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

#include "layout/blocks/channel.h"
#include "layout/blocks/marks.h"
#include "layout/blocks/scale.h"

namespace tub::layout {
namespace {

/// From one x to another.
struct Extent {
  double from = 0;
  double to = 0;
};

class PlotMaker {
 public:
  PlotMaker(const ChannelReading& reading, const ChannelTracks& tracks, const Context& context)
      : reading_(reading), tracks_(tracks), context_(context), lengths_(context.lengths()) {
    find_places();
  }

  Mark make() {
    Mark mark{Mark::Kind::figure, {}, reading_.alt};
    const Extent bar = bar_extent();
    place_limits(bar);
    draw_run(mark, bar);
    draw_bar(mark, bar);
    draw_ring(mark, bar);
    for (const TextRun& limit : limits_) mark.items.emplace_back(limit);
    return mark;
  }

 private:
  double limit_width(const std::string& text) const {
    return text.empty() ? 0 : context_.width(text, context_.types().limit);
  }

  /// The scale outside begins far enough out for the limit to stand between bank and ring.
  void find_places() {
    const double ring = lengths_.ring / 2;
    const auto room = [&](const std::string& text) {
      return std::max(lengths_.outside_from, limit_width(text) + 2 * lengths_.limit_gap + ring);
    };
    places_.left = tracks_.plot_left + lengths_.plot_inset;
    places_.low = tracks_.band_left + lengths_.bank;
    places_.low_side = tracks_.band_left - room(reading_.low);
    places_.high = tracks_.band_right - lengths_.bank;
    places_.high_side = tracks_.band_right + room(reading_.high);
    places_.right = tracks_.plot_left + tracks_.plot_width - lengths_.plot_inset;
    if (reading_.now_at) ring_x_ = Scale(reading_, places_).at(*reading_.now_at);
  }

  Extent bar_extent() const {
    const Scale scale(reading_, places_);
    Extent bar{scale.at(reading_.after_low_at), scale.at(reading_.after_high_at)};
    const double lacking = lengths_.bar_least - (bar.to - bar.from);
    if (lacking > 0) bar = {bar.from - lacking / 2, bar.to + lacking / 2};
    const double width = bar.to - bar.from;
    // A widened bar stays on its own side of the banks.
    if (scale.inside(reading_.after_low_at)) bar.from = std::max(bar.from, places_.low);
    if (scale.inside(reading_.after_high_at)) {
      bar.from = std::min(bar.from, places_.high - width);
    }
    bar.to = bar.from + width;
    return bar;
  }

  /// Limits stand outside the banks, and outside a ring that lies across one.
  void place_limits(const Extent& bar) {
    double low_edge = tracks_.band_left;
    double high_edge = tracks_.band_right;
    if (ring_x_ && Scale(reading_, places_).inside(*reading_.now_at)) {
      low_edge = std::min(low_edge, *ring_x_ - lengths_.ring / 2);
      high_edge = std::max(high_edge, *ring_x_ + lengths_.ring / 2);
    }
    const double low = limit_width(reading_.low);
    add_limit(reading_.low, {low_edge - lengths_.limit_gap - low, low_edge - lengths_.limit_gap},
              bar);
    const double high = high_edge + lengths_.limit_gap;
    add_limit(reading_.high, {high, high + limit_width(reading_.high)}, bar);
  }

  /// White where the bar reaches over it; else the line from the ring is broken behind it. Its text
  /// ends in a space, so that two limits are not read as one number.
  void add_limit(const std::string& text, Extent place, const Extent& bar) {
    if (text.empty()) return;
    const bool on_bar = bar.from <= place.from && bar.to >= place.to;
    const Type& type = context_.types().limit;
    const double capitals = context_.fonts.face(type.face).cap_height() * type.size / 1000;
    limits_.push_back(TextRun{.face = type.face,
                              .size = type.size,
                              .origin = {place.from, capitals / 2},
                              .width = place.to - place.from + context_.width(" ", type),
                              .text = text + " ",
                              .colour = on_bar ? context_.inks().paper : type.ink});
    if (!on_bar) gaps_.push_back({place.from - lengths_.limit_gap, place.to + lengths_.limit_gap});
  }

  /// The parts of an extent that no limit stands on.
  std::vector<Extent> free_parts(Extent whole) const {
    std::vector<Extent> parts = {whole};
    for (const Extent& gap : gaps_) {
      std::vector<Extent> next;
      for (const Extent& part : parts) {
        if (part.from < gap.from) next.push_back({part.from, std::min(part.to, gap.from)});
        if (part.to > gap.to) next.push_back({std::max(part.from, gap.to), part.to});
      }
      parts = std::move(next);
    }
    return parts;
  }

  void draw_run(Mark& mark, const Extent& bar) const {
    if (!ring_x_ || Scale(reading_, places_).inside(*reading_.now_at)) return;
    const double ring = lengths_.ring / 2;
    Extent run{*ring_x_ + ring, bar.from};
    if (*ring_x_ > bar.to) run = {bar.to, *ring_x_ - ring};
    if (run.to <= run.from) return;
    for (const Extent& part : free_parts(run)) {
      mark.items.emplace_back(Rule{.from = {part.from, 0},
                                   .to = {part.to, 0},
                                   .width = lengths_.run_line,
                                   .colour = context_.inks().black});
    }
  }

  void draw_bar(Mark& mark, const Extent& bar) const {
    for (const Extent& part : free_parts(bar)) {
      mark.items.emplace_back(filled_box({part.from, -lengths_.bar / 2}, part.to - part.from,
                                         lengths_.bar, context_.inks().black));
    }
  }

  /// On the bar the ring is set off by a white edge.
  void draw_ring(Mark& mark, const Extent& bar) const {
    if (!ring_x_) return;
    if (*ring_x_ > bar.from && *ring_x_ < bar.to) {
      Path edge = circle({*ring_x_, 0}, lengths_.ring / 2 + lengths_.run_line);
      edge.fill = context_.inks().paper;
      mark.items.emplace_back(std::move(edge));
    }
    Path ring = circle({*ring_x_, 0}, (lengths_.ring - lengths_.ring_line) / 2);
    ring.fill = context_.inks().paper;
    ring.stroke = Stroke{lengths_.ring_line, context_.inks().black};
    mark.items.emplace_back(std::move(ring));
    if (!Scale(reading_, places_).beyond(*reading_.now_at)) return;
    const double direction = *reading_.now_at < reading_.plot_low ? -1 : 1;
    const double x = *ring_x_ + direction * (lengths_.ring / 2 + 0.5 * mm);
    const double reach = direction * 0.9 * mm;
    Path chevron;
    chevron.segments = {MoveTo{{x, -0.9 * mm}}, LineTo{{x + reach, 0}}, LineTo{{x, 0.9 * mm}}};
    chevron.stroke = Stroke{lengths_.run_line, context_.inks().black};
    mark.items.emplace_back(std::move(chevron));
  }

  const ChannelReading& reading_;
  const ChannelTracks& tracks_;
  const Context& context_;
  const Lengths& lengths_;
  ScalePlaces places_;
  std::optional<double> ring_x_;
  std::vector<TextRun> limits_;
  std::vector<Extent> gaps_;
};

}  // namespace

Mark channel_plot(const ChannelReading& reading, const ChannelTracks& tracks,
                  const Context& context) {
  return PlotMaker(reading, tracks, context).make();
}

}  // namespace tub::layout
