// A chart: a grid with its numbers, targets as bands, lines with their names, marks.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/text.h"
#include "layout/blocks/blocks.h"
#include "layout/blocks/marks.h"
#include "layout/type/lines.h"

namespace tub::layout {
namespace {

constexpr double number_gap = 1.2 * mm;
constexpr double number_drop = 2 * mm;
constexpr double line_width = 0.5 * mm;
constexpr double mark_radius = 1.2 * mm;

class ChartMaker {
 public:
  ChartMaker(const Chart& chart, double width, const Context& context)
      : chart_(chart), context_(context), type_(context.types().small) {
    check_axis(chart.x, "x");
    check_axis(chart.y, "y");
    left_ = widest_number() + number_gap;
    top_ = chart.y.name.empty() ? type_.leading / 2 : type_.leading * 1.5;
    right_ = width - name_room();
    bottom_ = top_ + chart.height_mm * mm;
    if (right_ - left_ < 20 * mm) context.too_wide(chart.alt, 20 * mm - (right_ - left_));
  }

  Fragment make() {
    for (const Chart::Target& band : chart_.bands) draw_band(band);
    draw_grid();
    for (const Chart::Line& line : chart_.lines) draw_line(line);
    name_lines();
    for (const Chart::Mark& mark : chart_.marks) draw_mark(mark);
    write(chart_.y.name, {0, context_.rise(type_)});
    const double names = bottom_ + number_drop + 1.8 * type_.leading;
    write(chart_.x.name, {right_ - width_of(chart_.x.name), names - context_.fall(type_)});
    Fragment fragment;
    fragment.height = names;
    fragment.write_figure(std::move(mark_));
    return fragment;
  }

 private:
  void check_axis(const Chart::Axis& axis, const char* name) const {
    const double lines = (axis.high - axis.low) / axis.step;
    if (axis.high > axis.low && axis.step > 0 && lines <= 100) return;
    throw Error(
        Diagnostic{fmt::format("the {} axis of a chart cannot go from {} to {} in steps of {}",
                               name, shortest(axis.low), shortest(axis.high), shortest(axis.step)),
                   context_.where,
                   {},
                   "give an axis a higher end than its beginning, and at most 100 steps"});
  }

  double width_of(const Words& words) const { return single_line(words, type_, context_).width; }

  std::vector<double> ticks(const Chart::Axis& axis) const {
    std::vector<double> values;
    const int count = static_cast<int>(std::floor((axis.high - axis.low) / axis.step + 1e-9));
    for (int i = 0; i <= count; ++i) values.push_back(axis.low + i * axis.step);
    return values;
  }

  std::string number(const Chart::Axis& axis, double value) const {
    const std::string text = replaced(fixed(value, axis.decimals), "-", "\u2212");
    return replaced(text, ".", chart_.decimal_sign);
  }

  double widest_number() const {
    double widest = 0;
    for (const double value : ticks(chart_.y)) {
      widest = std::max(widest, context_.width(number(chart_.y, value), type_));
    }
    return widest;
  }

  /// Names of lines stand behind their last points.
  double name_room() const {
    double widest = 0;
    for (const Chart::Line& line : chart_.lines) widest = std::max(widest, width_of(line.name));
    return widest > 0 ? widest + number_gap : number_gap;
  }

  double x_of(double value) const {
    return left_ + (right_ - left_) * (value - chart_.x.low) / (chart_.x.high - chart_.x.low);
  }
  double y_of(double value) const {
    return bottom_ - (bottom_ - top_) * (value - chart_.y.low) / (chart_.y.high - chart_.y.low);
  }

  void write(const Words& words, Point at) {
    Line line = single_line(words, type_, context_);
    for (Mark& part : line.marks) {
      for (Item& item : part.items) {
        // Texts of one figure are not read as one word.
        if (auto* const run = std::get_if<TextRun>(&item)) {
          run->text += ' ';
          run->width += context_.width(" ", type_);
        }
        mark_.items.push_back(moved(std::move(item), at));
      }
    }
  }

  void draw_grid() {
    const Colour black = context_.inks().black;
    const double hairline = context_.lengths().hairline;
    const double capitals = context_.fonts.regular.cap_height() * type_.size / 1000;
    for (const double value : ticks(chart_.y)) {
      const double y = y_of(value);
      mark_.items.emplace_back(
          Rule{.from = {left_, y}, .to = {right_, y}, .width = hairline, .colour = black});
      const Words text = plain(number(chart_.y, value));
      write(text, {left_ - number_gap - width_of(text), y + capitals / 2});
    }
    for (const double value : ticks(chart_.x)) {
      const double x = x_of(value);
      mark_.items.emplace_back(
          Rule{.from = {x, top_}, .to = {x, bottom_}, .width = hairline, .colour = black});
      const Words text = plain(number(chart_.x, value));
      write(text, {x - width_of(text) / 2, bottom_ + number_drop + capitals});
    }
  }

  void draw_band(const Chart::Target& band) {
    const double from = x_of(std::clamp(band.low, chart_.x.low, chart_.x.high));
    const double to = x_of(std::clamp(band.high, chart_.x.low, chart_.x.high));
    const double bank = context_.lengths().bank;
    const Inks& inks = context_.inks();
    const double height = bottom_ - top_;
    mark_.items.emplace_back(filled_box({from, top_}, to - from, height, inks.band));
    mark_.items.emplace_back(filled_box({from, top_}, bank, height, inks.black));
    mark_.items.emplace_back(filled_box({to - bank, top_}, bank, height, inks.black));
    write(band.name, {(from + to - width_of(band.name)) / 2, top_ - type_.leading * 0.3});
  }

  /// The part of a segment between two heights of the plot, by the parameter along it.
  struct Part {
    double from = 0;
    double to = 1;
  };

  static bool cut(Part& part, double start, double change, double low, double high) {
    if (change == 0) return start >= low && start <= high;
    const double a = (low - start) / change;
    const double b = (high - start) / change;
    part = {std::max(part.from, std::min(a, b)), std::min(part.to, std::max(a, b))};
    return part.from < part.to;
  }

  /// The piece of a segment that lies on the plot (Liang and Barsky's clipping).
  std::optional<std::pair<Point, Point>> on_plot(const Chart::Point& a,
                                                 const Chart::Point& b) const {
    const double dx = b.x - a.x;
    const double dy = b.y - a.y;
    Part part;
    if (!cut(part, a.x, dx, chart_.x.low, chart_.x.high)) return std::nullopt;
    if (!cut(part, a.y, dy, chart_.y.low, chart_.y.high)) return std::nullopt;
    const auto at = [&](double t) { return Point{x_of(a.x + t * dx), y_of(a.y + t * dy)}; };
    return std::pair{at(part.from), at(part.to)};
  }

  void draw_line(const Chart::Line& line) {
    Path path;
    path.stroke = Stroke{line_width, context_.inks().black};
    Point last;
    for (std::size_t i = 1; i < line.points.size(); ++i) {
      const auto piece = on_plot(line.points[i - 1], line.points[i]);
      if (!piece) continue;
      if (path.segments.empty() || !(last == piece->first)) {
        path.segments.emplace_back(MoveTo{piece->first});
      }
      path.segments.emplace_back(LineTo{piece->second});
      last = piece->second;
    }
    if (path.segments.empty()) return;
    const double capitals = context_.fonts.regular.cap_height() * type_.size / 1000;
    mark_.items.emplace_back(std::move(path));
    names_.push_back({&line.name, last.y + capitals / 2});
  }

  // Beside the ends of their lines, moved down where they would touch.
  void name_lines() {
    std::stable_sort(names_.begin(), names_.end(),
                     [](const Name& a, const Name& b) { return a.baseline < b.baseline; });
    for (std::size_t i = 0; i < names_.size(); ++i) {
      if (i > 0)
        names_[i].baseline = std::max(names_[i].baseline, names_[i - 1].baseline + type_.leading);
      write(*names_[i].words, {right_ + number_gap, names_[i].baseline});
    }
  }

  void draw_mark(const Chart::Mark& mark) {
    const Point at{x_of(mark.at.x), y_of(mark.at.y)};
    Path ring = circle(at, mark_radius);
    ring.fill = context_.inks().paper;
    ring.stroke = Stroke{context_.lengths().ring_line, context_.inks().black};
    mark_.items.emplace_back(std::move(ring));
    write(mark.name, {at.x + mark_radius + number_gap, at.y - mark_radius});
  }

  const Chart& chart_;
  const Context& context_;
  Type type_;
  double left_ = 0;
  double right_ = 0;
  double top_ = 0;
  double bottom_ = 0;
  struct Name {
    const Words* words;
    double baseline;
  };
  std::vector<Name> names_;
  Mark mark_{Mark::Kind::figure, {}, chart_.alt};
};

}  // namespace

Fragment lay_chart(const Chart& chart, double width, const Context& context) {
  return ChartMaker(chart, width, context).make();
}

}  // namespace tub::layout
