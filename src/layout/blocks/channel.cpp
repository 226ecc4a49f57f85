// The channel: one row a reading, all targets in one column.
#include "layout/blocks/channel.h"

#include <algorithm>
#include <string>
#include <utility>

#include "layout/blocks/blocks.h"
#include "layout/blocks/marks.h"
#include "layout/type/lines.h"

namespace tub::layout {
namespace {

class ChannelMaker {
 public:
  ChannelMaker(const Channel& channel, double width, const Context& context)
      : channel_(channel),
        tracks_(channel_tracks(channel, width, context)),
        context_(context),
        lengths_(context.lengths()) {}

  Fragment make() {
    table_ = out_.add(Element::of(Role::table));
    lay_heads();
    draw_band();
    lay_rows<ChannelReading>();
    lay_rows<ChannelHeld>();
    return std::move(out_);
  }

 private:
  Element cell(Role role, Element::Scope scope = Element::Scope::column) const {
    Element element = Element::of(role, row_);
    element.scope = scope;
    return element;
  }

  void write(Line line, Point at, Element element) {
    move(line.marks, at);
    out_.write(std::move(element), std::move(line.marks));
  }

  template <class Row>
  void lay_rows() {
    for (const auto& row : channel_.rows) {
      const Row* const each = std::get_if<Row>(&row);
      if (!each) continue;
      row_ = out_.add(Element::of(Role::row, table_));
      lay_row(*each);
      out_.height += lengths_.channel_row;
    }
  }

  void lay_heads() {
    row_ = out_.add(Element::of(Role::row, table_));
    const Type& type = context_.types().channel_head;
    const double baseline = context_.rise(context_.types().channel_title);
    write(single_line(channel_.title, context_.types().channel_title, context_), {0, baseline},
          cell(Role::header_cell));
    lay_now_head(single_line(channel_.now_head, type, context_), baseline);
    lay_plot_head(baseline);
    lay_after_head(single_line(channel_.after_head, type, context_), baseline);
    out_.height = lengths_.channel_head;
  }

  /// The word and the ring that stands for it.
  void lay_now_head(Line line, double baseline) {
    const double ring = lengths_.key_ring;
    const double x = tracks_.now_right - ring - lengths_.key_gap - line.width;
    Path key = circle({tracks_.now_right - ring / 2, baseline + 0.2 * mm - ring / 2},
                      (ring - lengths_.key_ring_line) / 2);
    key.stroke = Stroke{lengths_.key_ring_line, context_.inks().black};
    out_.draw(key);
    write(std::move(line), {x, baseline}, cell(Role::header_cell));
  }

  void lay_after_head(Line line, double baseline) {
    const double height = lengths_.key_bar_height;
    const double x = tracks_.right - line.width;
    out_.draw(
        filled_box({x - lengths_.key_gap - lengths_.key_bar_width, baseline + 0.1 * mm - height},
                   lengths_.key_bar_width, height, context_.inks().black));
    write(std::move(line), {x, baseline}, cell(Role::header_cell));
  }

  /// "too low", the band's name over its column, "too high": one head.
  void lay_plot_head(double baseline) {
    const Type& type = context_.types().channel_head;
    Line low = single_line(channel_.low_head, type, context_);
    Line band = single_line(channel_.band_head, bold(type), context_);
    Line high = single_line(channel_.high_head, type, context_);
    const double middle = (tracks_.band_left + tracks_.band_right) / 2;
    const double band_x = middle - band.width / 2;
    const double high_x = tracks_.plot_left + tracks_.plot_width - high.width;
    const double over =
        std::max(tracks_.plot_left + low.width - band_x, band_x + band.width - high_x);
    if (over > 0) context_.too_wide(text_of(channel_.band_head), over);
    Content content;
    append(content, std::move(low), {tracks_.plot_left, baseline}, context_);
    append(content, std::move(band), {band_x, baseline}, context_);
    append(content, std::move(high), {high_x, baseline}, context_);
    out_.write(cell(Role::header_cell), std::move(content));
  }

  /// One grey column over all rows that have a target, between two banks.
  void draw_band() {
    double rows = 0;
    for (const auto& row : channel_.rows) {
      if (std::holds_alternative<ChannelReading>(row)) rows += 1;
    }
    if (rows == 0) return;
    const double height = rows * lengths_.channel_row;
    const Inks& inks = context_.inks();
    const Point left{tracks_.band_left, out_.height};
    out_.draw(filled_box(left, tracks_.band_right - tracks_.band_left, height, inks.band));
    out_.draw(filled_box(left, lengths_.bank, height, inks.black));
    out_.draw(filled_box({tracks_.band_right - lengths_.bank, left.y}, lengths_.bank, height,
                         inks.black));
  }

  double centre() const { return out_.height + lengths_.channel_row / 2; }
  /// Figures stand with the middle of their height on the bar's centre line.
  double baseline() const {
    const Type& type = context_.types().channel_number;
    return centre() + context_.fonts.regular.cap_height() * type.size / 2000;
  }

  void lay_name(const Words& name, const Words& unit, Line number) {
    const double number_x = tracks_.now_right - number.width;
    write(channel_name(name, unit, context_), {0, baseline()},
          cell(Role::header_cell, Element::Scope::row));
    write(std::move(number), {number_x, baseline()}, cell(Role::cell));
  }

  void lay_row(const ChannelReading& reading) {
    lay_name(reading.name, reading.unit, channel_now(reading, context_));
    Mark plot = channel_plot(reading, tracks_, context_);
    Content content = {std::move(plot)};
    move(content, {0, centre()});
    out_.write(cell(Role::cell), std::move(content));
    lay_after(plain(reading.after), 1);
  }

  void lay_row(const ChannelHeld& held) {
    lay_name(held.name, held.unit,
             single_line(plain(held.now), context_.types().channel_number, context_));
    lay_after(held.held, 2);
  }

  void lay_after(const Words& words, int columns) {
    Line line = single_line(words, bold(context_.types().channel_number), context_);
    const double room = tracks_.right - (columns > 1 ? tracks_.plot_left : tracks_.after);
    if (line.width > room) context_.too_wide(text_of(words), line.width - room);
    Element element = cell(Role::cell);
    element.columns = columns;
    const double x = tracks_.right - line.width;
    write(std::move(line), {x, baseline()}, std::move(element));
  }

  const Channel& channel_;
  ChannelTracks tracks_;
  const Context& context_;
  const Lengths& lengths_;
  Fragment out_;
  int table_ = 0;
  int row_ = 0;
};

}  // namespace

Fragment lay_channel(const Channel& channel, double width, const Context& context) {
  return ChannelMaker(channel, width, context).make();
}

}  // namespace tub::layout
