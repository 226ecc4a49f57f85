// Styles and stocks as files, and the marks of the channel's scale.
#include "layout/type/style.h"

#include <catch2/catch.hpp>

#include "base/error.h"
#include "base/text.h"
#include "layout/blocks/scale.h"
#include "layout/labels/stock.h"
#include "layout_test.h"

namespace tub::layout {
namespace {

const char* const path = TUB_SOURCE_DIR "/templates/styles/card.json";

TEST_CASE("each setting of the card's style is tighter than the one before, never in the amounts") {
  const Style style = Style::parse(read_file(path), "card.json");
  REQUIRE(style.settings.size() > 2);
  for (std::size_t i = 1; i < style.settings.size(); ++i) {
    const Setting& before = style.settings[i - 1];
    const Setting& after = style.settings[i];
    CHECK(after.lengths.block_space <= before.lengths.block_space);
    CHECK(after.lengths.rung_above <= before.lengths.rung_above);
    CHECK(after.types.figure.size == 44);
    CHECK(after.types.amount.size == 20);
    CHECK(after.types.second_amount.size == 15);
    CHECK(after.types.body.size >= 9);
    CHECK(after.lengths.block_space >= 1.8 * mm - 1e-9);
  }
}

TEST_CASE("a wrong style is refused with every problem at its place") {
  std::string text = read_file(path);
  text = replaced(text, "\"stile\": 0.8", "\"stiel\": 0.8");
  text = replaced(text, "\"#63386E\"", "\"damson\"");
  CHECK_THROWS_WITH(Style::parse(text, "card.json"), Catch::Contains("stiel") &&
                                                         Catch::Contains("stile") &&
                                                         Catch::Contains("expected a colour"));
}

TEST_CASE("stocks have the sizes of their standards") {
  // Source: ISO 216 (A4); ANSI/ASME Y14.1 (Letter, 8.5 by 11 in).
  CHECK(test_stock("a4").width_mm == 210);
  CHECK(test_stock("a4").height_mm == 297);
  CHECK(test_stock("letter").width_mm == Approx(8.5 * 25.4));
  CHECK(test_stock("letter").height_mm == Approx(11 * 25.4));
}

TEST_CASE("inside its target a value stands in proportion, outside clear of the limit") {
  ChannelReading reading;
  reading.low_at = 100;
  reading.high_at = 150;
  reading.plot_low = 0;
  reading.plot_high = 300;
  const Scale scale(reading, ScalePlaces{0, 90, 100, 200, 210, 300});
  CHECK(scale.at(100) == 100);
  CHECK(scale.at(125) == 150);
  CHECK(scale.at(150) == 200);
  CHECK(scale.at(99.999) < 90.001);
  CHECK(scale.at(0) == 0);
  CHECK(scale.at(-5) == 0);
  CHECK(scale.at(300) == 300);
  CHECK(scale.at(1000) == 300);
  CHECK(scale.at(50) == Approx(45));
  CHECK(scale.beyond(301));
  CHECK_FALSE(scale.beyond(300));
}

}  // namespace
}  // namespace tub::layout
