// JSON that knows its place: what is read, and what is said of bad texts.
#include "base/node.h"

#include <catch2/catch.hpp>

namespace {

using tub::Error;
using tub::Node;
using tub::Problems;

std::string complaint(std::string_view text) {
  Problems problems;
  try {
    const Node node = Node::parse(text, "deck.json", problems);
    return problems.empty() ? "" : to_text(problems.found().front());
  } catch (const Error& error) {
    return error.what();
  }
}

}  // namespace

TEST_CASE("a value knows its file and its place") {
  Problems problems;
  const Node root = Node::parse(R"({"water": {"ph": 7.9, "a/b": [1, 2]}})", "deck.json", problems);
  const Node water = *root.find("water");
  CHECK(*water.find("ph")->number(0, 14) == 7.9);
  CHECK(water.find("ph")->where() == "deck.json: /water/ph");
  CHECK(water.find("a/b")->items().at(1).where() == "deck.json: /water/a~1b/1");
  CHECK(problems.empty());
}

TEST_CASE("a number outside its range is reported with what was found") {
  Problems problems;
  const Node root = Node::parse(R"({"ph": 74})", "deck.json", problems);
  CHECK_FALSE(root.find("ph")->number(0, 14));
  CHECK(to_text(problems.found().front()) ==
        "error: expected a number from 0 to 14, found 74\n  where: deck.json: /ph\n");
}

TEST_CASE("an unknown field is reported with the nearest known name") {
  Problems problems;
  const Node root = Node::parse(R"({"vesel": {}})", "deck.json", problems);
  root.allow_only(std::vector<std::string>{"vessel", "heading"});
  CHECK(to_text(problems.found().front()) ==
        "error: the field \"vesel\" is not known here\n  where: deck.json: /vesel\n"
        "  help:  did you mean vessel?\n");
}

TEST_CASE("a broken text is reported with line and column") {
  CHECK(complaint("{\n  \"a\": 1,\n  \"b\": }\n") ==
        "error: the JSON cannot be read further, at `\"b\": }`\n  where: deck.json: line 3, column "
        "8\n"
        "  help:  look for a missing or extra comma, quote or bracket just before this place\n");
  CHECK(complaint("{\"a\": 1") ==
        "error: the JSON ends too early\n  where: deck.json: line 1, column 8\n"
        "  help:  close every bracket, brace and quote\n");
  CHECK(complaint(R"({"a": 1e999})") ==
        "error: the number 1e999 is too large to be read\n  where: deck.json: line 1, column 11\n"
        "  help:  write the number as it was measured\n");
  CHECK(complaint("{\"a\": \"\xFF\"}").find("the text is not UTF-8") != std::string::npos);
  CHECK(complaint("[\"[[[\",\n" + std::string(200, '[')) ==
        "error: the JSON is nested deeper than 100 levels\n  where: deck.json: line 2, column 100\n"
        "  help:  remove the extra brackets\n");
  CHECK(complaint("{} {}").find("line 1, column 4") != std::string::npos);
}

TEST_CASE("what follows a NUL is an error with its place, not the end of the text") {
  using namespace std::string_literals;
  const std::string said =
      "error: the text holds a NUL (U+0000), and nothing after it would be read\n";
  CHECK(complaint("{}\n\0 garbage"s) == said +
                                            "  where: deck.json: line 2, column 1\n"
                                            "  help:  remove it and what does not belong there; "
                                            "save the file as UTF-8\n");
  CHECK(complaint("{}\0"s).find("line 1, column 3") != std::string::npos);
  CHECK(complaint("{\"a\": \"b\0c\"}"s).find("line 1, column 9") != std::string::npos);
}

TEST_CASE("names and texts are the same however their accents were typed") {
  Problems problems;
  const Node root =
      Node::parse("{\"re\u0301gion\": \"Be\u0301ziers\", \"b\": \"e\\u0301\"}", "", problems);
  CHECK(root.find("r\u00E9gion")->text() == "B\u00E9ziers");
  CHECK(root.find("b")->text() == "\u00E9");
  CHECK(complaint("{\"\u00E9\": 1, \"e\u0301\": 2}").find("more than once") != std::string::npos);
}

TEST_CASE("a name that stands twice is reported at its place") {
  CHECK(complaint(R"({"a": {"b": 1, "b": 2}})") ==
        "error: the field \"b\" stands here more than once\n  where: deck.json: /a/b\n"
        "  help:  keep one of them\n");
  CHECK(complaint(R"({"a": [{"b": 1}, {"b": 1, "b": 2}]})").find("/a/1/b") != std::string::npos);
}

TEST_CASE("twenty thousand unknown fields are ten problems and a count") {
  Problems problems;
  std::string text = "{\"ph\": 7.4";
  for (int i = 0; i < 20000; ++i) text += ", \"f" + std::to_string(i) + "\": 0";
  Node::parse(text + "}", "deck.json", problems).allow_only(std::vector<std::string>{"ph"});
  REQUIRE(problems.found().size() == 10);
  CHECK(problems.found().front().more_like_it == 0);
  CHECK(to_text(problems.found().back()) ==
        "error: the field \"f9\" is not known here\n  where: deck.json: /f9\n"
        "  help:  known are: ph\n  and 19,990 more like it\n");
}

TEST_CASE("a name that stands thousands of times is ten problems and a count") {
  Problems problems;
  std::string text = "{\"a\": 0";
  for (int i = 0; i < 3000; ++i) text += ", \"a\": 0";
  CHECK(Node::parse(text + "}", "deck.json", problems).members().size() == 1);
  REQUIRE(problems.found().size() == 10);
  CHECK(problems.found().back().more_like_it == 2990);
}

TEST_CASE("what was found makes no kind of problem of its own") {
  Problems problems;
  for (int i = 0; i < 12; ++i) {
    const std::string quoted(static_cast<std::size_t>(i) + 1, '"');
    problems.add({"the field \"" + quoted + "\" is not known here", "", {}, ""});
  }
  problems.add({"the field \"ph\" is missing", "", {}, ""});
  CHECK(problems.found().size() == 11);
  CHECK_FALSE(problems.has_room_for("the field \"x\" is not known here"));
  CHECK(problems.has_room_for("the field \"x\" is missing"));
}

TEST_CASE("a name of a megabyte is shown by its beginning, in the message and in its place") {
  Problems problems;
  const std::string name(1U << 20U, 'x');
  Node::parse("{\"" + name + "\": 0}", "deck.json", problems)
      .allow_only(std::vector<std::string>{"ph", "vessel"});
  const std::string beginning = std::string(57, 'x') + "…";
  CHECK(to_text(problems.found().front()) == "error: the field \"" + beginning +
                                                 "\" is not known here\n  where: deck.json: /" +
                                                 beginning + "\n  help:  known are: ph, vessel\n");
}
