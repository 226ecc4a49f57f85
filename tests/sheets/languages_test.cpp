// Every language is whole: the same words, the same places in them, and real type.
#include <catch2/catch.hpp>
#include <map>
#include <nlohmann/json.hpp>
#include <set>

#include "base/text.h"
#include "fixture.h"
#include "project_text.h"
#include "sheets/template/messages.h"
#include "sheets/template/phrase.h"
#include "sheets/template/vocabulary.h"

namespace tub::sheets::test {
namespace {

using Texts = std::map<std::string, std::string>;

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

std::string text_of_language(const std::string& tag) {
  return project_text("templates/languages/" + tag + ".json");
}

Texts messages_of(const std::string& tag) {
  Texts texts;
  collect(nlohmann::json::parse(text_of_language(tag)).at("messages"), "", texts);
  return texts;
}

std::set<std::string> places_of(const std::string& text) {
  const std::vector<std::string> names = placeholders_of(read_phrase(text));
  return {names.begin(), names.end()};
}

TEST_CASE("each language has every word that the sheets ask for") {
  for (const char* const tag : {"es", "fr", "de"}) {
    const std::vector<RequiredMessage> required =
        required_messages(all_sheets(), {}, planning_data());
    CAPTURE(tag);
    CHECK_NOTHROW(Messages::parse(text_of_language(tag), tag, required));
  }
}

TEST_CASE("each language has the keys of English, and the same places to fill in") {
  const Texts english_texts = messages_of("en");
  for (const char* const tag : {"es", "fr", "de"}) {
    const Texts texts = messages_of(tag);
    CHECK(texts.size() == english_texts.size());
    for (const auto& [key, text] : english_texts) {
      CAPTURE(tag, key);
      REQUIRE(texts.count(key) == 1);
      CHECK(places_of(texts.at(key)) == places_of(text));
      CHECK(texts.at(key).empty() == text.empty());
    }
  }
}

TEST_CASE("no language has straight quotes, double spaces or short spoons") {
  for (const char* const tag : {"es", "fr", "de"}) {
    for (const auto& [key, text] : messages_of(tag)) {
      CAPTURE(tag, key, text);
      for (const char* const mark : {"'", "\"", "  ", " - ", "...", "cdta", "c. à", "TL", "EL"}) {
        CHECK(text.find(mark) == std::string::npos);
      }
    }
  }
}

TEST_CASE("the warnings stand in each language as loud as in English") {
  for (const char* const tag : {"es", "fr", "de"}) {
    const Texts texts = messages_of(tag);
    CAPTURE(tag);
    for (const char* const key : {"gas", "gate.people"}) {
      CHECK(texts.at(key).front() == '*');
      CHECK(texts.at(key).back() == '*');
    }
    CHECK(texts.at("gas").find("{emergency}") != std::string::npos);
    CHECK(texts.at("gate.people").find('5') != std::string::npos);
  }
}

}  // namespace
}  // namespace tub::sheets::test
