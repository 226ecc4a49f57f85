// Pages drawn by libharu. Here alone y is turned over: in a PDF it grows upwards.
#include "export/pdf_drawing.h"

#include <fmt/format.h>
#include <hpdf.h>

#include <bitset>
#include <map>
#include <optional>

#include "base/error.h"
#include "export/drawable.h"
#include "export/haru.h"
#include "export/png_reader.h"

namespace tub::exporting {
namespace {

HPDF_REAL real(double value) { return static_cast<HPDF_REAL>(value); }

int object_number(HPDF_Dict dictionary) {
  constexpr HPDF_UINT32 number_bits = 0x00FFFFFF;  // above them libharu keeps the object's kind
  return static_cast<int>(dictionary->header.obj_id & number_bits);
}

/// The faces that a document uses, added when first asked for, and which characters of each.
class Faces {
 public:
  Faces(HaruDocument& document, const FontSet& fonts) : document_(document), fonts_(fonts) {}

  HPDF_Font use(const TextRun& run) {
    const Font& font = fonts_.face(run.face);
    Used& used = faces_[run.face];
    if (used.font == nullptr) used.font = document_.add_face(font);
    for (const char32_t character : drawable(run, font)) used.characters.set(character);
    return used.font;
  }

  std::vector<DrawnFace> drawn() const {
    std::vector<DrawnFace> out;
    for (const auto& [face, used] : faces_)
      out.push_back(
          {face, object_number(used.font), tag(face, fonts_.face(face), used.characters)});
    return out;
  }

 private:
  using Characters = std::bitset<0x10000>;
  struct Used {
    HPDF_Font font = nullptr;
    Characters characters;
  };

  /// A hash of the characters (FNV-1a, 32 bits; from memory) as six capitals.
  static std::string tag(Face face, const Font& font, const Characters& used) {
    std::uint32_t hash = 2166136261U;
    const auto mix = [&hash](std::uint32_t byte) { hash = (hash ^ byte) * 16777619U; };
    mix(face == Face::bold ? 1 : 0);
    for (const char32_t code : font.characters()) {
      if (!used[code]) continue;
      mix(code >> 8);
      mix(code & 0xFF);
    }
    std::string out;
    for (int i = 0; i < 6; ++i, hash /= 26) out += static_cast<char>('A' + hash % 26);
    return out;
  }

  HaruDocument& document_;
  const FontSet& fonts_;
  std::map<Face, Used> faces_;
};

[[noreturn]] void refuse_picture() {
  throw Error(Diagnostic{"a picture cannot be drawn: it is damaged",
                         {},
                         {"drawing a page"},
                         "save it as PNG again",
                         Fault::machine});
}

/// Draws the items of one page, and keeps count of its marked contents.
class PagePainter {
 public:
  PagePainter(HaruDocument& document, HPDF_Page drawn, const Page& page, Faces& faces)
      : document_(document), drawn_(drawn), page_(page), faces_(faces) {}

  /// The element of each marked content.
  std::vector<int> paint() {
    for (const Item& item : page_.items) {
      mark(element_of(item));
      std::visit(*this, item);
    }
    end_mark();
    return std::move(marks_);
  }

  void operator()(const TextRun& run) {
    HPDF_Font font = faces_.use(run);
    fill_with(run.colour);
    HPDF_Page_BeginText(drawn_);
    HPDF_Page_SetFontAndSize(drawn_, font, real(run.size));
    HPDF_Page_SetTextMatrix(drawn_, 1, 0, 0, 1, real(run.origin.x), up(run.origin.y));
    HPDF_Page_ShowText(drawn_, run.text.c_str());
    HPDF_Page_EndText(drawn_);
  }

  void operator()(const Rule& rule) {
    stroke_with({rule.width, rule.colour});
    HPDF_Page_MoveTo(drawn_, real(rule.from.x), up(rule.from.y));
    HPDF_Page_LineTo(drawn_, real(rule.to.x), up(rule.to.y));
    HPDF_Page_Stroke(drawn_);
  }

  void operator()(const Box& box) {
    if (box.stroke) join_lines(HPDF_MITER_JOIN);
    prepare_paint(box.fill, box.stroke);
    HPDF_Page_Rectangle(drawn_, real(box.corner.x), up(box.corner.y + box.height), real(box.width),
                        real(box.height));
    paint_path(box.fill.has_value(), box.stroke.has_value(), false);
  }

  void operator()(const Path& path) {
    if (path.stroke) join_lines(HPDF_ROUND_JOIN);
    prepare_paint(path.fill, path.stroke);
    for (const Segment& segment : path.segments) std::visit(*this, segment);
    paint_path(path.fill.has_value(), path.stroke.has_value(), path.even_odd);
  }

  void operator()(const Image& image) {
    const std::optional<Picture24> picture = read_png(*image.png);
    if (!picture) refuse_picture();
    HPDF_Image loaded = HPDF_LoadRawImageFromMem(
        document_.get(), reinterpret_cast<const HPDF_BYTE*>(picture->rgb.data()),
        static_cast<HPDF_UINT>(picture->width), static_cast<HPDF_UINT>(picture->height),
        HPDF_CS_DEVICE_RGB, 8);
    HPDF_Page_DrawImage(drawn_, loaded, real(image.corner.x), up(image.corner.y + image.height),
                        real(image.width), real(image.height));
  }

  void operator()(const MoveTo& move) { HPDF_Page_MoveTo(drawn_, real(move.to.x), up(move.to.y)); }
  void operator()(const LineTo& line) { HPDF_Page_LineTo(drawn_, real(line.to.x), up(line.to.y)); }
  void operator()(const CurveTo& curve) {
    HPDF_Page_CurveTo(drawn_, real(curve.control1.x), up(curve.control1.y), real(curve.control2.x),
                      up(curve.control2.y), real(curve.to.x), up(curve.to.y));
  }
  void operator()(const ClosePath&) { HPDF_Page_ClosePath(drawn_); }

 private:
  HPDF_REAL up(double y) const { return real(page_.height - y); }

  /// Writes an operator of marked content, for which libharu has no call, between two of its own.
  void write(const std::string& text) {
    HPDF_Stream_WriteStr(static_cast<HPDF_PageAttr>(drawn_->attr)->stream, text.c_str());
  }

  void mark(int element) {
    if (marked_ == element) return;
    end_mark();
    marked_ = element;
    if (element == artifact) {
      write("/Artifact BMC\n");
      return;
    }
    const Element& of = page_.elements.at(static_cast<std::size_t>(element));
    write(fmt::format("/{} <</MCID {}>> BDC\n", structure_type(of), marks_.size()));
    marks_.push_back(element);
  }

  void end_mark() {
    if (marked_) write("EMC\n");
    marked_.reset();
  }

  void fill_with(const Colour& colour) {
    if (fill_ == colour) return;
    fill_ = colour;
    HPDF_Page_SetRGBFill(drawn_, real(colour.red / 255.0), real(colour.green / 255.0),
                         real(colour.blue / 255.0));
  }

  void stroke_with(const Stroke& stroke) {
    if (width_ != stroke.width) HPDF_Page_SetLineWidth(drawn_, real(stroke.width));
    width_ = stroke.width;
    if (line_ == stroke.colour) return;
    line_ = stroke.colour;
    HPDF_Page_SetRGBStroke(drawn_, real(stroke.colour.red / 255.0),
                           real(stroke.colour.green / 255.0), real(stroke.colour.blue / 255.0));
  }

  void join_lines(HPDF_LineJoin join) {
    if (join_ != join) HPDF_Page_SetLineJoin(drawn_, join);
    join_ = join;
  }

  void prepare_paint(const std::optional<Colour>& fill, const std::optional<Stroke>& stroke) {
    if (fill) fill_with(*fill);
    if (stroke) stroke_with(*stroke);
  }

  void paint_path(bool is_filled, bool is_stroked, bool even_odd) {
    if (is_filled && is_stroked)
      even_odd ? HPDF_Page_EofillStroke(drawn_) : HPDF_Page_FillStroke(drawn_);
    else if (is_filled)
      even_odd ? HPDF_Page_Eofill(drawn_) : HPDF_Page_Fill(drawn_);
    else if (is_stroked)
      HPDF_Page_Stroke(drawn_);
    else
      HPDF_Page_EndPath(drawn_);
  }

  HaruDocument& document_;
  HPDF_Page drawn_;
  const Page& page_;
  Faces& faces_;
  std::vector<int> marks_;
  std::optional<int> marked_;   // the element of the open marked content
  std::optional<Colour> fill_;  // what the page's graphics state holds, where it was set
  std::optional<Colour> line_;
  std::optional<double> width_;
  HPDF_LineJoin join_ = HPDF_MITER_JOIN;
};

DrawnPage draw(HaruDocument& document, const Page& page, Faces& faces) {
  HPDF_Page drawn = HPDF_AddPage(document.get());
  HPDF_Page_SetWidth(drawn, real(page.width));
  HPDF_Page_SetHeight(drawn, real(page.height));
  std::vector<int> marks = PagePainter(document, drawn, page, faces).paint();
  document.require_no_error(
      fmt::format("drawing page {} of {} of {}", page.number, page.pages, page.sheet));
  return {object_number(drawn), std::move(marks)};
}

}  // namespace

Drawing draw_pdf(std::span<const Page> pages, const FontSet& fonts) {
  HaruDocument document;
  Faces faces(document, fonts);
  Drawing drawing;
  for (const Page& page : pages) drawing.pages.push_back(draw(document, page, faces));
  drawing.faces = faces.drawn();
  drawing.bytes = document.bytes();
  return drawing;
}

std::string_view structure_type(const Element& element) {
  constexpr std::string_view headings[] = {"H1", "H2", "H3"};
  switch (element.role) {
    case Role::section:
      return "Sect";
    case Role::heading:
      return headings[element.level - 1];
    case Role::paragraph:
      return "P";
    case Role::list:
      return "L";
    case Role::list_item:
      return "LI";
    case Role::label:
      return "Lbl";
    case Role::list_body:
      return "LBody";
    case Role::table:
      return "Table";
    case Role::row:
      return "TR";
    case Role::header_cell:
      return "TH";
    case Role::cell:
      return "TD";
    case Role::figure:
      return "Figure";
    case Role::span:
      return "Span";
  }
  return "";
}

}  // namespace tub::exporting
