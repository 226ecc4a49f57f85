// Where lines end, over examples and over seeded random texts.
#include "layout/type/lines.h"

#include <catch2/catch.hpp>
#include <random>

#include "base/text.h"
#include "demo_card.h"
#include "layout/pages/checks.h"
#include "layout_test.h"
#include "words_of.h"

namespace tub::layout {
namespace {

/// A context whose misfits can be looked at.
struct Desk {
  Document document = demo_card();
  std::vector<Diagnostic> misfits;
  Context context{test_style().settings.front(), test_fonts(), document, misfits, "the test"};

  std::vector<std::string> lines(const Words& words, double width) {
    std::vector<std::string> texts;
    for (const Line& line : break_lines(words, context.types().body, width, context)) {
      std::string text;
      for (const Mark& mark : line.marks) {
        for (const Item& item : mark.items) {
          if (const TextRun* const run = std::get_if<TextRun>(&item)) text += run->text;
        }
      }
      texts.push_back(text);
    }
    return texts;
  }
  double width(const std::string& text) { return context.width(text, context.types().body); }
};

TEST_CASE("a line that fits exactly is not broken, and the space at a line's end stays in it") {
  Desk desk;
  const double width = desk.width("Pour slowly");
  CHECK(desk.lines(plain("Pour slowly"), width) == std::vector<std::string>{"Pour slowly"});
  CHECK(desk.lines(plain("Pour slowly"), width - 0.01) ==
        std::vector<std::string>{"Pour ", "slowly"});
}

TEST_CASE("a number stays with its unit, a phone number and a range stay whole") {
  Desk desk;
  for (const char* const text :
       {"1340\u202FL", "354\u00A0US\u00A0gal", "555-0142", "97–107", "7K4Q\u2011M2"}) {
    INFO(text);
    CHECK(desk.lines(plain(std::string("go ") + text), 1) == std::vector<std::string>{"go ", text});
  }
}

TEST_CASE("a soft hyphen shows at a break only") {
  Desk desk;
  const Words word = plain("Säure\u00ADkapazität");
  CHECK(desk.lines(word, 500) == std::vector<std::string>{"Säurekapazität"});
  CHECK(desk.lines(word, desk.width("kapazität") + 1) ==
        std::vector<std::string>{"Säure\u00AD", "kapazität"});
  CHECK(desk.misfits.empty());
}

TEST_CASE("a chip is never broken, and keeps to the words that it is joined to") {
  Desk desk;
  const Words words{{Plain{"chlorine "}, Band{"3 to 5"}, Plain{", "}, Plain{"then in"}}, {}};
  CHECK(desk.lines(words, desk.width("chlorine ") + 1) ==
        std::vector<std::string>{"chlorine ", "3 to 5, ", "then in"});
  CHECK(desk.misfits.empty());
}

TEST_CASE("the last line is not a single short word where that can be had") {
  Desk desk;
  const Words words = plain("scatter it over the moving water near a jet");
  const double width = desk.width("scatter it over the moving water near a");
  const std::vector<std::string> lines = desk.lines(words, width);
  REQUIRE(lines.size() == 2);
  CHECK(lines.back() != "jet");
  CHECK(lines.back().find(' ') != std::string::npos);
}

TEST_CASE("what cannot break and is too wide is reported with its place") {
  Desk desk;
  desk.lines(plain("Wasserpflegemittel"), 20);
  REQUIRE(desk.misfits.size() == 1);
  CHECK(desk.misfits[0].where == "the test");
  CHECK(desk.misfits[0].message.find("\"Wasserpflegemittel\" is ") == 0);
}

Words random_words(std::mt19937& random) {
  const auto pick = [&](int count) {
    return static_cast<int>(random() % static_cast<unsigned>(count));
  };
  Words words;
  const int parts = 1 + pick(5);
  for (int p = 0; p < parts; ++p) {
    std::string text;
    for (int w = 1 + pick(8); w > 0; --w) {
      for (int c = 1 + pick(9); c > 0; --c) text += static_cast<char>('a' + pick(26));
      if (pick(6) == 0) text += "\u00ADnis";
      text += ' ';
    }
    const int kind = pick(4);
    if (kind == 0) words.parts.emplace_back(Bold{text});
    if (kind == 1) words.parts.emplace_back(Small{text});
    if (kind == 2) words.parts.emplace_back(Band{std::to_string(pick(900))});
    words.parts.emplace_back(Plain{kind == 2 ? " " + text : text});
  }
  return words;
}

TEST_CASE("whatever the text: no word is lost, no line too long, a narrower column never shorter") {
  std::mt19937 random(20260504);
  for (int round = 0; round < 300; ++round) {
    Desk desk;
    const Words words = random_words(random);
    std::map<std::string, int> in;
    count_words(replaced(text_of(words), "\u00AD", ""), in);
    std::size_t before = 0;
    for (double width = 500; width > 100; width -= 37) {
      std::map<std::string, int> out;
      std::string all;
      for (const std::string& line : desk.lines(words, width)) all += line;
      count_words(replaced(all, "\u00AD", ""), out);
      CHECK(out == in);
      const std::vector<Line> lines =
          break_lines(words, desk.context.types().body, width, desk.context);
      CHECK(lines.size() >= before);
      before = lines.size();
      for (const Line& line : lines) CHECK(line.width <= width + 1e-6);
    }
  }
}

}  // namespace
}  // namespace tub::layout
