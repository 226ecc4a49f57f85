// Language files: what is said of bad ones, and the typography of ours.
#include "sheets/template/messages.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "base/text.h"
#include "fixture.h"
#include "project_text.h"
#include "sheets/template/vocabulary.h"

namespace {

using tub::sheets::Messages;
using tub::sheets::RequiredMessage;

const std::vector<RequiredMessage> required = {{"greet.all", {"name"}}, {"leave", {}}};

std::string file_with(const std::string& messages) {
  return R"({"language": "en", "name": "English",
    "numbers": {"decimal": ".", "group": " ", "singular_up_to": 1},
    "months": ["1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11", "12"],
    "messages": )" +
         messages + "}";
}

std::string complaint(const std::string& text) {
  try {
    Messages::parse(text, "en.json", required);
    return "";
  } catch (const tub::Error& error) {
    return error.what();
  }
}

// Every message of a language file with its key.
void collect(const nlohmann::json& node, const std::string& prefix,
             std::map<std::string, std::string>& messages) {
  for (const auto& [name, value] : node.items()) {
    const std::string key = prefix.empty() ? name : prefix + "." + name;
    if (value.is_object()) {
      collect(value, key, messages);
    } else {
      messages[key] = value.get<std::string>();
    }
  }
}

std::map<std::string, std::string> english_messages() {
  std::map<std::string, std::string> messages;
  collect(nlohmann::json::parse(tub::project_text("templates/languages/en.json")).at("messages"),
          "", messages);
  return messages;
}

bool holds(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

bool is_digit(char32_t c) { return (c >= U'0' && c <= U'9') || c == U'}'; }

}  // namespace

TEST_CASE("a message is filled with its parameters, marks around them kept") {
  const Messages messages =
      Messages::parse(file_with(R"({"greet": {"all": "Hello *{name}*, [7.4]"}, "leave": "bye"})"),
                      "en.json", required);
  const tub::sheets::Words words = messages.words("greet.all", {{"name", std::string("Marrow")}});
  REQUIRE(words.parts.size() == 4);
  CHECK(std::get<tub::sheets::Bold>(words.parts[1]).text == "Marrow");
  CHECK(std::get<tub::sheets::Band>(words.parts[3]).text == "7.4");
  CHECK(messages.text("leave") == "bye");
}

TEST_CASE("faults of a language file are named with key, file and place") {
  const std::pair<const char*, const char*> rows[] = {
      {R"({"greet": {"all": "Hello"}})",
       "error: the message \"leave\" is missing\n  where: en.json: /messages\n"
       "  help:  add it to this language\n"},
      {R"({"greet": {"all": "Hello"}, "leave": "bye", "leeve": "bye"})",
       "error: no sheet uses a message \"leeve\"\n  where: en.json: /messages/leeve\n"
       "  help:  did you mean leave?\n"},
      {R"({"greet": {"all": "Hello {nam}"}, "leave": "bye"})",
       "error: the message \"greet.all\" has no placeholder {nam}\n"
       "  where: en.json: /messages/greet/all\n  help:  did you mean name?\n"},
      {R"({"greet": {"all": "Hello *you"}, "leave": "bye"})",
       "error: the mark `*` is opened and not closed\n  where: en.json: /messages/greet/all\n"
       "  help:  close it\n"},
      {R"({"greet": {"all": ""}, "leave": "bye"})",
       "error: the message \"greet.all\" is empty\n  where: en.json: /messages/greet/all\n"
       "  help:  write its words\n"},
      {R"({"greet": {"all": 3}, "leave": "bye"})",
       "error: expected a text, found 3\n  where: en.json: /messages/greet/all\n"},
  };
  for (const auto& [messages, text] : rows) CHECK(complaint(file_with(messages)) == text);
}

TEST_CASE("a date stands in words, in the language's order") {
  CHECK(tub::sheets::test::english().date({2026, 5, 4}) == "4 May 2026");
}

TEST_CASE("English has every message that the templates, the code and the data files ask for") {
  const auto keys = tub::sheets::required_messages(tub::sheets::test::all_sheets(), {},
                                                   tub::sheets::test::planning_data());
  for (const RequiredMessage& message : keys) CHECK(tub::sheets::test::english().has(message.key));
  CHECK(keys.size() == english_messages().size());
}

TEST_CASE("messages are set in real type") {
  for (const auto& [key, text] : english_messages()) {
    INFO(key << ": " << text);
    for (const char* const wrong : {"'", "\"", "...", " - ", "--", "+-", " x ", "  "}) {
      CHECK_FALSE(holds(text, wrong));
    }
    for (const char* const abbreviation : {"tsp", "tbsp", "Tbs"}) {
      CHECK_FALSE(holds(text, abbreviation));
    }
    const std::u32string points = *tub::code_points(text);
    for (std::size_t i = 1; i + 1 < points.size(); ++i) {
      const bool between_digits =
          is_digit(points[i - 1]) && points[i + 1] >= U'0' && points[i + 1] <= U'9';
      CHECK_FALSE((points[i] == U'-' && between_digits));
    }
    CHECK(points.front() != U' ');
    CHECK(points.back() != U' ');
  }
}

TEST_CASE("a unit stands a thin no-break space from its number") {
  for (const auto& [key, text] : english_messages()) {
    if (!key.starts_with("unit.") || key.ends_with("_name")) continue;
    INFO(key);
    CHECK(text.starts_with("{n}\u202F"));
    CHECK_FALSE(holds(text, " "));
  }
}
