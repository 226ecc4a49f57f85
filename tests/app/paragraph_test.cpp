#include "app/paragraph.h"

#include <catch2/catch.hpp>

using namespace tub;
using namespace tub::app;

TEST_CASE("a paragraph is folded between words and set in below its head") {
  CHECK(paragraph("1.  ", "Fill to the marked line.", 16) == "1.  Fill to the\n    marked line.\n");
  CHECK(paragraph("", "word", 2) == "word\n");
}

TEST_CASE("a column is a character, however many bytes it has") {
  CHECK(columns_of("27 °C") == 5);
  CHECK(padded("°", 3) == "°  ");
  CHECK(padded("long", 2) == "long");
}

TEST_CASE("a tidy number has no zeros at its end and no minus before nothing") {
  CHECK(tidy(7.50, 2) == "7.5");
  CHECK(tidy(100, 0) == "100");
  CHECK(tidy(100, 2) == "100");
  CHECK(tidy(-0.04, 1) == "0");
}
