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
