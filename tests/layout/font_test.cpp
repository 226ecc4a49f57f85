// The prepared faces: their characters, and advances against figures measured elsewhere.
#include "layout/type/font.h"

#include <catch2/catch.hpp>

#include "base/error.h"
#include "layout_test.h"

namespace tub::layout {
namespace {

int units(const Font& font, std::string_view text) {
  return static_cast<int>(text_width(font, text, 1000) + 0.5);
}

TEST_CASE("advances are those of the face's designers, without kerning") {
  const Font& regular = test_fonts().regular;
  // Source: HarfBuzz with kerning off, on Noto Sans Regular 2.004 of Debian 12.
  CHECK(units(regular, "AVATAR To Wa. office") == 9990);
  CHECK(units(regular, "\u202F") == 166);
  CHECK(units(regular, "\u2009") == 166);
  CHECK(units(regular, "\u00A0") == 260);
  CHECK(units(regular, "\u2007") == 572);
  CHECK(units(regular, "\u2011") == 322);
  // The same on Noto Sans Math, which lends these glyphs.
  CHECK(units(regular, "\u2212") == 572);
  CHECK(units(regular, "\u2264") == 572);
}

TEST_CASE("figures are all of one width, so that columns of numbers align") {
  for (const Face face : {Face::regular, Face::bold}) {
    const Font& font = test_fonts().face(face);
    for (char32_t digit = U'0'; digit <= U'9'; ++digit) {
      CHECK(font.advance(digit) == font.advance(U'0'));
    }
  }
}

TEST_CASE("both faces hold the same characters, those of four languages among them") {
  const FontSet& fonts = test_fonts();
  CHECK(fonts.regular.characters() == fonts.bold.characters());
  for (const char32_t c :
       std::u32string(U"ÄÖÜäöüßẞéèêëçœŒñÑ¿¡áíóúàùâîôûïÿ‰€°µ×÷±≤≥−–—…·½¼¾⅓⅔→☐✓⚠")) {
    INFO(static_cast<unsigned>(c));
    CHECK(fonts.regular.has(c));
  }
}

TEST_CASE("the height of small letters is what the sizes of label statements reckon with") {
  // Source: x-height of Noto Sans, OS/2 table: 536 of 1000 units.
  CHECK(test_fonts().regular.x_height() == 536);
}

TEST_CASE("a character that the faces lack is named") {
  CHECK_THROWS_WITH(text_width(test_fonts().regular, "tub 浴", 9.5),
                    Catch::Contains("'浴' (U+6D74)") && Catch::Contains("\"tub 浴\""));
}

TEST_CASE("a file that is no face is refused, not read past its end") {
  const std::string& whole = test_fonts().regular.bytes();
  CHECK_THROWS_AS(Font::from_truetype("", "empty"), Error);
  CHECK_THROWS_AS(Font::from_truetype("no font at all, just text", "text"), Error);
  for (std::size_t length = 0; length < whole.size(); length += 97) {
    CHECK_THROWS_AS(Font::from_truetype(whole.substr(0, length), "cut"), Error);
  }
}

}  // namespace
}  // namespace tub::layout
