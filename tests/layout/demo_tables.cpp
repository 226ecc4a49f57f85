// Tables, columns, charts, codes and rooms, as an upkeep card and a worksheet have them.
#include <utility>

#include "demo_card.h"

namespace tub::layout {
namespace {

TableRow row(TableRow::Role role, std::vector<Cell> cells) { return {role, std::move(cells)}; }

Cell text(const std::string& text) { return {plain(text), 1}; }

Cell dose(const std::string& amount, const std::string& spoons, const std::string& limit = {}) {
  return {AmountCell{{amount, spoons}, AmountCell::Spoons::under, limit}, 1};
}

Table look_up() {
  Table table;
  for (const char* const name :
       {"alkalinity", "", "too high: dry acid", "pH", "", "too high: dry acid"}) {
    table.columns.push_back({plain(name), 1, 0, TableColumn::Align::left});
  }
  table.columns[0].mm = table.columns[3].mm = 18;
  table.columns[1].mm = table.columns[4].mm = 9;
  const Cell arrow{ArrowCell{}, 1};
  using Role = TableRow::Role;
  table.rows = {
      row(Role::plain,
          {text("240"), arrow, dose("110\u202Fg", "15 level teaspoons", "most at one time"),
           text("8.2"), arrow, dose("42\u202Fg", "6 level teaspoons")}),
      row(Role::plain, {text("180"), arrow, dose("60\u202Fg", "8 level teaspoons"), text("7.8"),
                        arrow, dose("21\u202Fg", "3 level teaspoons")}),
      row(Role::band,
          {{plain("100–150"), 2}, text("add nothing"), {plain("7.4–7.6"), 2}, text("add nothing")}),
      row(Role::plain, {text("60"), arrow, dose("90\u202Fg", "6 level tablespoons"), text("7.0"),
                        arrow, dose("30\u202Fg", "2 level tablespoons")})};
  return table;
}

Table pairs() {
  Table table;
  for (const char* const name : {"", "dry acid", "dichlor", "calcium"})
    table.columns.push_back({plain(name), 1, 0, TableColumn::Align::centre});
  table.columns[0].align = TableColumn::Align::left;
  using Severity = PairCell::Severity;
  const auto pair = [](const std::string& word, Severity severity) {
    return Cell{PairCell{word, severity}, 1};
  };
  table.rows = {row(TableRow::Role::plain,
                    {text("dichlor granules"), pair("gas", Severity::deadly), text(""), text("")}),
                row(TableRow::Role::plain, {text("calcium chloride"), pair("heat", Severity::harm),
                                            pair("apart", Severity::apart), text("")})};
  return table;
}

Table log_rows() {
  Table table;
  for (const char* const name : {"date", "pH", "chlorine", "what I added", ""})
    table.columns.push_back({plain(name), 1, 0, TableColumn::Align::left});
  table.columns[3].share = 3;
  table.columns[4].mm = 6;
  const Cell tick{TickCell{}, 1};
  table.rows = {row(TableRow::Role::plain, {text("4 May"),
                                            {FramedCell{"7.4–7.6"}, 1},
                                            {FramedCell{"3–5"}, 1},
                                            text("first filling"),
                                            tick}),
                row(TableRow::Role::blank, {text(""), text(""), text(""), text(""), text("")}),
                row(TableRow::Role::blank, {text(""), text(""), text(""), text(""), text("")})};
  return table;
}

Chart chart() {
  Chart result;
  result.x = {plain("pH"), 6.8, 8.2, 0.2, 1};
  result.y = {plain("hypochlorous acid, % of free chlorine"), 0, 100, 25, 0};
  result.lines = {{plain("25\u202F°C"), {{6.8, 80}, {7.2, 66}, {7.5, 50}, {7.8, 33}, {8.4, 10}}}};
  result.bands = {{plain("target"), 7.4, 7.6}};
  result.marks = {{plain("now"), {7.9, 28}}};
  result.height_mm = 32;
  result.alt = "share of hypochlorous acid over pH, falling from 80 % at 6.8 to 18 % at 8.2";
  return result;
}

Ladder named() {
  Ladder ladder;
  ladder.key = Ladder::Key::name;
  Rung each_use;
  each_use.key = plain("After each use");
  Text dose_text;
  dose_text.paragraphs = {{words({Amount{"2\u202Fg", "½ level teaspoon"}, Plain{" of dichlor for "},
                                  Bold{"each bather"}}),
                           Rank::body}};
  Columns columns;
  columns.columns = {{1, {block(dose_text)}}, {1, {block(pairs())}}};
  each_use.blocks = {block(columns)};
  Rung weekly;
  weekly.key = plain("Every week");
  weekly.title = plain("Test and write it down");
  weekly.aside = {plain("alkalinity first, then pH.")};
  weekly.blocks = {block(log_rows())};
  ladder.rungs = {each_use, weekly};
  return ladder;
}

}  // namespace

Document demo_tables() {
  Document document = demo_card();
  document.sheet = "demo_tables";
  Code code;
  code.payload = "TUBWRIGHT:1:7K4QM2:0123456789";
  code.text = plain("Scan for this tub’s job");
  code.side_mm = 20;
  code.alt = "square code that holds the job 7K4Q-M2";
  Room room;
  room.least_mm = 15;
  room.answers = {plain("grams of bicarbonate"), plain("pH afterwards")};
  Masthead masthead = std::get<Masthead>(document.blocks[0].content);
  document.blocks = {block(masthead), block(named()), block(look_up()),
                     block(chart()),  block(code),    block(room)};
  return document;
}

}  // namespace tub::layout
