// Reads the tables of a prepared TrueType face.
// Source: OpenType specification, chapters cmap (format 4), glyf, head, hhea, hmtx, loca, OS/2.
#include "layout/type/font.h"

#include <fmt/format.h>

#include <cstddef>
#include <optional>
#include <utility>

#include "base/error.h"
#include "base/text.h"

namespace tub::layout {
namespace {

[[noreturn]] void fail(const std::string& name, const std::string& what) {
  throw Error(Diagnostic{fmt::format("{} {}", name, what),
                         name,
                         {},
                         "build the prepared faces again",
                         Fault::machine});
}

/// Big-endian numbers at offsets of one table.
class FontTable {
 public:
  FontTable(std::string_view bytes, std::string name) : bytes_(bytes), name_(std::move(name)) {}
  int u16(std::size_t at) const { return byte(at) * 256 + byte(at + 1); }
  int i16(std::size_t at) const { return static_cast<std::int16_t>(u16(at)); }
  std::size_t u32(std::size_t at) const {
    return static_cast<std::size_t>(u16(at)) * 65536 + static_cast<std::size_t>(u16(at + 2));
  }
  FontTable part(std::size_t at, std::size_t length) const {
    if (at > bytes_.size() || length > bytes_.size() - at) fail(name_, "is cut short");
    return {bytes_.substr(at, length), name_};
  }
  FontTable rest(std::size_t at) const { return part(at, at > size() ? 1 : size() - at); }
  std::size_t size() const { return bytes_.size(); }
  std::string tag(std::size_t at) const { return std::string(part(at, 4).bytes_); }
  const std::string& name() const { return name_; }

 private:
  int byte(std::size_t at) const {
    if (at >= bytes_.size()) fail(name_, "is cut short");
    return static_cast<unsigned char>(bytes_[at]);
  }
  std::string_view bytes_;
  std::string name_;
};

/// Throws: Error unless every table of the directory lies in it.
void check_whole(const FontTable& file) {
  const int count = file.u16(4);
  if (count == 0) fail(file.name(), "is no TrueType file");
  for (int i = 0; i < count; ++i) {
    const std::size_t record = 12 + 16 * static_cast<std::size_t>(i);
    file.part(file.u32(record + 8), file.u32(record + 12));
  }
}

FontTable table(const FontTable& file, const std::string& tag) {
  const int count = file.u16(4);
  for (int i = 0; i < count; ++i) {
    const std::size_t record = 12 + 16 * static_cast<std::size_t>(i);
    if (file.tag(record) == tag) return file.part(file.u32(record + 8), file.u32(record + 12));
  }
  fail(file.name(), fmt::format("has no table '{}'", tag));
}

/// The format 4 subtable of the Windows platform, basic plane.
FontTable unicode_map(const FontTable& cmap) {
  const int count = cmap.u16(2);
  for (int i = 0; i < count; ++i) {
    const std::size_t record = 4 + 8 * static_cast<std::size_t>(i);
    const FontTable map = cmap.rest(cmap.u32(record + 4));
    if (cmap.u16(record) == 3 && cmap.u16(record + 2) == 1 && map.u16(0) == 4) return map;
  }
  fail(cmap.name(), "has no character map of format 4");
}

/// One segment of a format 4 map: calls visit(character, glyph) for each character it maps.
template <class Visit>
void visit_segment(const FontTable& map, std::size_t segment, const Visit& visit) {
  const std::size_t twice = static_cast<std::size_t>(map.u16(6));
  const std::size_t end_at = 14 + 2 * segment;
  const std::size_t start_at = end_at + twice + 2;
  const std::size_t delta_at = start_at + twice;
  const std::size_t offset_at = delta_at + twice;
  const int start = map.u16(start_at);
  const int offset = map.u16(offset_at);
  for (int c = start; c <= map.u16(end_at) && c < 0xFFFF; ++c) {
    int glyph = c;
    if (offset != 0) {
      glyph = map.u16(offset_at + static_cast<std::size_t>(offset + 2 * (c - start)));
      if (glyph == 0) continue;
    }
    visit(c, (glyph + map.u16(delta_at)) & 0xFFFF);
  }
}

/// How far each glyph's outline reaches below the baseline.
class GlyphDepths {
 public:
  explicit GlyphDepths(const FontTable& file)
      : loca_(table(file, "loca")),
        glyf_(table(file, "glyf")),
        is_long_(table(file, "head").i16(50) != 0) {}
  int of(int glyph) const {
    const std::size_t at = offset(glyph);
    if (at == offset(glyph + 1)) return 0;  // nothing to draw
    const int lowest = glyf_.i16(at + 4);
    return lowest < 0 ? -lowest : 0;
  }

 private:
  std::size_t offset(int glyph) const {
    const std::size_t row = static_cast<std::size_t>(glyph);
    return is_long_ ? loca_.u32(4 * row) : 2 * static_cast<std::size_t>(loca_.u16(2 * row));
  }
  FontTable loca_;
  FontTable glyf_;
  bool is_long_;
};

}  // namespace

Font Font::from_truetype(std::string bytes, const std::string& name) {
  Font font;
  font.name_ = name;
  font.bytes_ = std::make_shared<const std::string>(std::move(bytes));
  const FontTable file(*font.bytes_, name);
  check_whole(file);
  if (table(file, "head").u16(18) != 1000) fail(name, "does not have 1000 units per em");
  const FontTable os2 = table(file, "OS/2");
  font.ascent_ = os2.i16(68);
  font.descent_ = -os2.i16(70);
  font.x_height_ = os2.i16(86);
  font.cap_height_ = os2.i16(88);
  const FontTable metrics = table(file, "hmtx");
  const int long_metrics = table(file, "hhea").u16(34);
  if (long_metrics == 0) fail(name, "has no advances");
  const FontTable map = unicode_map(table(file, "cmap"));
  const GlyphDepths depths(file);
  const auto set = [&](int character, int glyph) {
    const int row = glyph < long_metrics ? glyph : long_metrics - 1;
    const std::size_t at = static_cast<std::size_t>(character);
    if (font.glyphs_.size() <= at) font.glyphs_.resize(at + 1);
    font.glyphs_[at] = {static_cast<std::uint16_t>(glyph),
                        static_cast<std::uint16_t>(metrics.u16(4 * static_cast<std::size_t>(row))),
                        static_cast<std::uint16_t>(depths.of(glyph))};
  };
  const std::size_t segments = static_cast<std::size_t>(map.u16(6)) / 2;
  for (std::size_t i = 0; i < segments; ++i) visit_segment(map, i, set);
  return font;
}

bool Font::has(char32_t code_point) const {
  return code_point < glyphs_.size() && glyphs_[code_point].index != 0;
}

int Font::advance(char32_t code_point) const { return glyphs_.at(code_point).advance; }

int Font::glyph(char32_t code_point) const { return glyphs_.at(code_point).index; }

int Font::depth(char32_t code_point) const { return glyphs_.at(code_point).depth; }

std::vector<char32_t> Font::characters() const {
  std::vector<char32_t> all;
  for (std::size_t c = 0; c < glyphs_.size(); ++c) {
    if (glyphs_[c].index != 0) all.push_back(static_cast<char32_t>(c));
  }
  return all;
}

double text_width(const Font& font, std::u32string_view text, double size) {
  int units = 0;
  for (const char32_t c : text) {
    if (!font.has(c)) {
      throw Error(
          Diagnostic{fmt::format("the fonts have no character '{}' ({}), which stands in \"{}\"",
                                 to_utf8(c), code_point_name(c), to_utf8(text)),
                     {},
                     {},
                     "write it with other characters"});
    }
    units += font.advance(c);
  }
  return units * size / 1000;
}

double text_width(const Font& font, std::string_view utf8, double size) {
  const std::optional<std::u32string> text = code_points(utf8);
  if (!text) throw Error(Diagnostic{"a text is not well-formed UTF-8", {}, {}, {}});
  return text_width(font, *text, size);
}

}  // namespace tub::layout
