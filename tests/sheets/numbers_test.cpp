// Numbers as people read them. The expected texts are the house's typographic rules, by hand.
#include "sheets/template/numbers.h"

#include <catch2/catch.hpp>

namespace {

const tub::sheets::NumberStyle english;
const tub::sheets::NumberStyle german = {",", "\u202F", 1};

}  // namespace

TEST_CASE("a number prints no more digits than its test shows") {
  struct Row {
    double value;
    tub::sheets::Decimals decimals;
    const char* text;
  };
  const Row rows[] = {
      {7.4, {1, 1}, "7.4"},
      {7, {1, 1}, "7.0"},
      {84.7312, {0, 0}, "85"},
      {0.5, {0, 2}, "0.5"},
      {0.25, {0, 2}, "0.25"},
      {3, {0, 1}, "3"},
      {1340, {0, 0}, "1340"},
      {12500, {0, 0}, "12\u202F500"},
      {1234567, {0, 0}, "1\u202F234\u202F567"},
      {-3.5, {0, 1}, "\u22123.5"},
      {-0.04, {1, 1}, "0.0"},
      {0, {0, 1}, "0"},
      {99.96, {0, 1}, "100"},
  };
  for (const Row& row : rows)
    CHECK(tub::sheets::number_text(row.value, row.decimals, english) == row.text);
  CHECK(tub::sheets::number_text(0.5, {0, 1}, german) == "0,5");
}

TEST_CASE("a range has an en dash and the same decimals at both ends") {
  CHECK(tub::sheets::range_text({7.4, 7.6}, {1, 1}, english) == "7.4–7.6");
  CHECK(tub::sheets::range_text({3, 3.3}, {0, 1}, english) == "3.0–3.3");
  CHECK(tub::sheets::range_text({3, 5}, {0, 1}, english) == "3–5");
  CHECK(tub::sheets::range_text({3, 3}, {0, 1}, english) == "3");
  CHECK(tub::sheets::range_text({97.4, 106.6}, {0, 0}, english) == "97–107");
  CHECK(tub::sheets::range_text({1.5, 2}, {0, 1}, german) == "1,5–2,0");
}

TEST_CASE("spoons are counted in fractions, mixed numbers without a space") {
  CHECK(tub::sheets::count_text(6, english) == "6");
  CHECK(tub::sheets::count_text(1.5, english) == "1½");
  CHECK(tub::sheets::count_text(0.25, english) == "¼");
  CHECK(tub::sheets::count_text(2.75, english) == "2¾");
  CHECK(tub::sheets::count_text(1.0 / 3, english) == "⅓");
  CHECK(tub::sheets::count_text(1.999, english) == "2");
  CHECK(tub::sheets::count_text(0.1, english) == "0.1");
  CHECK(tub::sheets::count_text(0, english) == "0");
}

TEST_CASE("a printed range holds the range that was predicted") {
  CHECK(tub::sheets::rounded_outward({105.2, 118.7}, 0) == tub::Range{105, 119});
  CHECK(tub::sheets::rounded_outward({7.4, 7.6}, 1) == tub::Range{7.4, 7.6});
  CHECK(tub::sheets::rounded_outward({3.02, 3.29}, 1) == tub::Range{3, 3.3});
}
