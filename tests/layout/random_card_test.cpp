// Laws of layout over seeded random cards: whatever the words, nothing is lost and nothing touches.
#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

#include "base/error.h"
#include "demo_card.h"
#include "layout/pages/checks.h"
#include "layout/pages/lay_out.h"
#include "layout_test.h"
#include "words_of.h"

namespace tub::layout {
namespace {

/// Words, amounts and steps by chance.
class CardMaker {
 public:
  explicit CardMaker(unsigned seed) : random_(seed) {}

  Document make() {
    Document document = demo_card();
    std::get<Masthead>(document.blocks[0].content).title = plain(text(1 + pick(6)));
    std::get<Signs>(document.blocks[2].content).text = plain(text(5 + pick(40)));
    std::get<Notice>(document.blocks[3].content).text = plain(text(3 + pick(30)));
    make_readings(std::get<Channel>(document.blocks[1].content));
    auto& ladder = std::get<Ladder>(document.blocks[4].content);
    ladder.rungs.clear();
    const int steps = 1 + pick(8);
    for (int i = 0; i < steps; ++i) ladder.rungs.push_back(rung(i + 1));
    return document;
  }

 private:
  int pick(int count) { return static_cast<int>(random_() % static_cast<unsigned>(count)); }
  double share() { return pick(1000) / 999.0; }

  std::string word() {
    static const char* const words[] = {
        "bicarbonate", "pH", "acid",  "Säure\u00ADkapazität", "à",     "leicht",  "über",
        "granules",    "½",  "water", "20\u202Fmin",          "Émile", "slowly,", "jets",
        "well-stirred"};
    return words[pick(15)];
  }
  std::string text(int count) {
    std::string result = word();
    for (int i = 1; i < count; ++i) result += " " + word();
    return result;
  }

  void make_readings(Channel& channel) {
    for (auto& row : channel.rows) {
      auto* const reading = std::get_if<ChannelReading>(&row);
      if (!reading) continue;
      const double span = reading->plot_high - reading->plot_low;
      reading->now_at = reading->plot_low + span * (1.4 * share() - 0.2);
      reading->after_low_at = reading->plot_low + span * 0.5 * share();
      reading->after_high_at = reading->after_low_at + span * 0.5 * share();
      if (pick(4) == 0) reading->now_at.reset();
    }
  }

  Pour pour(Pour::Turn turn) {
    Pour result;
    result.turn = turn;
    if (turn == Pour::Turn::second) result.condition = plain(text(1 + pick(6)));
    result.amount = {std::to_string(pick(2000)) + "\u202Fg", pick(3) == 0 ? "" : text(1 + pick(4))};
    result.wait = plain(std::to_string(pick(90)) + "\u202Fmin");
    result.test = plain(pick(2) == 0 ? "pH" : "Säurekapazität");
    result.reading = Words{{Band{std::to_string(pick(100)) + "–" + std::to_string(pick(300))}}, {}};
    return result;
  }

  Rung rung(int number) {
    Rung result;
    result.key = plain(std::to_string(number));
    result.title = plain(text(1 + pick(4)));
    result.tick = pick(4) == 0;
    for (int i = pick(4); i > 0; --i) result.aside.push_back(plain(text(1 + pick(7)) + "."));
    if (pick(2) == 0) result.hazard = plain(text(2 + pick(12)));
    for (int i = pick(4); i > 0; --i) result.signs.push_back({Pictogram::mask, "wear a mask"});
    if (!result.tick) {
      result.pours.push_back(pour(Pour::Turn::first));
      if (pick(2) == 0) result.pours.push_back(pour(Pour::Turn::second));
    }
    for (int i = pick(4); i > 0; --i) {
      result.outcomes.push_back({plain(text(1 + pick(4)) + ":"), plain(text(1 + pick(7)))});
    }
    for (int i = pick(3); i > 0; --i) result.notes.push_back(plain(text(2 + pick(25))));
    result.prefer_break_before = pick(5) == 0;
    return result;
  }

  std::mt19937 random_;
};

TEST_CASE("whatever the words: nothing overlaps, nothing leaves the page, no word is lost") {
  constexpr unsigned cards = 60;
  for (unsigned seed = 1; seed <= cards; ++seed) {
    const Document document = CardMaker(seed).make();
    INFO("seed " << seed);
    const std::string stock = seed % 2 == 0 ? "a4" : "letter";
    std::map<std::string, int> out;
    for (const Page& page : lay_out(document, test_style(), test_stock(stock), test_fonts())) {
      CHECK(overlaps(page, test_fonts()) == std::vector<std::string>{});
      CHECK(outside(page, test_fonts(), 5 * mm) == std::vector<std::string>{});
      CHECK(tree_faults(page) == std::vector<std::string>{});
      for (const auto& word : words_on(page)) out[word.first] += word.second;
    }
    for (const auto& word : words_of(document)) {
      INFO(word.first);
      CHECK(out[word.first] >= word.second);
    }
  }
}

}  // namespace
}  // namespace tub::layout
