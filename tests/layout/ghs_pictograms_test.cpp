// The hazard pictograms: frame, colours and proportions as the rules have them.
#include "layout/blocks/ghs_pictograms.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <set>
#include <utility>

#include "layout/blocks/pictograms.h"
#include "layout/pages/lay_out.h"
#include "layout/type/style.h"
#include "layout_test.h"

namespace tub::layout {
namespace {

const std::vector<Pictogram> all_ghs = {Pictogram::ghs_oxidiser, Pictogram::ghs_corrosion,
                                        Pictogram::ghs_toxic,    Pictogram::ghs_exclamation,
                                        Pictogram::ghs_health,   Pictogram::ghs_environment};

/// A page with such a row of signs, their sides in millimetres.
Page page_of(std::vector<Sign> signs, double side_mm) {
  Document document;
  document.sheet = "container_label";
  document.title = "A label";
  document.language = "en";
  Signs row;
  row.signs = std::move(signs);
  row.side_mm = side_mm;
  document.blocks.emplace_back();
  document.blocks.back().content = row;
  return lay_out(document, test_style(), test_stock("a4"), test_fonts()).at(0);
}

/// A page that shows one pictogram with sides of so many millimetres.
Page page_with(Pictogram pictogram, double side_mm) {
  return page_of({{pictogram, "the pictogram"}}, side_mm);
}

/// The paths of the page's only figure, in drawing order.
std::vector<Path> figure_on(const Page& page) {
  std::vector<Path> paths;
  for (const Item& item : page.items) {
    if (const Path* const path = std::get_if<Path>(&item)) paths.push_back(*path);
  }
  return paths;
}

std::vector<Point> points_of(const Path& path) {
  std::vector<Point> points;
  for (const Segment& segment : path.segments) {
    if (const auto* begin = std::get_if<MoveTo>(&segment)) points.push_back(begin->to);
    if (const auto* line = std::get_if<LineTo>(&segment)) points.push_back(line->to);
    if (const auto* curve = std::get_if<CurveTo>(&segment)) {
      points.insert(points.end(), {curve->control1, curve->control2, curve->to});
    }
  }
  return points;
}

double distance(Point a, Point b) { return std::hypot(a.x - b.x, a.y - b.y); }

/// The distance of a point from the square's centre along x and y together: 1 on the outer edge.
double reach(Point at, const std::vector<Point>& frame) {
  const Point centre{(frame.at(1).x + frame.at(3).x) / 2, (frame.at(0).y + frame.at(2).y) / 2};
  const double half = (frame.at(1).x - frame.at(3).x) / 2;
  return (std::abs(at.x - centre.x) + std::abs(at.y - centre.y)) / half;
}

TEST_CASE("a pictogram's size is the side of its square, which stands on a point") {
  // Source: CLP Annex I 1.2.1 and Table 1.3: the dimensions are those of the square itself
  for (const Pictogram pictogram : all_ghs) {
    for (const double side : {10.0, 16.0, 23.0, 32.0}) {
      const std::vector<Point> frame = points_of(figure_on(page_with(pictogram, side)).at(0));
      REQUIRE(frame.size() == 4);
      for (std::size_t i = 0; i < 4; ++i) {
        CHECK(distance(frame[i], frame[(i + 1) % 4]) == Approx(side * mm));
      }
      CHECK(frame[0].x == Approx(frame[2].x));  // top and foot
      CHECK(frame[1].y == Approx(frame[3].y));  // left and right
    }
  }
}

TEST_CASE("the frame is clearly visible: 0.06 of the side, over half a millimetre at 10 mm") {
  // Source: CLP Annex I 1.2.1, "wide enough to be clearly visible"; the share is our own
  for (const Pictogram pictogram : all_ghs) {
    const std::vector<Path> paths = figure_on(page_with(pictogram, 10));
    const double outer = distance(points_of(paths.at(0)).at(0), points_of(paths.at(0)).at(1));
    const double inner = distance(points_of(paths.at(1)).at(0), points_of(paths.at(1)).at(1));
    const double width_mm = (outer - inner) / 2 / mm;
    CHECK(width_mm == Approx(10 * diamond_frame).epsilon(0.001));
    CHECK(width_mm >= 0.5);
  }
}

TEST_CASE("a black symbol on white in a red frame, and nothing else") {
  // Source: CLP Annex I 1.2.1.1, Annex V
  const Colour red{226, 0, 26};
  const Colour white{255, 255, 255};
  const Colour black{0, 0, 0};
  for (const Pictogram pictogram : all_ghs) {
    const std::vector<Path> paths = figure_on(page_with(pictogram, 16));
    REQUIRE(paths.size() > 2);
    CHECK(paths[0].fill == red);
    CHECK(paths[1].fill == white);
    for (std::size_t i = 2; i < paths.size(); ++i) {
      const Colour ink = paths[i].fill ? *paths[i].fill : paths[i].stroke.value().colour;
      CHECK((ink == black || ink == white));
    }
  }
}

TEST_CASE("no symbol touches its frame") {
  // The white inside ends at 0.88 of the way; 0.86 leaves a clear gap.
  for (const Pictogram pictogram : all_ghs) {
    const std::vector<Path> paths = figure_on(page_with(pictogram, 16));
    const std::vector<Point> frame = points_of(paths.at(0));
    for (std::size_t i = 2; i < paths.size(); ++i) {
      for (const Point& point : points_of(paths[i])) CHECK(reach(point, frame) < 0.86);
    }
  }
}

TEST_CASE("signs in a row keep their gap, whatever their kinds") {
  const Page page = page_of(
      {{Pictogram::ghs_corrosion, "corrosion"}, {Pictogram::ghs_exclamation, "exclamation mark"}},
      10);
  const std::vector<Path> paths = figure_on(page);
  double first_right = 0;
  double second_left = 0;
  for (const Path& path : paths) {
    if (path.fill != Colour{226, 0, 26}) continue;
    if (first_right == 0) {
      first_right = points_of(path).at(1).x;
    } else {
      second_left = points_of(path).at(3).x;
    }
  }
  CHECK(second_left > first_right);
  CHECK(second_left - first_right < 5 * mm);
}

TEST_CASE("codes, pictograms and names belong together") {
  std::set<Pictogram> seen;
  for (const char* const code : {"GHS03", "GHS05", "GHS06", "GHS07", "GHS08", "GHS09"}) {
    REQUIRE(pictogram_of(code).has_value());
    seen.insert(*pictogram_of(code));
  }
  CHECK(seen == std::set<Pictogram>(all_ghs.begin(), all_ghs.end()));
  CHECK_FALSE(pictogram_of("GHS01").has_value());
  CHECK_FALSE(is_ghs(Pictogram::gloves));
  CHECK(pictogram_named("ghs_environment") == Pictogram::ghs_environment);
}

}  // namespace
}  // namespace tub::layout
