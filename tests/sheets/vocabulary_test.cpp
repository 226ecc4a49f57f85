// Every code that a plan can carry has its words: read from the sources that write codes.
#include "sheets/template/vocabulary.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <regex>
#include <set>

#include "fixture.h"
#include "project_text.h"

namespace {

using namespace tub;
using namespace tub::sheets;

// The sources of a module, one after the other.
std::string sources_of(const std::string& module) {
  std::string all;
  const std::string folder = "src/" + module;
  for (const auto& entry :
       std::filesystem::recursive_directory_iterator(std::string(TUB_SOURCE_DIR) + "/" + folder)) {
    if (entry.path().extension() != ".cpp") continue;
    const auto relative = std::filesystem::relative(entry.path(), TUB_SOURCE_DIR);
    all += project_text(relative.string());
  }
  return all;
}

std::set<std::string> matches(const std::string& text, const char* pattern) {
  const std::regex regex(pattern);
  std::set<std::string> found;
  for (auto match = std::sregex_iterator(text.begin(), text.end(), regex);
       match != std::sregex_iterator(); ++match) {
    found.insert((*match)[1]);
  }
  return found;
}

void check_words(const std::set<std::string>& codes, const std::string& group) {
  for (const std::string& code : codes) {
    INFO(group << "." << code);
    CHECK(test::english().has(group + "." + code));
  }
}

}  // namespace

TEST_CASE("every note and assumption that a plan can carry has its words") {
  const std::string sources = sources_of("planning") + sources_of("job");
  std::set<std::string> notes = matches(sources, R"(notes\.push_back\(\s*\{\s*"([a-z_]+)\")");
  CHECK(notes.size() >= 3);
  CHECK(notes.erase("later_step_moves_it") == 1);
  check_words(notes, "note");
  CHECK(test::english().has("note.later_step_takes"));
  CHECK(test::english().has("note.later_step_adds"));
  const auto assumed = matches(sources, R"(assumed_?\.push_back\(\s*\{\s*"([a-z_]+)\")");
  CHECK(assumed.size() >= 5);
  check_words(assumed, "assumed");
  const auto rows = matches(sources, R"(reason_of\([a-z_.]*assumptions_?\.([a-z_0-9]+)\))");
  CHECK(rows.size() >= 5);
  check_words(rows, "assumed");
  check_words(matches(sources, "Reason reason\\{\"([a-z_]+)\""), "assumed");
}

TEST_CASE("every reason for an unmet target has its words") {
  const std::string source = project_text("src/planning/remedies/unmet.cpp");
  std::set<std::string> codes =
      matches(source, "\"([a-z]+_[a-z_]*(?:_on_shelf|_shell|_way|_high|_pour))\"");
  CHECK(codes.size() >= 8);
  codes.erase("_too_high");
  check_words(codes, "unmet");
  for (const Reading reading : all_readings) {
    CHECK(test::english().has("unmet." + std::string(name_of(reading)) + "_too_high"));
  }
}

TEST_CASE("every product, sign, danger, pair, spoon and target set has its words") {
  for (const Product& product : test::planning_data().products) {
    check_words({"name", "in_text", "how"}, "product." + product.id);
    for (const std::string& sign : product.protection) {
      check_words({"name", "alt", "too"}, "protection." + sign);
    }
  }
  for (const std::string& code : known_hazard_codes()) check_words({code}, "pair");
  for (const std::string& code : known_dangers()) {
    if (!code.empty()) check_words({code}, "danger");
  }
  for (const TargetSet& set : test::planning_data().target_sets) check_words({set.id}, "targets");
}

TEST_CASE("a new product needs its name in every language") {
  PlanningData data = test::planning_data();
  data.products.push_back(data.products.front());
  data.products.back().id = "new_product";
  const auto required = required_messages(test::all_sheets(), {}, data);
  const auto is_key = [](const char* key) {
    return [key](const RequiredMessage& message) { return message.key == key; };
  };
  CHECK(std::any_of(required.begin(), required.end(), is_key("product.new_product.name")));
  try {
    Messages::parse(project_text("templates/languages/en.json"), "en.json", required);
    FAIL("a language without a product's name was read");
  } catch (const Error& error) {
    CHECK(std::string(error.what()).find("the message \"product.new_product.name\" is missing") !=
          std::string::npos);
  }
}

TEST_CASE("what only a replaced template says may stay in a language, and need not") {
  const auto trial = [](const std::string& key) {
    return parse_sheet_template(R"({"sheet": "trial", "facts": "plan", "title": "{say.)" + key +
                                    R"(}", "blocks": [], "foot": {}, "alternatives": {}})",
                                key + ".json");
  };
  const std::vector<SheetTemplate> sheets = {trial("new_words")};
  const std::vector<SheetTemplate> replaced = {trial("old_words")};
  const auto required = required_messages(sheets, replaced, PlanningData{});
  const auto row = [&](const std::string& key) {
    return *std::find_if(required.begin(), required.end(),
                         [&](const RequiredMessage& message) { return message.key == key; });
  };
  CHECK(row("new_words").is_needed);
  CHECK(row("new_words").said_by == "new_words.json");
  CHECK_FALSE(row("old_words").is_needed);
  CHECK(row("rung.fill").is_needed);
}
