// Pictograms as a label printer draws them: nothing of a symbol is lost at the smallest size.
#include <array>
#include <catch2/catch.hpp>
#include <cmath>

#include "base/text.h"
#include "export/pixels.h"
#include "export_test.h"
#include "layout/blocks/ghs_pictograms.h"
#include "layout/type/style.h"

namespace tub::exporting {
namespace {

Path drawn(const Curve& curve, double scale) {
  Path path;
  const std::vector<std::string> words = split(curve.segments, ' ');
  std::size_t at = 0;
  const auto place = [&] {
    const double x = to_number(words.at(at++)).value() * scale;
    return Point{x, to_number(words.at(at++)).value() * scale};
  };
  while (at < words.size()) {
    const std::string command = words.at(at++);
    if (command == "M") path.segments.emplace_back(MoveTo{place()});
    if (command == "L") path.segments.emplace_back(LineTo{place()});
    if (command == "Z") path.segments.emplace_back(ClosePath{});
    if (command == "C") {
      const Point first = place();
      const Point second = place();
      path.segments.emplace_back(CurveTo{first, second, place()});
    }
  }
  const Colour ink = curve.ink == Curve::Ink::black    ? Colour{0, 0, 0}
                     : curve.ink == Curve::Ink::hazard ? Colour{226, 0, 26}
                                                       : Colour{255, 255, 255};
  if (curve.stroke > 0) {
    path.stroke = Stroke{curve.stroke * scale, ink};
  } else {
    path.fill = ink;
  }
  return path;
}

/// The symbol's ink, frame left out, as a share of the square's area.
double ink_share(Pictogram pictogram, double side_mm, double dots_per_inch) {
  const double field = side_mm * diamond_field * mm;
  Page page;
  page.width = field;
  page.height = field;
  page.elements = {Element::of(Role::section, -1)};
  page.items = {Box{{0, 0}, field, field, Colour{255, 255, 255}, {}, artifact}};
  const std::vector<Curve> curves = ghs_curves(pictogram);
  for (std::size_t i = 2; i < curves.size(); ++i)
    page.items.push_back(drawn(curves[i], field / 100));
  const Pixels pixels = draw_pixels(page, test_fonts(), dots_per_inch, Raster::dots);
  double inked = 0;
  for (int y = 0; y < pixels.height; ++y)
    for (int x = 0; x < pixels.width; ++x)
      if ((pixels.row(y)[x] & 0xFFU) < 128) ++inked;
  const double side_dots = side_mm / 25.4 * dots_per_inch;
  return inked / (side_dots * side_dots);
}

TEST_CASE("a symbol of 10 mm loses none of its ink at 203 dots an inch") {
  for (const Pictogram pictogram :
       {Pictogram::ghs_oxidiser, Pictogram::ghs_corrosion, Pictogram::ghs_toxic,
        Pictogram::ghs_exclamation, Pictogram::ghs_health, Pictogram::ghs_environment}) {
    const double fine = ink_share(pictogram, 10, 1200);
    CAPTURE(static_cast<int>(pictogram), fine);
    CHECK(ink_share(pictogram, 10, 203) == Approx(fine).epsilon(0.06));
    CHECK(ink_share(pictogram, 10, 300) == Approx(fine).epsilon(0.04));
    CHECK(fine > 0.05);
    CHECK(fine < 0.40);
  }
}

}  // namespace
}  // namespace tub::exporting
