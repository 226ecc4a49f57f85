// Draws a finished page on a Cairo context.
#include "export/cairo_page.h"

#include <cairo.h>
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <new>
#include <vector>

#include "base/error.h"
#include "export/cairo_faces.h"
#include "export/cairo_handles.h"
#include "export/drawable.h"
#include "export/png_reader.h"

namespace tub::exporting {
namespace {

/// Both ends of something along one axis, in points.
struct Span {
  double low = 0;
  double high = 0;
};

Span around(double middle, double width) { return {middle - width / 2, middle + width / 2}; }

void add_segments(cairo_t* context, const std::vector<Segment>& segments) {
  struct Visitor {
    cairo_t* context;
    void operator()(const MoveTo& move) const { cairo_move_to(context, move.to.x, move.to.y); }
    void operator()(const LineTo& line) const { cairo_line_to(context, line.to.x, line.to.y); }
    void operator()(const CurveTo& curve) const {
      cairo_curve_to(context, curve.control1.x, curve.control1.y, curve.control2.x,
                     curve.control2.y, curve.to.x, curve.to.y);
    }
    void operator()(const ClosePath&) const { cairo_close_path(context); }
  };
  for (const Segment& segment : segments) std::visit(Visitor{context}, segment);
}

std::vector<cairo_glyph_t> glyphs(const TextRun& run, const Font& font) {
  std::vector<cairo_glyph_t> out;
  int along = 0;  // in 1/1000 em
  for (const char32_t character : drawable(run, font)) {
    out.push_back({static_cast<unsigned long>(font.glyph(character)),
                   run.origin.x + along * run.size / 1000, run.origin.y});
    along += font.advance(character);
  }
  return out;
}

class Painter {
 public:
  Painter(cairo_t* context, const FontSet& fonts, Raster raster)
      : context_(context),
        fonts_(fonts),
        raster_(raster),
        regular_(cairo_face(fonts.regular)),
        bold_(cairo_face(fonts.bold)) {}

  void operator()(const TextRun& run) const {
    const std::vector<cairo_glyph_t> placed = glyphs(run, fonts_.face(run.face));
    const auto count = static_cast<int>(placed.size());
    use(run.colour);
    cairo_set_font_face(context_, run.face == Face::bold ? bold_.get() : regular_.get());
    cairo_set_font_size(context_, run.size);
    if (raster_ == Raster::none) {
      cairo_show_glyphs(context_, placed.data(), count);
    } else {
      cairo_glyph_path(context_, placed.data(), count);
      cairo_fill(context_);
    }
  }

  void operator()(const Rule& rule) const {
    use(rule.colour);
    if (raster_ == Raster::dots && rule.from.y == rule.to.y) {
      fill(on_dots(std::minmax(rule.from.x, rule.to.x)), on_dots(around(rule.from.y, rule.width)));
    } else if (raster_ == Raster::dots && rule.from.x == rule.to.x) {
      fill(on_dots(around(rule.from.x, rule.width)), on_dots(std::minmax(rule.from.y, rule.to.y)));
    } else {
      cairo_move_to(context_, rule.from.x, rule.from.y);
      cairo_line_to(context_, rule.to.x, rule.to.y);
      cairo_set_line_width(context_, rule.width);
      cairo_stroke(context_);
    }
  }

  void operator()(const Box& box) const {
    const Span x{box.corner.x, box.corner.x + box.width};
    const Span y{box.corner.y, box.corner.y + box.height};
    if (box.fill) {
      use(*box.fill);
      fill(on_dots(x), on_dots(y));
    }
    if (box.stroke) frame(x, y, *box.stroke);
  }

  void operator()(const Image& image) const {
    const Surface picture = surface_of_png(*image.png);
    const double across = cairo_image_surface_get_width(picture.get());
    const double down = cairo_image_surface_get_height(picture.get());
    cairo_save(context_);
    cairo_translate(context_, image.corner.x, image.corner.y);
    cairo_scale(context_, image.width / across, image.height / down);
    cairo_set_source_surface(context_, picture.get(), 0, 0);
    cairo_pattern_set_filter(cairo_get_source(context_), CAIRO_FILTER_BEST);
    cairo_paint(context_);
    cairo_restore(context_);
  }

  void operator()(const Path& path) const {
    if (path.grid && raster_ == Raster::dots) {
      add_segments(context_, on_dots(path.segments, *path.grid));
    } else {
      add_segments(context_, path.segments);
    }
    cairo_set_fill_rule(context_,
                        path.even_odd ? CAIRO_FILL_RULE_EVEN_ODD : CAIRO_FILL_RULE_WINDING);
    if (path.fill) {
      use(*path.fill);
      cairo_fill_preserve(context_);
    }
    if (path.stroke) {
      cairo_set_line_join(context_, CAIRO_LINE_JOIN_ROUND);
      stroke(*path.stroke);
    }
    cairo_new_path(context_);
    cairo_set_fill_rule(context_, CAIRO_FILL_RULE_WINDING);
  }

 private:
  void use(const Colour& colour) const {
    cairo_set_source_rgb(context_, colour.red / 255.0, colour.green / 255.0, colour.blue / 255.0);
  }

  void stroke(const Stroke& stroke) const {
    use(stroke.colour);
    cairo_set_line_width(context_, stroke.width);
    cairo_stroke(context_);
    cairo_set_line_join(context_, CAIRO_LINE_JOIN_MITER);
  }

  void fill(Span x, Span y) const {
    cairo_rectangle(context_, x.low, y.low, x.high - x.low, y.high - y.low);
    cairo_fill(context_);
  }

  void frame(Span x, Span y, const Stroke& edge) const {
    if (raster_ != Raster::dots) {
      cairo_rectangle(context_, x.low, y.low, x.high - x.low, y.high - y.low);
      stroke(edge);
      return;
    }
    const Span left = on_dots(around(x.low, edge.width));
    const Span right = on_dots(around(x.high, edge.width));
    const Span top = on_dots(around(y.low, edge.width));
    const Span bottom = on_dots(around(y.high, edge.width));
    use(edge.colour);
    fill(left, {top.low, bottom.high});
    fill(right, {top.low, bottom.high});
    fill({left.low, right.high}, top);
    fill({left.low, right.high}, bottom);
  }

  /// The segments with the grid's corner on a whole dot, and its squares as many whole dots wide as
  /// come nearest, at least one.
  std::vector<Segment> on_dots(std::vector<Segment> segments, const Grid& grid) const {
    const Span column = on_dots(Span{grid.corner.x, grid.corner.x + grid.pitch});
    const Span row = on_dots(Span{grid.corner.y, grid.corner.y + grid.pitch});
    const auto moved = [&grid](double place, double corner, Span square) {
      return square.low + std::round((place - corner) / grid.pitch) * (square.high - square.low);
    };
    const auto move = [&](Point& point) {
      point = {moved(point.x, grid.corner.x, column), moved(point.y, grid.corner.y, row)};
    };
    for (Segment& segment : segments) {
      if (auto* begin = std::get_if<MoveTo>(&segment)) move(begin->to);
      if (auto* line = std::get_if<LineTo>(&segment)) move(line->to);
    }
    return segments;
  }

  Span on_dots(std::pair<double, double> ends) const {
    return on_dots(Span{ends.first, ends.second});
  }

  /// On a surface of dots: begins on a whole dot, as many whole dots wide as come nearest, at
  /// least one. Elsewhere unchanged.
  Span on_dots(Span span) const {
    if (raster_ != Raster::dots) return span;
    double dot = 1;
    double down = 1;
    cairo_device_to_user_distance(context_, &dot, &down);
    const double low = std::round(span.low / dot);
    return {low * dot, (low + std::max(1.0, std::round((span.high - span.low) / dot))) * dot};
  }

  cairo_t* context_;
  const FontSet& fonts_;
  Raster raster_;
  CairoFace regular_;
  CairoFace bold_;
};

/// Outlines as they are: no hinting of shapes or metrics.
void set_unhinted(cairo_t* context) {
  cairo_font_options_t* options = cairo_font_options_create();
  cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
  cairo_set_font_options(context, options);
  cairo_font_options_destroy(options);
}

}  // namespace

void draw_page(cairo_t* context, const Page& page, const FontSet& fonts, Raster raster) {
  set_unhinted(context);
  // Where a dot is black or white, sixteen shades of an edge do.
  if (raster == Raster::dots) cairo_set_antialias(context, CAIRO_ANTIALIAS_FAST);
  const Painter painter(context, fonts, raster);
  for (const Item& item : page.items) std::visit(painter, item);
  require_success(cairo_status(context), page);
}

void require_success(int cairo_status, const Page& page) {
  if (cairo_status == CAIRO_STATUS_SUCCESS) return;
  if (cairo_status == CAIRO_STATUS_NO_MEMORY) throw std::bad_alloc();
  throw Error(Diagnostic{
      .message = fmt::format("page {} of {} cannot be drawn: {}", page.number, page.sheet,
                             cairo_status_to_string(static_cast<cairo_status_t>(cairo_status))),
      .where = {},
      .trace = {"drawing a page with Cairo"},
      .help = {},
      .fault = Fault::machine});
}

}  // namespace tub::exporting
