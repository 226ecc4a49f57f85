// The rules for container labels: figures as the law has them, and what a broken one says.
#include "labels/rules.h"

#include <catch2/catch.hpp>
#include <cmath>

#include "base/text.h"
#include "label_data.h"

namespace tub::labels {
namespace {

/// A label that keeps every rule for a package of 3.1 to 50 L.
LabelMeasures good_label() {
  return {.width_mm = 74,
          .height_mm = 105,
          .pictogram_sides_mm = {23, 23},
          .least_x_height_mm = 1.84,
          .least_line_distance = 1.21,
          .least_contrast = 21,
          .colourless_frames = 0};
}

std::vector<std::string> messages(const std::vector<Diagnostic>& diagnostics) {
  std::vector<std::string> texts;
  for (const Diagnostic& diagnostic : diagnostics) texts.push_back(diagnostic.message);
  return texts;
}

using Texts = std::vector<std::string>;

TEST_CASE("the least sizes are those of the table in the law, row by row") {
  for (const auto& row : reference_rows("label_sizes.csv", ',')) {
    const double litres = to_number(row.at(0)).value();
    CAPTURE(litres);
    const LabelSize& size = label_rules("clp").size_for(litres);
    CHECK(size.short_side_mm == to_number(row.at(1)).value());
    CHECK(size.long_side_mm == to_number(row.at(2)).value());
    CHECK(size.is_if_possible == (row.at(3) == "yes"));
    CHECK(size.pictogram_mm == to_number(row.at(4)).value());
    CHECK(size.pictogram_preferred_mm == to_number(row.at(5)));
    CHECK(size.x_height_mm == to_number(row.at(6)).value());
  }
}

TEST_CASE("each pictogram covers a fifteenth of the least label, and a square centimetre") {
  // Source: CLP Annex I 1.2.1.3; where the table says "if possible", its preferred side does
  for (const LabelSize& size : label_rules("clp").sizes) {
    const double side = size.pictogram_preferred_mm.value_or(size.pictogram_mm);
    CHECK(side == Approx(std::sqrt(size.short_side_mm * size.long_side_mm / 15)).margin(0.5));
    CHECK(size.pictogram_mm * size.pictogram_mm >= 100);
  }
}

TEST_CASE("a label that keeps the rules is found faultless, lying or standing") {
  LabelMeasures label = good_label();
  const LabelFindings found = check_label(label, label_rules("clp"), 10);
  CHECK(messages(found.broken) == Texts{});
  CHECK(messages(found.warnings) == Texts{});
  std::swap(label.width_mm, label.height_mm);
  CHECK(messages(check_label(label, label_rules("clp"), 10).broken) == Texts{});
}

TEST_CASE("a label too small for its package is refused with the size that would do") {
  LabelMeasures label = good_label();
  label.width_mm = 52;
  label.height_mm = 74;
  const LabelFindings found = check_label(label, label_rules("clp"), 10);
  REQUIRE(messages(found.broken) ==
          Texts{"a label of 52 x 74 mm is smaller than the 74 x 105 mm that a package of 10 L "
                "needs"});
  CHECK(found.broken.front().help == "use a label of at least 74 x 105 mm");
  CHECK(found.broken.front().where == "rules clp: sizes");
}

TEST_CASE("where the rule says if possible, a smaller label is only warned of") {
  LabelMeasures label = good_label();
  label.width_mm = 50;
  label.height_mm = 30;
  label.pictogram_sides_mm = {10};
  const LabelFindings found = check_label(label, label_rules("clp"), 0.4);
  CHECK(messages(found.broken) == Texts{});
  CHECK(messages(found.warnings) ==
        Texts{"a label of 30 x 50 mm is smaller than the 52 x 74 mm that a package of 0.4 L needs "
              "if possible",
              "a pictogram with a side of 10.00 mm is smaller than the 16 mm that a package of 0.4 "
              "L should have if possible"});
}

TEST_CASE("a pictogram is measured by the side of its square, not by the box round the diamond") {
  LabelMeasures label = good_label();
  label.pictogram_sides_mm = {23, 23 / 1.414};
  const LabelFindings found = check_label(label, label_rules("clp"), 10);
  REQUIRE(messages(found.broken) ==
          Texts{"a pictogram with a side of 16.27 mm is smaller than the 23 mm that a package of "
                "10 L needs"});
  CHECK(found.broken.front().help == "give the pictogram a side of 23 mm");
}

TEST_CASE("text is refused for its x-height, its line distance and its contrast") {
  LabelMeasures label = good_label();
  label.least_x_height_mm = 1.42;
  label.least_line_distance = 1.15;
  label.least_contrast = 6.1;
  CHECK(messages(check_label(label, label_rules("clp"), 10).broken) ==
        Texts{"the smallest text has an x-height of 1.42 mm, and 1.8 mm are needed",
              "two lines are 1.150 of the type's size apart, and 1.2 are needed",
              "a text has a contrast of 6.1:1, and 7:1 are needed"});
}

TEST_CASE("the same text serves a package of half a litre and not one of fifty") {
  LabelMeasures label = good_label();
  label.least_x_height_mm = 1.3;
  CHECK(messages(check_label(label, label_rules("clp"), 0.5).broken) == Texts{});
  CHECK(messages(check_label(label, label_rules("clp"), 50).broken).size() == 1);
}

TEST_CASE("a frame that is not red is refused by both sets of rules") {
  LabelMeasures label = good_label();
  label.colourless_frames = 2;
  for (const char* const id : {"clp", "hazcom"}) {
    const LabelFindings found = check_label(label, label_rules(id), 10);
    REQUIRE(messages(found.broken) == Texts{"2 of the pictograms have no red frame"});
    CHECK(found.broken.front().help.find("preprinted red frames, all of them filled") !=
          std::string::npos);
    CHECK_FALSE(label_rules(id).are_empty_frames_allowed);
  }
}

TEST_CASE("a job without rules, or with unknown ones, is told what there is") {
  CHECK(first_error([] { label_rules(""); }).message ==
        "a container label needs a set of rules, and the job names none");
  CHECK(first_error([] { label_rules("clip"); }).help == "did you mean clp?");
}

TEST_CASE("a supplier's line without its parts is refused part by part") {
  CHECK(missing_of_supplier({{"name", "Thrushwater Tubs"}, {"phone", " "}}, label_rules("clp")) ==
        Texts{"address", "phone"});
  CHECK(missing_of_supplier({{"name", "a"}, {"phone", "b"}, {"address", "c"}}, label_rules("clp"))
            .empty());
}

TEST_CASE("every figure of the rules has a source") {
  for (const char* const id : {"clp", "hazcom"}) {
    for (const char* const field :
         {"sizes", "x_height", "line_distance", "contrast", "red_frame", "empty_frames",
          "environment", "supplier", "small_package", "supplements"}) {
      CAPTURE(id, field);
      CHECK(label_rules(id).sources.count(field) == 1);
    }
  }
}

TEST_CASE("a table whose volumes do not rise is refused at its place") {
  const std::string text = R"({"sets": [{"id": "x", "sizes": [
    {"to_litres": 3, "label_mm": [1, 2], "pictogram_mm": 10, "x_height_mm": 1},
    {"to_litres": 1, "label_mm": [1, 2], "pictogram_mm": 10, "x_height_mm": 1}],
    "line_distance": 1.2, "contrast": 7, "languages": [], "supplier": [], "small_package_ml": 0,
    "supplements": [], "sources": {}}]})";
  const Diagnostic found = first_error([&] { parse_label_rules(text, "rules.json"); });
  CHECK(found.message.find("do not rise") != std::string::npos);
  CHECK(found.where == "rules.json: /sets/0");
}

}  // namespace
}  // namespace tub::labels
