// UTF-8, numbers as text, nearest names.
#include "base/text.h"

#include <catch2/catch.hpp>

#include "base/nearest.h"

TEST_CASE("well-formed UTF-8 goes there and back, other bytes do not") {
  const std::string text = "pH 7,4–7,6 ≤ 40 °C 𝄞";
  CHECK(tub::to_utf8(*tub::code_points(text)) == text);
  for (const char* bad : {"\xC0\x80", "\xED\xA0\x80", "\xF4\x90\x80\x80", "\xE2\x82", "\xFF"}) {
    CHECK_FALSE(tub::code_points(bad));
  }
}

// Unicode 15, chapter 23.1 (controls), UAX 9 (bidirectional formatting) and the character database:
// the code points and their categories.
TEST_CASE("what would steer a terminal is shown as its code point, and letters as they are") {
  CHECK(tub::visible("\x1b[2J") == "<U+001B>[2J");
  CHECK(tub::visible("a\r\n\tb\x7f") == "a<U+000D><U+000A><U+0009>b<U+007F>");
  CHECK(tub::visible("\u009b31m") == "<U+009B>31m");
  CHECK(tub::visible(std::string("a\0b", 3)) == "a<U+0000>b");
  for (const char32_t c :
       {0x061CU, 0x200EU, 0x200FU, 0x202AU, 0x202BU, 0x202CU, 0x202DU, 0x202EU, 0x2066U, 0x2067U,
        0x2068U, 0x2069U, 0x200BU, 0x2028U, 0x2029U, 0xFEFFU, 0xE0041U, 0xE000U, 0xFFFEU}) {
    CHECK(tub::visible(tub::to_utf8(c)) == "<" + tub::code_point_name(c) + ">");
  }
  CHECK(tub::visible("caf\xC3") == "caf<byte C3>");
  CHECK(tub::visible("\x9b") == "<byte 9B>");
  for (const char* const plain : {"pH 7,4–7,6 ≤ 40 °C 𝄞", "Grüße, señor", "1\u00A0340 L", ""}) {
    CHECK(tub::visible(plain) == plain);
  }
}

// Unicode Standard Annex 15, Unicode Normalization Forms, figures 3 and 4.
TEST_CASE("an accent that is typed apart is the letter that has it") {
  CHECK(tub::composed("cafe\u0301") == "caf\u00E9");
  CHECK(tub::composed("caf\u00E9") == "caf\u00E9");
  CHECK(tub::composed("\u212B") == "\u00C5");
  CHECK(tub::composed("s\u0323\u0307") == "\u1E69");
  CHECK(tub::composed("s\u0307\u0323") == "\u1E69");
  // Compatibility is another matter: a superscript stays one.
  CHECK(tub::composed("m\u00B3 \u00B5S") == "m\u00B3 \u00B5S");
  CHECK(tub::composed("e\u0301\xFF") == "e\u0301\xFF");
}

TEST_CASE("blanks of every kind are blank, and a letter among them is not") {
  CHECK(tub::is_all_blank(U""));
  CHECK(tub::is_all_blank(U" \t\u00A0\u2003\u202F\u3000\u2800\u3164\u200B"));
  CHECK_FALSE(tub::is_all_blank(U"\u00A0x"));
  CHECK_FALSE(tub::is_all_blank(U"–"));
}

TEST_CASE("a number is written as the shortest text that reads back") {
  CHECK(tub::shortest(0.1) == "0.1");
  CHECK(tub::shortest(1340) == "1340");
  CHECK(*tub::to_number(tub::shortest(1.0 / 3)) == 1.0 / 3);
  CHECK(tub::fixed(-0.04, 1) == "0.0");
  CHECK(tub::fixed(7.46, 1) == "7.5");
  CHECK_FALSE(tub::to_number("7.5 "));
  CHECK_FALSE(tub::to_number("nan"));
}

TEST_CASE("the nearest name is the one that a person meant") {
  const std::vector<std::string> known = {"sodium_bicarbonate", "soda_ash", "dry_acid"};
  CHECK(tub::edit_distance("hte", "the") == 1);
  CHECK(tub::nearest("sodium_bicarbonat", known) == "sodium_bicarbonate");
  CHECK(tub::nearest("bicarbonate", known) == "sodium_bicarbonate");
  CHECK(tub::nearest("dry acid", known) == "dry_acid");
  CHECK(tub::nearest("xyz", known).empty());
}

TEST_CASE("a long row of accents is not sorted, which would take its number squared") {
  std::string text = "e";
  for (int i = 0; i < 100000; ++i) text += "\u0301";
  for (int i = 0; i < 100000; ++i) text += "\u0316";
  CHECK(tub::composed(text) == text);
}

TEST_CASE("a count is written with its thousands apart") {
  CHECK(tub::in_thousands(0) == "0");
  CHECK(tub::in_thousands(999) == "999");
  CHECK(tub::in_thousands(19990) == "19,990");
  CHECK(tub::in_thousands(1048576) == "1,048,576");
}

TEST_CASE("a long text is shown by its beginning, cut between two characters") {
  CHECK(tub::shortened(std::string(60, 'x')) == std::string(60, 'x'));
  CHECK(tub::shortened(std::string(61, 'x')) == std::string(57, 'x') + "…");
  CHECK(tub::shortened(std::string(56, 'x') + "ééé") == std::string(56, 'x') + "…");
}
