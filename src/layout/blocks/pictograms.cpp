// Turns the curves of a pictogram into a figure of a given size.
#include "layout/blocks/pictograms.h"

#include <cassert>
#include <charconv>
#include <cstddef>
#include <string_view>
#include <system_error>
#include <vector>

#include "layout/blocks/ghs_pictograms.h"
#include "layout/blocks/pictogram_curves.h"

namespace tub::layout {
namespace {

/// Reads "M x y L x y C x y x y x y Z" on a field of 100 by 100.
class CurveReader {
 public:
  CurveReader(std::string_view text, Point corner, double scale)
      : text_(text), corner_(corner), scale_(scale) {}

  std::vector<Segment> read() {
    std::vector<Segment> segments;
    for (char command = next(); command != '\0'; command = next()) {
      segments.push_back(segment(command));
    }
    return segments;
  }

 private:
  Segment segment(char command) {
    if (command == 'M') return MoveTo{point()};
    if (command == 'L') return LineTo{point()};
    if (command == 'Z') return ClosePath{};
    assert(command == 'C');
    const Point control1 = point();
    const Point control2 = point();
    return CurveTo{control1, control2, point()};
  }
  Point point() {
    const double x = coordinate();
    const double y = coordinate();
    return {corner_.x + x * scale_, corner_.y + y * scale_};
  }
  void skip_spaces() {
    while (!text_.empty() && text_.front() == ' ') text_.remove_prefix(1);
  }
  char next() {
    skip_spaces();
    if (text_.empty()) return '\0';
    const char command = text_.front();
    text_.remove_prefix(1);
    return command;
  }
  double coordinate() {
    skip_spaces();
    double value = 0;
    const auto read = std::from_chars(text_.data(), text_.data() + text_.size(), value);
    assert(read.ec == std::errc());
    text_.remove_prefix(static_cast<std::size_t>(read.ptr - text_.data()));
    return value;
  }

  std::string_view text_;
  Point corner_;
  double scale_;
};

Colour colour_of(Curve::Ink ink, const Inks& inks) {
  switch (ink) {
    case Curve::Ink::paper:
      return inks.paper;
    case Curve::Ink::mandatory:
      return inks.mandatory;
    case Curve::Ink::hazard:
      return inks.hazard;
    case Curve::Ink::black:
      return inks.black;
  }
  return inks.black;
}

}  // namespace

double field_side(Pictogram pictogram, double side) {
  return is_ghs(pictogram) ? side * diamond_field : side;
}

Mark sign_mark(const Sign& sign, Point corner, double side, const Context& context) {
  Mark mark{Mark::Kind::figure, {}, sign.alt};
  const double scale = side / 100;
  for (const Curve& curve : curves_of(sign.pictogram)) {
    Path path;
    path.segments = CurveReader(curve.segments, corner, scale).read();
    const Colour colour = colour_of(curve.ink, context.inks());
    if (curve.stroke > 0) {
      path.stroke = Stroke{curve.stroke * scale, colour};
    } else {
      path.fill = colour;
    }
    mark.items.push_back(std::move(path));
  }
  return mark;
}

}  // namespace tub::layout
