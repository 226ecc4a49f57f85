// Templates: what they make, and what is said of bad ones when they are read.
#include <catch2/catch.hpp>

#include "fixture.h"
#include "sheets/template/sheet_template.h"

namespace {

std::string template_with(const std::string& blocks) {
  return R"({"sheet": "trial", "facts": "plan", "title": "Trial", "foot": {}, "alternatives": {}, "blocks": [)" +
         blocks + "]}";
}

std::string complaint(const std::string& text) {
  try {
    tub::sheets::parse_sheet_template(text, "trial.json");
    return "";
  } catch (const tub::Error& error) {
    return error.what();
  }
}

tub::sheets::Document filled(const std::string& blocks) {
  const tub::sheets::SheetTemplate sheet =
      tub::sheets::parse_sheet_template(template_with(blocks), "trial.json");
  tub::sheets::Facts facts(*sheet.shape);
  facts.set("vessel", std::string("Garden *tub* {x}"));
  facts.set("phone", std::string("555"));
  return tub::sheets::fill_template(sheet, facts, tub::sheets::test::english());
}

}  // namespace

TEST_CASE("a fact is printed as it is: marks in a name are no marks") {
  const tub::sheets::Document document = filled(R"({"text": {"paragraphs": ["For *{vessel}*"]}})");
  const auto& text = std::get<tub::sheets::Text>(document.blocks.at(0).content);
  const tub::sheets::Words& words = text.paragraphs.at(0).words;
  REQUIRE(words.parts.size() == 2);
  CHECK(std::get<tub::sheets::Bold>(words.parts[1]).text == "Garden *tub* {x}");
}

TEST_CASE("what tests for an absent fact is left out, what repeats over none prints nothing") {
  const tub::sheets::Document document = filled(
      R"({"when": "drift", "text": {"paragraphs": ["{drift}"]}},
         {"when": "phone", "text": {"paragraphs": ["{phone}", {"when": "shop", "text": "{shop}"},
                                                   {"each": "rungs", "text": "{title}"}]}})");
  REQUIRE(document.blocks.size() == 1);
  CHECK(std::get<tub::sheets::Text>(document.blocks[0].content).paragraphs.size() == 1);
}

TEST_CASE("every kind of block can be written in a template") {
  const tub::sheets::Document document = filled(R"(
    {"masthead": {"kind": "a", "title": "b", "figure": "c", "facts": ["d"]}},
    {"text": {"flow": "spread", "paragraphs": [{"text": "a", "rank": "heading"}]}},
    {"channel": {"title": "a", "rows": [{"name": "pH", "low_at": 7.4, "high_at": 7.6}]}},
    {"ladder": {"key": "name", "rungs": [{"key": "a", "tick": true, "blocks": [{"room": {"least_mm": 9}}]}]}},
    {"table": {"columns": [{"head": "a", "mm": 9, "align": "right"}],
               "rows": [{"role": "band", "cells": ["a", {"amount": "3", "spoons_under": true},
                 {"arrow": true}, {"tick": true}, {"framed": "7"}, {"pair": "fire", "severity": "deadly"},
                 {"signs": [{"sign": "gloves", "alt": "a"}], "columns": 2}]}]}},
    {"notice": {"word": "a", "text": "b", "look": "reversed"}},
    {"signs": {"signs": [{"sign": "apron", "alt": "a"}], "order": "column", "side_mm": 16}},
    {"chart": {"x": {"low": 1, "high": 2}, "y": {}, "lines": [{"points": [{"x": 1, "y": 2}]}],
               "bands": [{"low": 1, "high": 2}], "marks": [{"x": 1, "y": 2}]}},
    {"code": {"payload": "a", "side_mm": 28.5}},
    {"columns": {"columns": [{"share": 2, "blocks": [{"room": {}}]}]}},
    {"room": {"least_mm": 30, "answers": ["g"]}, "pages": "every", "close_to_previous": true})");
  REQUIRE(document.blocks.size() == 11);
  for (std::size_t i = 0; i < 11; ++i) CHECK(document.blocks[i].content.index() == i);
  const auto& table = std::get<tub::sheets::Table>(document.blocks[4].content);
  const auto& cells = table.rows.at(0).cells;
  REQUIRE(cells.size() == 7);
  for (std::size_t i = 0; i < 4; ++i) CHECK(cells[i].content.index() == i);
  CHECK(std::get<tub::sheets::PairCell>(cells[5].content).severity ==
        tub::sheets::PairCell::Severity::deadly);
  CHECK(cells[6].columns == 2);
  CHECK(document.blocks[10].pages == tub::sheets::Block::Pages::every);
  CHECK(document.blocks[10].close_to_previous);
  CHECK(document.blocks[10].where == "trial.json: /blocks/10");
}

TEST_CASE("a fault of a template is found when it is read, with its place") {
  const std::pair<const char*, const char*> rows[] = {
      {R"({"notise": {"word": "a"}})",
       "error: the field \"notise\" is not known here\n  where: trial.json: /blocks/0/notise\n"
       "  help:  did you mean notice?\n"},
      {R"({"notice": {"word": "a", "txt": "b"}})",
       "error: the field \"txt\" is not known here\n  where: trial.json: /blocks/0/notice/txt\n"
       "  help:  did you mean text?\n"},
      {R"({"notice": {"word": "{vesel}"}})",
       "error: no fact here is called \"vesel\"\n  where: trial.json: /blocks/0/notice/word\n"
       "  help:  did you mean vessel?\n"},
      {R"({"text": {"paragraphs": [{"each": "rung", "text": "{title}"}]}})",
       "error: no fact here is called \"rung\"\n  where: trial.json: "
       "/blocks/0/text/paragraphs/0/each\n"
       "  help:  did you mean rungs?\n"},
      {R"({"text": {"paragraphs": [{"each": "vessel", "text": "a"}]}})",
       "error: expected a list, but \"vessel\" is words\n"
       "  where: trial.json: /blocks/0/text/paragraphs/0/each\n  help:  name another fact\n"},
      {R"({"when": "phon", "room": {}})",
       "error: no fact here is called \"phon\"\n  where: trial.json: /blocks/0/when\n"
       "  help:  did you mean phone?\n"},
      {R"({"notice": {"word": "*a"}})",
       "error: the mark `*` is opened and not closed\n  where: trial.json: /blocks/0/notice/word\n"
       "  help:  close it\n"},
      {R"({"notice": {"word": "a", "look": "frame"}})",
       "error: \"frame\" is not known here\n  where: trial.json: /blocks/0/notice/look\n"
       "  help:  did you mean framed?\n"},
      {R"({"signs": {"signs": [{"sign": "glove", "alt": "a"}]}})",
       "error: no pictogram is called \"glove\"\n  where: trial.json: "
       "/blocks/0/signs/signs/0/sign\n"
       "  help:  did you mean gloves?\n"},
      {R"({"notice": {"word": "a"}, "room": {}})",
       "error: a block is one kind, and this is notice and room\n  where: trial.json: /blocks/0\n"
       "  help:  make two blocks of it\n"},
      {R"({"room": {"least_mm": "wide"}})",
       "error: expected a number or one placeholder, found \"wide\"\n"
       "  where: trial.json: /blocks/0/room/least_mm\n"},
      {R"({"text": {"paragraphs": "a"}})",
       "error: expected a list, found \"a\"\n  where: trial.json: /blocks/0/text/paragraphs\n"},
  };
  for (const auto& [blocks, text] : rows) {
    INFO(blocks);
    CHECK(complaint(template_with(blocks)).find(text) != std::string::npos);
  }
}

TEST_CASE("all faults of a template come at once") {
  const std::string text = complaint(template_with(
      R"({"notice": {"word": "{vesel}", "txt": "a"}}, {"text": {"paragraphs": ["{shp}"]}})"));
  CHECK(text.find("\"vesel\"") != std::string::npos);
  CHECK(text.find("\"txt\"") != std::string::npos);
  CHECK(text.find("\"shp\"") != std::string::npos);
}

TEST_CASE("a template says which messages it needs, with the names in scope") {
  const tub::sheets::SheetTemplate sheet = tub::sheets::parse_sheet_template(
      template_with(
          R"({"text": {"paragraphs": [{"each": "rungs", "text": "{say.motto}"}, "{say.motto}"]}})"),
      "trial.json");
  REQUIRE(sheet.messages.size() == 1);
  CHECK(sheet.messages[0].key == "motto");
  const auto& names = sheet.messages[0].parameters;
  CHECK(std::find(names.begin(), names.end(), "vessel") != names.end());
  CHECK(std::find(names.begin(), names.end(), "title") == names.end());
}
