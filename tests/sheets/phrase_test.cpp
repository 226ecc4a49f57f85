// Inline marks: what they make, and what is said of broken ones.
#include "sheets/template/phrase.h"

#include <catch2/catch.hpp>

namespace {

using tub::sheets::PhrasePart;
using Kind = PhrasePart::Kind;
using Weight = PhrasePart::Weight;

}  // namespace

TEST_CASE("a phrase is read into parts of one weight") {
  const tub::sheets::Phrase phrase =
      tub::sheets::read_phrase("For *{name}* ~mg/L~ [7.4] ______\\*");
  CHECK(phrase.fault.empty());
  const std::vector<PhrasePart> parts = {
      {Kind::text, Weight::regular, "For ", 0}, {Kind::placeholder, Weight::bold, "name", 0},
      {Kind::text, Weight::regular, " ", 0},    {Kind::text, Weight::small, "mg/L", 0},
      {Kind::text, Weight::regular, " ", 0},    {Kind::text, Weight::band, "7.4", 0},
      {Kind::text, Weight::regular, " ", 0},    {Kind::line, Weight::regular, "", 12},
      {Kind::text, Weight::regular, "*", 0},
  };
  CHECK(phrase.parts == parts);
}

TEST_CASE("a broken mark is reported with what it is") {
  const std::pair<const char*, const char*> rows[] = {
      {"*bold", "the mark `*` is opened and not closed"},
      {"*a [b] c*", "the mark `[` stands inside `*`"},
      {"a ] b", "a `]` stands without its `[`"},
      {"[a [b]]", "a `[` stands inside a target"},
      {"{name", "a `{` is opened and not closed"},
      {"name}", "a `}` stands without its `{`"},
      {"{Name}", "`{Name}` is not a placeholder's name"},
      {"{}", "`{}` is not a placeholder's name"},
      {"end\\", "a backslash stands at the end"},
  };
  for (const auto& [text, fault] : rows) {
    INFO(text);
    CHECK(tub::sheets::read_phrase(text).fault == fault);
    CHECK_FALSE(tub::sheets::read_phrase(text).help.empty());
  }
}

TEST_CASE("placeholders are named once, in order") {
  CHECK(tub::sheets::placeholders_of(tub::sheets::read_phrase("{b} and {a} and *{b}*")) ==
        std::vector<std::string>{"b", "a"});
}

TEST_CASE("words put into bold words become bold, a target stays a target") {
  tub::sheets::Words added = tub::sheets::plain("a");
  added.parts.emplace_back(tub::sheets::Band{"b"});
  tub::sheets::Words words;
  append(words, Weight::bold, "x ");
  append(words, Weight::bold, added);
  REQUIRE(words.parts.size() == 2);
  CHECK(std::get<tub::sheets::Bold>(words.parts[0]).text == "x a");
  CHECK(std::get<tub::sheets::Band>(words.parts[1]).text == "b");
}
