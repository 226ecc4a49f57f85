// The words of statements, against the law's own text.
#include "labels/statements.h"

#include <catch2/catch.hpp>
#include <set>

#include "base/text.h"
#include "label_data.h"

namespace tub::labels {
namespace {

/// Where the law leaves a choice or a gap: the first of its marks, or the end.
std::size_t open_place(const std::string& text) {
  std::size_t first = text.size();
  for (const char* const mark : {"/", "…", "...", " [", "[", " o el recipiente"}) {
    first = std::min(first, text.find(mark));
  }
  return first;
}

/// Straight to typographic apostrophes, and a full stop where the law's print lacks it.
std::string tidied(std::string text) {
  text = replaced(text, "'", "’");
  const char last = text.back();
  return last == '.' || last == '!' || last == ':' ? text : text + ".";
}

StatementVoice voice(const std::string& language, Form form = Form::granules) {
  return {.language = language,
          .law = StatementLaw::clp,
          .form = form,
          .protection = {"gloves", "eyes"}};
}

TEST_CASE("a statement without a choice is the law's text to the letter") {
  int whole = 0;
  for (const auto& row : reference_rows("statements.tsv", '\t')) {
    const std::string official = tidied(row.at(2));
    if (open_place(official) < official.size()) continue;
    CAPTURE(row.at(0), row.at(1));
    CHECK(label_statements().text(row.at(0), voice(row.at(1))) == official);
    ++whole;
  }
  CHECK(whole > 200);
}

TEST_CASE("a statement with a choice begins as the law does, up to the choice") {
  int open = 0;
  for (const auto& row : reference_rows("statements.tsv", '\t')) {
    const std::string official = tidied(row.at(2));
    const std::size_t at = open_place(official);
    if (at == official.size() || row.at(0) == "P280") continue;
    CAPTURE(row.at(0), row.at(1), official);
    // The last word before the choice may change its ending or be the first of several.
    const std::size_t word = official.rfind(' ', at == 0 ? 0 : at - 1);
    const std::string beginning = word == std::string::npos ? "" : official.substr(0, word);
    const std::string text = label_statements().text(row.at(0), voice(row.at(1)));
    CHECK(text.substr(0, beginning.size()) == beginning);
    ++open;
  }
  CHECK(open > 40);
}

TEST_CASE("no statement leaves a solidus, bracket, ellipsis or straight quote to the reader") {
  for (const std::string& code : label_statements().codes()) {
    for (const char* const language : {"en", "es", "fr", "de"}) {
      for (const Form form : {Form::granules, Form::liquid}) {
        for (const StatementLaw law : {StatementLaw::clp, StatementLaw::hazcom}) {
          StatementVoice with = voice(language, form);
          with.law = law;
          const std::string text = label_statements().text(code, with);
          CAPTURE(code, text);
          for (const char* const mark : {"/", "…", "...", "[", "<", "'", "\"", "  "}) {
            CHECK(text.find(mark) == std::string::npos);
          }
          CHECK((text.back() == '.' || text.back() == '!'));
        }
      }
    }
  }
}

TEST_CASE("what to breathe and what to wear are said of this product") {
  CHECK(label_statements().text("P260", voice("en")) == "Do not breathe dust.");
  CHECK(label_statements().text("P260", voice("de", Form::liquid)) == "Dampf nicht einatmen.");
  CHECK(label_statements().text("P280", voice("en")) ==
        "Wear protective gloves and eye protection.");
  StatementVoice acid = voice("fr", Form::liquid);
  acid.protection = {"gloves", "clothing", "eyes", "face"};
  CHECK(label_statements().text("P280", acid) ==
        "Porter des gants de protection, des vêtements de protection, un équipement de protection "
        "des yeux et un équipement de protection du visage.");
  CHECK(protection_parts(Names{"gloves", "acid_gloves", "goggles", "face_shield", "mask"}) ==
        Names{"gloves", "eyes", "face"});
}

TEST_CASE("the English of the United States has its own words, and other languages keep theirs") {
  StatementVoice american = voice("en");
  american.law = StatementLaw::hazcom;
  // Source: 29 CFR 1910.1200 Appendix C, as extracted
  CHECK(label_statements().text("H272", american) == "May intensify fire; oxidizer.");
  CHECK(label_statements().text("P301+P330+P331", american) ==
        "If swallowed: Rinse mouth. Do NOT induce vomiting.");
  CHECK(label_statements().text("H302", american) == "Harmful if swallowed.");
  american.language = "de";
  CHECK(label_statements().text("H272", american) == "Kann Brand verstärken; Oxidationsmittel.");
}

TEST_CASE("every statement that the hazard table can ask for has words") {
  std::set<std::string> asked(hazard_table().supplements.begin(), hazard_table().supplements.end());
  for (const LabelHazard& hazard : hazard_table().hazards) {
    asked.insert(hazard.code);
    for (const auto& [precaution, weight] : hazard.precautions) asked.insert(precaution);
  }
  for (const std::string& code : asked) {
    CAPTURE(code);
    CHECK_NOTHROW(label_statements().text(code, voice("es")));
  }
}

TEST_CASE("an unknown statement or language is refused with the nearest") {
  CHECK(first_error([] { label_statements().text("P306+P361", voice("en")); }).help ==
        "did you mean P306+P360?");
  CHECK(first_error([] { label_statements().text("P310", voice("nl")); }).message ==
        "there are no statements in the language \"nl\"");
  CHECK(label_statements().signal_word(Product::Signal::warning, "de") == "Achtung");
}

}  // namespace
}  // namespace tub::labels
