// Turns the curves of a pictogram into a figure of a given size.
#include "layout/pictograms.h"

#include <cassert>
#include <optional>
#include <string_view>
#include <vector>

#include "base/text.h"
#include "layout/ghs_pictograms.h"
#include "layout/pictogram_curves.h"

namespace tub {
namespace {

/// Reads "M x y L x y C x y x y x y Z" on a field of 100 by 100.
class CurveReader {
 public:
  CurveReader(std::string_view text, Point corner, double scale)
      : words_(split(text, ' ')), corner_(corner), scale_(scale) {}

  std::vector<Segment> read() {
    std::vector<Segment> segments;
    while (at_ < words_.size()) segments.push_back(segment(words_[at_++]));
    return segments;
  }

 private:
  Segment segment(const std::string& command) {
    if (command == "M") return MoveTo{point()};
    if (command == "L") return LineTo{point()};
    if (command == "Z") return ClosePath{};
    assert(command == "C");
    const Point control1 = point();
    const Point control2 = point();
    return CurveTo{control1, control2, point()};
  }
  Point point() {
    const double x = coordinate();
    const double y = coordinate();
    return {corner_.x + x * scale_, corner_.y + y * scale_};
  }
  double coordinate() {
    assert(at_ < words_.size());
    const std::optional<double> value = to_number(words_[at_++]);
    assert(value);
    return value.value_or(0);
  }

  std::vector<std::string> words_;
  Point corner_;
  double scale_;
  std::size_t at_ = 0;
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

}  // namespace tub
