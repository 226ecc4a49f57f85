// Hand-made pages and files that the export tests share.
#include "export_test.h"

#include <fstream>
#include <sstream>
#include <stdexcept>

namespace tub::exporting {
namespace {

constexpr Colour black{0, 0, 0};
constexpr Colour band{212, 212, 212};
constexpr Colour damson{99, 56, 110};
constexpr Colour mandatory_blue{0, 83, 135};

Element heading(int level) {
  Element made = Element::heading(level);
  made.parent = 0;
  return made;
}

Element header(int parent) { return Element::of(Role::header_cell, parent); }

Element row_header(int parent) {
  Element made = header(parent);
  made.scope = Element::Scope::row;
  return made;
}

Element spanning(int columns, Element made) {
  made.columns = columns;
  return made;
}

Element in_language(Element made, std::string language) {
  made.language = std::move(language);
  return made;
}

class PageMaker {
 public:
  PageMaker(double width, double height, std::string language) {
    page_.width = width;
    page_.height = height;
    page_.sheet = "startup_card";
    page_.title = "Garden tub & \u201Cspa\u201D <A>";
    page_.language = std::move(language);
    page_.elements.push_back(Element::of(Role::section, -1));
  }

  int add(Element added) {
    page_.elements.push_back(std::move(added));
    return static_cast<int>(page_.elements.size()) - 1;
  }
  int add(Role role, int parent = 0) { return add(Element::of(role, parent)); }

  void draw(Item item) { page_.items.push_back(std::move(item)); }

  void set(int element, Point origin, double size, std::string text, Face face = Face::regular) {
    const double width = text_width(test_fonts().face(face), text, size);
    draw(TextRun{face, size, origin, width, std::move(text), black, element});
  }

  Page finish() { return std::move(page_); }

 private:
  Page page_;
};

void add_head(PageMaker& page) {
  const int kind = page.add(heading(1));
  page.set(kind, {39.69, 50.5}, 20, "Garden tub, 14 Quince Row", Face::bold);
  page.set(page.add(Role::paragraph), {400.125, 60.0625}, 44, "1340\u202FL", Face::bold);
  page.draw(Rule{{39.69, 70}, {555.59, 70}, 2.27, damson, artifact});
}

void add_paragraph(PageMaker& page) {
  const int paragraph = page.add(Role::paragraph);
  page.set(paragraph, {39.69, 90}, 9.5,
           "Pour \u00BD of it, wait 20\u202Fmin, test; 5\u20138\u202F\u00B0C \u2192 ");
  page.set(paragraph, {39.69, 102}, 9.5,
           "\u2264\u202F3 \u00D7 2 \u2212 1 is fine, and a very long Saure\u00AD");
  page.set(paragraph, {39.69, 114}, 9.5, "kapazitat follows; office affix AVATAR To Wa.");
  const int german = page.add(in_language(Element::of(Role::paragraph, 0), "de"));
  page.set(german, {39.69, 130}, 9, "Gr\u00F6\u00DFe: \u201Eweich\u201C");
}

void add_list(PageMaker& page) {
  const int list = page.add(Role::list);
  const int item = page.add(Role::list_item, list);
  page.set(page.add(Role::label, item), {39.69, 150}, 17, "2", Face::bold);
  const int body = page.add(Role::list_body, item);
  const int tick = page.add(Element::figure("tick when done", body));
  page.draw(Box{{60, 138}, 17, 17, {}, Stroke{0.99, black}, tick});
  page.set(page.add(Role::span, body), {82, 150}, 20, "90\u202Fg ", Face::bold);
  page.set(page.add(Role::span, body), {130, 150}, 9.5, "6 level tablespoons");
}

void add_table(PageMaker& page) {
  const int table = page.add(Role::table);
  const int head = page.add(Role::row, table);
  const int first = page.add(header(head));
  page.set(first, {39.69, 180}, 8.5, "reading");
  const int second = page.add(spanning(2, header(head)));
  page.set(second, {150, 180}, 8.5, "target");
  const int row = page.add(Role::row, table);
  const int name = page.add(row_header(row));
  page.draw(Box{{39.69, 184}, 300, 14, band, {}, artifact});
  page.set(name, {39.69, 194}, 9.5, "pH");
  page.set(page.add(Role::cell, row), {150, 194}, 9.5, "7.2\u20137.8", Face::bold);
  page.set(page.add(Role::cell, row), {220, 194}, 9.5, "in \"quotes\" and \\");
}

void add_sign(PageMaker& page) {
  const int sign = page.add(Element::figure("wear gloves (\u201Cnitrile\u201D)", 0));
  const double k = 15.6 * 0.5522847498;  // a circle by four cubics
  const Point c{60, 230};
  const double r = 15.6;
  page.draw(
      Path{{MoveTo{{c.x + r, c.y}}, CurveTo{{c.x + r, c.y + k}, {c.x + k, c.y + r}, {c.x, c.y + r}},
            CurveTo{{c.x - k, c.y + r}, {c.x - r, c.y + k}, {c.x - r, c.y}},
            CurveTo{{c.x - r, c.y - k}, {c.x - k, c.y - r}, {c.x, c.y - r}},
            CurveTo{{c.x + k, c.y - r}, {c.x + r, c.y - k}, {c.x + r, c.y}}, ClosePath{}},
           mandatory_blue,
           {},
           false,
           sign});
  page.draw(Path{{MoveTo{{52, 230}}, LineTo{{58, 236}}, LineTo{{70, 222}}},
                 {},
                 Stroke{1.98, Colour{255, 255, 255}},
                 false,
                 sign});
  page.draw(Path{
      {MoveTo{{90, 215}}, LineTo{{120, 215}}, LineTo{{120, 245}}, LineTo{{90, 245}}, ClosePath{},
       MoveTo{{95, 220}}, LineTo{{115, 220}}, LineTo{{115, 240}}, LineTo{{95, 240}}, ClosePath{}},
      black,
      {},
      true,
      artifact});
}

}  // namespace

std::string read_file(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) throw std::runtime_error("cannot read " + path);
  std::ostringstream bytes;
  bytes << file.rdbuf();
  return bytes.str();
}

const FontSet& test_fonts() {
  static const auto face = [](const std::string& name) {
    return Font::from_truetype(read_file(TUB_BINARY_DIR "/share/tubwright/fonts/" + name), name);
  };
  static const FontSet fonts{face("NotoSans-Regular.ttf"), face("NotoSans-Bold.ttf")};
  return fonts;
}

const PdfResources& test_resources() {
  static const PdfResources resources = read_pdf_resources([](const std::string& name) {
    return read_file(TUB_BINARY_DIR "/share/tubwright/pdf/" + name);
  });
  return resources;
}

Page sample_page() {
  PageMaker maker(595.2756, 841.8898, "en");
  add_head(maker);
  add_paragraph(maker);
  add_list(maker);
  add_table(maker);
  add_sign(maker);
  maker.set(artifact, {39.69, 822}, 7.5, "7K4Q-M2");
  return maker.finish();
}

std::vector<Page> sample_pages() {
  PageMaker maker(297.638, 419.528, "es");
  const int title = maker.add(heading(1));
  maker.set(title, {20, 40}, 12, "Ba\u00F1era del jard\u00EDn", Face::bold);
  Page second = maker.finish();
  second.trim = Area{{6, 6}, second.width - 12, second.height - 12};
  second.bleed = Area{{4, 4}, second.width - 8, second.height - 8};
  Page first = sample_page();
  first.pages = second.pages = second.number = 2;
  return {first, second};
}

std::string sample_pdf(std::span<const Page> pages) {
  return to_pdf(pages, test_fonts(), test_resources(),
                {.title = "Garden tub & \u201Cspa\u201D <A> (B",
                 .language = "en",
                 .author = "Thrushwater T\u00FCbs",
                 .subject = "Startup card \\ for a 1340\u202FL tub",
                 .keywords = "7K4Q-M2",
                 .date = {2026, 5, 4},
                 .producer = "tubwright 0.1.0"});
}

}  // namespace tub::exporting
