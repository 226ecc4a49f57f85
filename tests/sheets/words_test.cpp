// The words of docs/words.md: one a concept, none to be misread; and what a country changes.
#include <catch2/catch.hpp>
#include <cctype>
#include <map>
#include <nlohmann/json.hpp>
#include <optional>
#include <regex>
#include <sstream>

#include "base/text.h"
#include "fixture.h"
#include "planning/tables/country.h"
#include "project_text.h"
#include "sheets/compose.h"

namespace tub::sheets::test {
namespace {

using Texts = std::map<std::string, std::string>;

constexpr std::array tags = {"en", "de", "fr", "es"};

void collect(const nlohmann::json& node, const std::string& prefix, Texts& texts) {
  for (const auto& [name, value] : node.items()) {
    const std::string key = prefix.empty() ? name : prefix + "." + name;
    if (value.is_object()) {
      collect(value, key, texts);
    } else {
      texts[key] = value.get<std::string>();
    }
  }
}

nlohmann::json language_file(const std::string& tag) {
  return nlohmann::json::parse(project_text("templates/languages/" + tag + ".json"));
}

Texts messages_of(const std::string& tag) {
  Texts texts;
  collect(language_file(tag).at("messages"), "", texts);
  return texts;
}

// As a reader sees it: no soft hyphens, one kind of space, small letters of ASCII.
std::string as_read(const std::string& text) {
  std::string result = replaced(text, "\u00AD", "");
  for (const char* const space : {"\u00A0", "\u202F"}) result = replaced(result, space, " ");
  for (char& character : result) {
    character = static_cast<char>(std::tolower(static_cast<unsigned char>(character)));
  }
  return result;
}

bool is_letter(char character) {
  return std::isalpha(static_cast<unsigned char>(character)) != 0 || (character & 0x80) != 0;
}

// Whether the words stand in the text, not inside a longer word.
bool holds_words(const std::string& text, const std::string& words) {
  for (std::size_t at = text.find(words); at != std::string::npos; at = text.find(words, at + 1)) {
    const std::size_t end = at + words.size();
    const bool begins = at == 0 || !is_letter(text[at - 1]);
    const bool ends = end == text.size() || !is_letter(text[end]);
    if (begins && ends) return true;
  }
  return false;
}

/// The cells of each row of a table of docs/words.md that has that many columns.
std::vector<std::vector<std::string>> rows_of_words(std::size_t columns) {
  std::vector<std::vector<std::string>> rows;
  std::istringstream lines(project_text("docs/words.md"));
  for (std::string line; std::getline(lines, line);) {
    if (!line.starts_with("| ") || line.starts_with("| ---")) continue;
    std::vector<std::string> cells;
    for (const std::string& cell : split(line.substr(1, line.size() - 2), '|')) {
      cells.push_back(replaced(std::string(trimmed(cell)), "`", ""));
    }
    const bool is_head = cells.front() == "concept" || cells.front() == "language";
    if (cells.size() == columns && !is_head) rows.push_back(std::move(cells));
  }
  return rows;
}

const std::vector<Country>& countries() {
  static const std::vector<Country> all =
      parse_countries(project_text("src/planning/data/countries.json"), "countries.json");
  return all;
}

Country country(const std::string& id) {
  for (const Country& row : countries()) {
    if (row.id == id) return row;
  }
  throw std::runtime_error("no country " + id);
}

std::string card_in(const std::string& tag, const std::optional<Country>& where) {
  Heading heading = quince_row_heading();
  heading.country = where;
  return words_of(startup_document(quince_row_plan(), heading, language(tag).in(where)));
}

/// What calls for help on a card: the sentence about gas.
std::string gas_line(const std::string& card) {
  std::istringstream lines(card);
  for (std::string line; std::getline(lines, line);) {
    if (std::regex_search(line, std::regex("gas\\?|Gas\\?|gaz\\W+\\?"))) return line;
  }
  return "";
}

TEST_CASE("each concept is called by its one word in each language") {
  const auto rows = rows_of_words(6);
  CHECK(rows.size() >= 19);
  for (const auto& row : rows) {
    for (std::size_t i = 0; i < tags.size(); ++i) {
      const Texts texts = messages_of(tags.at(i));
      CAPTURE(row.front(), tags.at(i));
      REQUIRE(texts.contains(row.at(1)));
      const std::string text = as_read(texts.at(row.at(1)));
      CAPTURE(text);
      CHECK(text.find(as_read(row.at(2 + i))) != std::string::npos);
    }
  }
}

TEST_CASE("no word that could be misread stands in a language") {
  const auto rows = rows_of_words(3);
  CHECK(rows.size() >= 20);
  for (const auto& row : rows) {
    for (const auto& [key, text] : messages_of(row.front())) {
      for (const std::string& word : split(row.at(1), ',')) {
        CAPTURE(row.front(), key, text, word);
        CHECK_FALSE(holds_words(as_read(text), as_read(std::string(trimmed(word)))));
      }
    }
  }
}

TEST_CASE("spectacles are never meant where goggles protect") {
  for (const auto& [tag, word, rest] : {std::tuple{"fr", "lunettes", "lunettes de protection"},
                                        std::tuple{"es", "gafas", "gafas de protecci"}}) {
    for (const auto& [key, text] : messages_of(tag)) {
      const std::string without = replaced(as_read(text), rest, "");
      CAPTURE(tag, key, text);
      CHECK(without.find(word) == std::string::npos);
    }
  }
}

TEST_CASE(
    "in French a thin space stands before signs of two parts, a no-break one before a colon") {
  for (const auto& [key, text] : messages_of("fr")) {
    if (key == "container.ufi") continue;  // "UFI:" as CLP, annex VIII, part A, 5.3 writes it
    CAPTURE(key, text);
    const std::u32string characters = *code_points(text);
    for (std::size_t i = 1; i < characters.size(); ++i) {
      const char32_t before = characters[i - 1];
      const bool is_thin = std::u32string(U";?!»").find(characters[i]) != std::u32string::npos;
      if (is_thin) CHECK(before == U'\u202F');
      if (characters[i] == U':') CHECK(before == U'\u00A0');
      if (before == U'«') CHECK(characters[i] == U'\u202F');
    }
  }
}

TEST_CASE("hardness and alkalinity are named as they are measured, as CaCO3") {
  for (const char* const tag : tags) {
    const std::string card =
        text_of(startup_document(quince_row_plan(), quince_row_heading(), language(tag)));
    CAPTURE(tag, card);
    const Texts texts = messages_of(tag);
    CHECK(card.find(texts.at("reading.calcium_hardness.name")) != std::string::npos);
    CHECK(card.find("CaCO₃") != std::string::npos);
    const std::string plain_calcium = as_read(texts.at("reading.calcium_hardness.name"));
    CHECK((plain_calcium != "calcium" && plain_calcium != "calcio"));
  }
}

TEST_CASE("every spoon and cup says its millilitres") {
  // Source: 21 CFR 101.9(b)(5)(viii): teaspoon 5 mL, tablespoon 15 mL, cup 240 mL; metric cup of
  // 250 mL from memory.
  const std::map<std::string, std::string> sizes = {
      {"us_teaspoon", "5"},     {"us_tablespoon", "15"},     {"us_cup", "240"},
      {"metric_teaspoon", "5"}, {"metric_tablespoon", "15"}, {"metric_cup", "250"}};
  for (const char* const tag : tags) {
    for (const auto& [key, text] : messages_of(tag)) {
      const auto parts = split(key, '.');
      if (parts.front() != "spoon" || !sizes.contains(parts.at(1))) continue;
      CAPTURE(tag, key, text);
      CHECK(std::regex_search(as_read(text), std::regex("[^0-9]" + sizes.at(parts.at(1)) + " ml")));
    }
  }
}

TEST_CASE("the power comes on only when the tub is full") {
  const std::map<std::string, std::pair<std::string, std::string>> order = {
      {"en", {"When full", "power on"}},
      {"de", {"Wenn voll", "Strom an"}},
      {"fr", {"Spa plein", "remettez le courant"}},
      {"es", {"Cuando esté lleno", "dé la corriente"}}};
  for (const auto& [tag, words] : order) {
    const std::string text = messages_of(tag).at("rung.fill_and_heat_how");
    CAPTURE(tag, text);
    REQUIRE(text.find(words.first) != std::string::npos);
    CHECK(text.find(words.first) < text.find(words.second));
  }
}

TEST_CASE("a sheet names the emergency number of its country, and no other") {
  for (const auto& [id, number] : std::map<std::string, std::string>{{"FR", "112"},
                                                                     {"GB", "999"},
                                                                     {"US", "911"},
                                                                     {"CA", "911"},
                                                                     {"AU", "000"},
                                                                     {"NZ", "111"}}) {
    for (const char* const tag : tags) {
      const std::string line = gas_line(card_in(tag, country(id)));
      CAPTURE(id, tag, line);
      CHECK(line.find(number) != std::string::npos);
      for (const char* const other : {"112", "911", "999", "000", "111"}) {
        if (number != other) CHECK(line.find(other) == std::string::npos);
      }
    }
  }
}

TEST_CASE("without a country a line to write on stands beside the two commonest numbers") {
  for (const char* const tag : tags) {
    const Texts texts = messages_of(tag);
    const std::string text = as_read(texts.at("emergency.unknown"));
    CAPTURE(tag, text);
    CHECK(text.find("112") != std::string::npos);
    CHECK(text.find("911") != std::string::npos);
    CHECK(text.find("___") != std::string::npos);
    CHECK(gas_line(card_in(tag, std::nullopt)).find("112") != std::string::npos);
  }
}

TEST_CASE("the poison centre that a shop names stands where the line was") {
  Heading heading = quince_row_heading();
  CHECK(words_of(startup_document(quince_row_plan(), heading)).find("Poison center") !=
        std::string::npos);
  heading.poison_centre_phone = "555-0100";
  CHECK(words_of(startup_document(quince_row_plan(), heading)).find("Poison center: 555‑0100") !=
        std::string::npos);
  heading.poison_centre_name = "Millbeck Poisons Line";
  CHECK(words_of(startup_document(quince_row_plan(), heading))
            .find("Millbeck Poisons Line: 555‑0100") != std::string::npos);
}

TEST_CASE("Switzerland and Mexico write a decimal point, France and Spain a comma") {
  CHECK(language("de").in(country("CH")).numbers().decimal == ".");
  CHECK(language("fr").in(country("CH")).numbers().decimal == ".");
  CHECK(language("es").in(country("MX")).numbers().decimal == ".");
  CHECK(language("fr").in(country("FR")).numbers().decimal == ",");
  CHECK(language("es").in(country("ES")).numbers().decimal == ",");
  CHECK(language("fr").in(std::nullopt).numbers().decimal == ",");
}

TEST_CASE("the first of May is le 1er in French, and the month comes first in the United States") {
  CHECK(language("fr").date({2026, 5, 1}) == "1er mai 2026");
  CHECK(language("fr").date({2026, 5, 11}) == "11 mai 2026");
  CHECK(language("de").date({2026, 5, 1}) == "1. Mai 2026");
  CHECK(language("en").in(country("US")).date({2026, 5, 4}) == "May 4, 2026");
  CHECK(language("en").in(country("GB")).date({2026, 5, 4}) == "4 May 2026");
  CHECK(language("es").in(country("US")).date({2026, 5, 4}) == "4 de mayo de 2026");
}

// English as a country spells it; names of substances are those of official lists.
void check_spelling(const std::optional<Country>& where, std::span<const char* const> never) {
  const Messages messages = language("en").in(where);
  for (const auto& [key, text] : messages_of("en")) {
    if (key.ends_with(".substance")) continue;
    std::string said;
    for (const PhrasePart& part : messages.phrase(key).parts) {
      if (part.kind == PhrasePart::Kind::text) said += part.text;
    }
    for (const char* const spelling : never) {
      CAPTURE(key, said, spelling);
      CHECK(as_read(said).find(spelling) == std::string::npos);
    }
  }
}

TEST_CASE("English is spelled one way on a sheet: American, or British where a country asks") {
  constexpr std::array british = {"centre",  "fibre",  "sulphate", "stabilis",
                                  "sanitis", "oxidis", "moulded",  "authoris"};
  constexpr std::array american = {"center",  "fiber",  "sulfate", "stabiliz",
                                   "sanitiz", "oxidiz", "molded",  "authoriz"};
  check_spelling(std::nullopt, british);
  check_spelling(country("US"), british);
  check_spelling(country("GB"), american);
  check_spelling(country("AU"), american);
  check_spelling(country("IE"), american);
}

TEST_CASE("a Swiss sheet in German has no sharp s") {
  const Messages swiss = language("de").in(country("CH"));
  for (const auto& [key, text] : messages_of("de")) {
    for (const PhrasePart& part : swiss.phrase(key).parts) {
      CAPTURE(key, part.text);
      CHECK(part.text.find("ß") == std::string::npos);
    }
  }
}

TEST_CASE("a variant says what its language says, with the same places to fill in") {
  for (const char* const tag : tags) {
    const nlohmann::json file = language_file(tag);
    if (!file.contains("variants")) continue;
    const Texts base = messages_of(tag);
    for (const auto& [name, messages] : file.at("variants").items()) {
      Texts texts;
      collect(messages, "", texts);
      for (const auto& [key, text] : texts) {
        CAPTURE(tag, name, key);
        REQUIRE(base.contains(key));
        CHECK(text != base.at(key));
        CHECK(placeholders_of(read_phrase(text)).size() ==
              placeholders_of(read_phrase(base.at(key))).size());
      }
    }
  }
}

TEST_CASE("every variant that a country asks for is one that a language has") {
  for (const Country& row : countries()) {
    if (row.variant.empty()) continue;
    const bool has_it = std::any_of(tags.begin(), tags.end(), [&](const char* const tag) {
      const nlohmann::json file = language_file(tag);
      return file.contains("variants") && file.at("variants").contains(row.variant);
    });
    CAPTURE(row.id);
    CHECK(has_it);
  }
}

TEST_CASE("danger is said of bromine as of chlorine") {
  for (const char* const tag : tags) {
    const Texts texts = messages_of(tag);
    for (const char* const key : {"danger.burns_and_fumes", "danger.serious_eye_damage"}) {
      const std::string text = as_read(texts.at(key));
      CAPTURE(tag, key, text);
      CHECK(std::regex_search(text, std::regex("chlor|cloro")));
      CHECK(std::regex_search(text, std::regex("brom")));
    }
  }
}

TEST_CASE("wherever stabilizer has a number, it is called as a test calls it") {
  for (const char* const tag : tags) {
    const Texts texts = messages_of(tag);
    const std::string measured = as_read(texts.at("reading.cyanuric_acid.in_text"));
    for (const char* const key :
         {"caution.stabiliser_not_tested", "caution.other_chlorine_instead", "hand_over.later",
          "hand_over.at_once", "hand_over.with_this_card", "unmet.stabiliser_leaves_no_dichlor"}) {
      CAPTURE(tag, key);
      CHECK(as_read(texts.at(key)).find(measured) != std::string::npos);
    }
  }
}

TEST_CASE("what a tag warns of is what the card says happens, in the same words") {
  for (const char* const tag : tags) {
    const Texts texts = messages_of(tag);
    for (const char* const code : {"explosion", "fire", "violent_reaction", "spits", "clouds"}) {
      CAPTURE(tag, code);
      CHECK(texts.at(std::string("pair.") + code) ==
            "{first} + {second} → " + texts.at(std::string("dose_tag.outcome.") + code));
    }
  }
}

TEST_CASE("every line about gas has the place for the country's number") {
  for (const char* const tag : tags) {
    const Texts texts = messages_of(tag);
    for (const char* const key : {"gas", "dose_tag.gas"}) {
      CHECK(texts.at(key).find("{emergency}") != std::string::npos);
    }
    for (const auto& [key, text] : texts) {
      if (key.starts_with("emergency.")) continue;
      CAPTURE(tag, key, text);
      CHECK_FALSE(std::regex_search(text, std::regex("112|911")));
    }
  }
}

TEST_CASE("two products that must not meet are no list of three") {
  for (const char* const tag : tags) {
    for (const auto& [key, text] : messages_of(tag)) {
      if (!key.starts_with("pair.")) continue;
      CAPTURE(tag, key, text);
      CHECK(text.starts_with("{first} + {second} → "));
    }
  }
}

}  // namespace
}  // namespace tub::sheets::test
