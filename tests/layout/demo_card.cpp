// The words of a startup card.
#include "demo_card.h"

#include <utility>

namespace tub::layout {

Block block(decltype(Block::content) content, bool every_page, bool close) {
  Block result;
  result.content = std::move(content);
  result.pages = every_page ? Block::Pages::every : Block::Pages::one;
  result.close_to_previous = close;
  result.where = "demo card";
  return result;
}

Words words(std::vector<Inline> parts) { return {std::move(parts), {}}; }

Pour second(const std::string& condition, const std::string& amount, const std::string& spoons,
            const std::string& test, const std::string& target) {
  return {Pour::Turn::second,   plain(condition), {amount, spoons},
          plain("20\u202Fmin"), plain(test),      words({Band{target}})};
}

namespace {

Masthead masthead() {
  return {plain("Startup card"),
          plain("Garden tub, 14 Quince Row"),
          plain("1340\u202FL"),
          {words({Plain{"For "}, Bold{"the Marrow family"}}),
           words({Plain{"By "}, Bold{"Thrushwater Tubs"}, Plain{", 555-0142"}}),
           plain("4 May 2026"), plain("354\u00A0US gal, ±5\u202F%, acrylic shell")}};
}

Channel channel() {
  Channel result{plain("Your water"),
                 plain("now"),
                 plain("too low"),
                 plain("to get in"),
                 plain("too high"),
                 plain("after step 6"),
                 {}};
  const Words unit = plain("mg/L");
  result.rows = {ChannelReading{plain("pH"),
                                {},
                                "7.9",
                                7.9,
                                "7.4",
                                "7.6",
                                7.4,
                                7.6,
                                "7.4–7.6",
                                7.4,
                                7.6,
                                6.8,
                                8.4,
                                "pH: 7.9 now, 7.4 to 7.6 to get in, 7.4 to 7.6 after step 6"},
                 ChannelReading{plain("Alkalinity"), unit, "62", 62.0, "100", "150", 100, 150,
                                "105–119", 105, 119, 0, 300, "alkalinity"},
                 ChannelReading{plain("Calcium"), unit, "89", 89.0, "175", "250", 175, 250,
                                "183–203", 183, 203, 0, 500, "calcium"},
                 ChannelReading{plain("Chlorine"), unit, "0", 0.0, "3", "5", 3, 5, "3.0–3.3", 3,
                                3.3, 0, 10, "chlorine"},
                 ChannelHeld{plain("Iron"), unit, "0.3", plain("0.3, kept dissolved")}};
  return result;
}

Signs every_time() {
  Signs signs;
  signs.signs = {{Pictogram::gloves, "wear protective gloves"},
                 {Pictogram::goggles, "wear eye protection"}};
  signs.text = words({Bold{"Every time:"},
                      Plain{" gloves, goggles. Water 27\u202F°C or warmer, jets on, air valves "
                            "closed, cover off. Nobody in the tub, children and pets away. "
                            "Chemical into water, never water into chemical. One product at a "
                            "time, each with its own dry measuring spoon, filled level."}});
  return signs;
}

Notice never_mix() {
  return {
      plain("Never mix"),
      words({Plain{"No two products together, dry or wet, nor on one spoon: poison gas or fire. "},
             Bold{"Sharp smell or gas? Walk away upwind, stay away, call 112 or 911."}}),
      Notice::Look::framed};
}

Pour first(const std::string& amount, const std::string& spoons, const std::string& test,
           Words reading) {
  return {Pour::Turn::first,    {},          {amount, spoons},
          plain("20\u202Fmin"), plain(test), std::move(reading)};
}

RungOutcome outcome(const std::string& when, const std::string& then) {
  return {plain(when), plain(then)};
}

std::vector<Sign> three_signs() {
  return {{Pictogram::gloves, "wear protective gloves"},
          {Pictogram::goggles, "wear eye protection"},
          {Pictogram::mask, "wear a mask"}};
}

Rung rung(const std::string& key, const std::string& title, std::vector<Words> aside) {
  Rung result;
  result.key = plain(key);
  result.title = plain(title);
  result.aside = std::move(aside);
  return result;
}

std::vector<Rung> rungs() {
  Rung fill = rung("1", "Fill, heat to 27\u202F°C",
                   {words({Plain{"through the hose filter. "}, Bold{"Power off until full."}})});
  fill.tick = true;
  fill.notes = {
      plain("Test again today; if a number differs from the table above, call before pouring.")};
  Rung sequestrant =
      rung("2", "Sequestrant", {plain("keeps iron dissolved. Pour slowly all round the edge.")});
  sequestrant.pours = {first("60\u202FmL", "4 tablespoons", "look", words({Band{"clear"}}))};
  sequestrant.outcomes = {outcome("Brown or cloudy:", "stop, call us.")};
  Rung bicarbonate =
      rung("3", "Sodium bicarbonate",
           {plain("raises alkalinity; step 4 takes 10 off. Scatter over the moving water.")});
  bicarbonate.pours = {
      first("90\u202Fg", "6 level tablespoons", "alkalinity", plain("expect 97–107")),
      second("If it reads under 110:", "45\u202Fg", "3 level tablespoons", "alkalinity",
             "110–150")};
  bicarbonate.outcomes = {outcome("110–150:", "skip the second, go on."),
                          outcome("Over 150:", "stop, call us."),
                          outcome("Under 110 after both:", "stop, call us.")};
  Rung acid = rung("4", "Dry acid", {plain("lowers pH. Sprinkle slowly, wind at your back.")});
  acid.hazard = plain("Acid: poison gas if it meets chlorine. Mask too.");
  acid.signs = three_signs();
  acid.pours = {first("21\u202Fg", "3 level teaspoons", "pH", plain("expect 7.6–7.8")),
                second("If it reads over 7.6:", "14\u202Fg", "2 level teaspoons", "pH", "7.4–7.6")};
  acid.outcomes = {outcome("7.4–7.6:", "skip the second, go on."),
                   outcome("Under 7.4:", "stop, call us."),
                   outcome("Over 7.6 after both:", "stop, call us.")};
  Rung dichlor =
      rung("5", "Dichlor granules", {plain("kill germs. Scatter thinly, leave the cover off.")});
  dichlor.hazard = plain("Chlorine: never near acid or other chlorine. Mask too.");
  dichlor.signs = three_signs();
  dichlor.prefer_break_before = true;
  dichlor.pours = {
      first("6\u202Fg", "1½ level teaspoons", "chlorine", plain("expect 2.1–2.5")),
      second("If it reads under 3:", "2\u202Fg", "½ level teaspoon", "chlorine", "3–5")};
  dichlor.outcomes = {outcome("3–5:", "skip the second, go on."),
                      outcome("Over 5:", "cover off, test again in 1\u202Fh."),
                      outcome("Under 3 after both:", "stop, call us.")};
  Rung calcium = rung("6", "Calcium chloride",
                      {plain("protects metal parts. A little at a time: it gives off heat.")});
  calcium.pours = {
      first("150\u202Fg", "12 level tablespoons", "calcium", plain("expect 158–175")),
      second("If it reads under 175:", "50\u202Fg", "4 level tablespoons", "calcium", "175–250")};
  calcium.outcomes = {outcome("175–250:", "skip the second, go on."),
                      outcome("Over 250:", "stop, call us."),
                      outcome("Under 175 after both:", "stop, call us.")};
  Rung gate =
      rung("7", "Get in when all four are true:",
           {words({Plain{"chlorine "}, Band{"3–5"}}), words({Plain{"pH "}, Band{"7.4–7.6"}}),
            plain("water clear"), plain("40\u202F°C at most")});
  gate.tick = true;
  gate.notes = {words({Bold{"Children under 5 stay out. Pregnant: ask your doctor first."},
                       Plain{" If not: the upkeep card’s tables."}})};
  return {fill, sequestrant, bicarbonate, acid, dichlor, calcium, gate};
}

Text who_to_call() {
  Text text;
  text.flow = Text::Flow::spread;
  text.paragraphs = {
      {plain("Stuck? Call 555-0142"), Rank::heading},
      {words({Plain{"Poison centre "}, Fill{22, {}}}), Rank::body},
      {words({Plain{"The product’s label wins. Rented, public: "}, Bold{"local codes."}}),
       Rank::body}};
  return text;
}

}  // namespace

Document demo_card() {
  Document document;
  document.sheet = "startup_card";
  document.title = "Startup card: Garden tub, 14 Quince Row";
  document.language = "en";
  Ladder ladder;
  ladder.pour_head = plain("pour");
  ladder.wait_head = plain("wait");
  ladder.test_head = plain("then test");
  ladder.reading_head = plain("reading");
  ladder.rungs = rungs();
  document.blocks = {block(masthead()),         block(channel()),
                     block(every_time(), true), block(never_mix(), true, true),
                     block(std::move(ladder)),  block(who_to_call(), true, true)};
  document.foot = {"job 7K4Q-M2 · targets: common practice · gate: public-health advice",
                   "tubwright 1.0 · startup card", "{page} of {pages}"};
  document.alternatives = {"tick when done", "warning", "to fill in", "then"};
  return document;
}

}  // namespace tub::layout
