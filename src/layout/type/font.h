// The metrics of the prepared faces: what a character's advance is, and which characters there are.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "base/modules.h"

namespace tub::layout {

enum class Face { regular, bold };

/// One prepared TrueType face (1000 units per em, characters of the basic plane). Advances and
/// heights are in 1/1000 em, read from the face's own tables, so that layout and every exporter
/// measure with the same numbers.
class Font {
 public:
  /// Reads cmap, hmtx, hhea, head, OS/2, loca and glyf of a TrueType file.
  ///
  /// name:   for messages: "NotoSans-Regular.ttf"
  /// Throws: Error (the machine's fault) if a table is missing, cut short, or not 1000 units per em
  static Font from_truetype(std::string bytes, const std::string& name);

  bool has(char32_t code_point) const;
  /// In 1/1000 em. REQUIRES: has(code_point)
  int advance(char32_t code_point) const;
  /// The glyph's index in the file. REQUIRES: has(code_point)
  int glyph(char32_t code_point) const;
  /// How far the character's outline reaches below the baseline, in 1/1000 em; 0 if it does not.
  /// REQUIRES: has(code_point)
  int depth(char32_t code_point) const;
  /// All characters of the face, ascending.
  std::vector<char32_t> characters() const;

  int ascent() const { return ascent_; }    ///< typographic, above the baseline
  int descent() const { return descent_; }  ///< typographic, below the baseline, positive
  int cap_height() const { return cap_height_; }
  int x_height() const { return x_height_; }
  const std::string& name() const { return name_; }
  /// The file as it was handed over, for exporters. Copies of a Font share it.
  const std::string& bytes() const { return *bytes_; }

 private:
  struct Glyph {
    std::uint16_t index = 0;  ///< 0: the face lacks the character
    std::uint16_t advance = 0;
    std::uint16_t depth = 0;
  };
  std::string name_;
  std::shared_ptr<const std::string> bytes_;
  std::vector<Glyph> glyphs_;  ///< by character
  int ascent_ = 0;
  int descent_ = 0;
  int cap_height_ = 0;
  int x_height_ = 0;
};

/// The faces that all sheets are set in.
struct FontSet {
  Font regular;
  Font bold;

  const Font& face(Face face) const { return face == Face::bold ? bold : regular; }
};

/// The sum of the advances of a text, in points.
///
/// size:   in points
/// Throws: Error naming the character if the text is not UTF-8 or the face lacks one of its
///         characters
double text_width(const Font& font, std::string_view utf8, double size);
double text_width(const Font& font, std::u32string_view text, double size);

}  // namespace tub::layout
