// Labels and the hazard sheet: every sheet in every language on its stocks, from plans that the
// planner made; and what is refused.
#include <catch2/catch.hpp>

#include "../labels/label_data.h"
#include "../layout/layout_test.h"
#include "../planning/random_job.h"
#include "../planning/sample_job.h"
#include "base/text.h"
#include "fixture.h"
#include "label_shelf.h"
#include "layout/labels/measures.h"
#include "sheets/cabinet/container_facts.h"
#include "sheets/compose.h"

namespace tub::sheets::test {
namespace {

Package package_of(const std::string& product, double grams, double ml) {
  Package package;
  package.product = product;
  package.as_labelled = shelf_item(product).product;
  package.contents_g = grams;
  package.capacity_ml = ml;
  package.supplier = {
      {"name", "Thrushwater Tubs"}, {"address", "3 Sluice Lane, Millbeck"}, {"phone", "555-0142"}};
  package.stays = Package::Stays::in_workplace;
  package.where = "job.json: /shelf/0";
  return package;
}

Diagnostic refusal(const Shelf& shelf) {
  return first_error(
      [&] { compose_pieces(shelf.sources(), sheet_named("container_label"), english(), {}); });
}

}  // namespace

TEST_CASE("the sample's labels are whole on their own stocks, in every language") {
  const Shelf shelf(sample_request());
  for (const char* const tag : {"en", "es", "fr", "de"}) {
    for (const auto& [sheet, stock] :
         std::vector<std::pair<const char*, const char*>>{{"cabinet_label", "label_100x150"},
                                                          {"cabinet_label", "label_4x6in"},
                                                          {"dose_tag", "label_74x52"},
                                                          {"hazard_sheet", "a4"},
                                                          {"hazard_sheet", "letter"}}) {
      INFO(tag << " " << sheet << " " << stock);
      const Printed result = printed(shelf.sources(), sheet, tag, test_stock(stock));
      check_pages(result.pages);
      CHECK(result.turn <= 4);  // a use each, its second amount and what is small print left out
    }
  }
}

TEST_CASE("labels of any plan fit in every language on the stocks they are made for") {
  for (std::uint64_t seed = 1; seed <= 25; ++seed) {
    const Shelf shelf(random_request(seed));
    for (const char* const tag : {"en", "es", "fr", "de"}) {
      for (const auto& [sheet, stock] : std::vector<std::pair<const char*, const char*>>{
               {"cabinet_label", "label_100x150"}, {"dose_tag", "label_74x52"}}) {
        INFO("seed " << seed << " " << tag << " " << sheet << " " << stock);
        check_pages(printed(shelf.sources(), sheet, tag, test_stock(stock)).pages);
      }
    }
  }
}

TEST_CASE("the smallest labels hold their words, or say by how much not") {
  for (std::uint64_t seed = 1; seed <= 25; ++seed) {
    const Shelf shelf(random_request(seed));
    for (const char* const tag : {"en", "es", "fr", "de"}) {
      for (const auto& [sheet, stock] : std::vector<std::pair<const char*, const char*>>{
               {"cabinet_label", "label_70x100"}, {"dose_tag", "label_50x30"}}) {
        INFO("seed " << seed << " " << tag << " " << sheet);
        try {
          check_pages(printed(shelf.sources(), sheet, tag, test_stock(stock)).pages);
        } catch (const Error& error) {
          CHECK(error.diagnostics().front().message.find(" mm ") != std::string::npos);
        }
      }
    }
  }
}

TEST_CASE("a cabinet label never gives up the volume, the targets, never mix or the gas line") {
  const Shelf shelf(sample_request());
  const Printed small = printed(shelf.sources(), "cabinet_label", "en", test_stock("label_70x100"));
  const std::string words = words_on(small.pages);
  for (const char* const kept : {"1340", "100–150", "7.4–7.6", "3–5", "between", "Never mix",
                                 "112\u00A0or\u00A0911", "Between two rows"}) {
    INFO(kept);
    CHECK(words.find(kept) != std::string::npos);
  }
}

TEST_CASE("amounts are at least 14 pt on the smallest label, and text at least 7 pt") {
  const Shelf shelf(sample_request());
  for (const auto& [sheet, stock] : std::vector<std::pair<const char*, const char*>>{
           {"cabinet_label", "label_70x100"}, {"dose_tag", "label_50x30"}}) {
    for (const Page& page : printed(shelf.sources(), sheet, "en", test_stock(stock)).pages) {
      for (const Item& item : page.items) {
        const auto* const run = std::get_if<TextRun>(&item);
        if (run == nullptr) continue;
        INFO(run->text);
        CHECK(run->size >= 7);
        const bool is_amount = run->face == Face::bold && run->text.ends_with("\u202Fg");
        if (is_amount) CHECK(run->size >= 14);
      }
    }
  }
}

TEST_CASE("a dose tag has no hazard element of its own, and names its own dry spoon") {
  const Shelf shelf(sample_request());
  const Printed tags = printed(shelf.sources(), "dose_tag", "en", test_stock("label_74x52"));
  CHECK(tags.pages.size() >= 4);
  for (const Page& page : tags.pages) {
    CHECK(measure_label(page, test_fonts()).pictogram_sides_mm.empty());
    const std::string words = words_on({page});
    CHECK(words.find("Its own") != std::string::npos);
    CHECK(words.find("1340") != std::string::npos);
    CHECK(words.find("112\u00A0or\u00A0911") != std::string::npos);
  }
}

TEST_CASE("a small tag holds one use each") {
  const Shelf shelf(sample_request());
  const SheetTemplate& tag = sheet_named("dose_tag");
  const auto whole = compose_pieces(shelf.sources(), tag, english(), {"dry_acid", 0});
  const auto split = compose_pieces(shelf.sources(), tag, english(), {"dry_acid", tag.split_at});
  CHECK(whole.value.size() == 1);
  CHECK(split.value.size() == 2);  // alkalinity too high, pH too high
}

TEST_CASE("container labels keep the rules on the labels made for their size") {
  Shelf shelf(sample_request());
  for (const auto& [stock, ml] : std::vector<std::pair<const char*, double>>{
           {"label_74x105", 500}, {"label_74x105", 2500}, {"label_105x148", 20000}}) {
    for (const char* const rules : {"clp", "hazcom"}) {
      for (const char* const product :
           {"dry_acid", "soda_ash", "dichlor_dihydrate", "calcium_chloride_dihydrate"}) {
        INFO(stock << " " << rules << " " << product);
        shelf.rules = rules;
        shelf.packages = {package_of(product, 500, ml)};
        const Printed label = printed(shelf.sources(), "container_label", "en", test_stock(stock));
        check_pages(label.pages);
        REQUIRE(label.pages.size() == 1);
        const LabelFindings findings =
            check_label(measure_label(label.pages[0], test_fonts()), label_rules(rules), ml / 1000);
        for (const Diagnostic& broken : findings.broken) CHECK(broken.message == "");
      }
    }
  }
}

TEST_CASE("a laid-out label that is too small for its package names the size that would do") {
  Shelf shelf(sample_request());
  shelf.packages = {package_of("dry_acid", 15000, 15000)};
  const Printed label =
      printed(shelf.sources(), "container_label", "en", test_stock("label_70x100"));
  const LabelFindings findings =
      check_label(measure_label(label.pages.at(0), test_fonts()), label_rules("clp"), 15);
  REQUIRE_FALSE(findings.broken.empty());
  CHECK(findings.broken.front().help == "use a label of at least 74 x 105 mm");
}

TEST_CASE("a container label leaves nothing undecided") {
  Shelf shelf(sample_request());
  for (const char* const product : {"dry_acid", "dichlor_dihydrate", "soda_ash"}) {
    shelf.packages = {package_of(product, 500, 500)};
    for (const char* const tag : {"en", "es", "fr", "de"}) {
      const auto pieces =
          compose_pieces(shelf.sources(), sheet_named("container_label"), language(tag), {});
      const std::string words = words_of(pieces.value.at(0));
      INFO(tag << " " << words);
      CHECK(words.find('/') == std::string::npos);
      CHECK(words.find("…") == std::string::npos);
    }
  }
}

TEST_CASE("a label in two languages says each whole, the second marked as its own") {
  Shelf shelf(sample_request());
  shelf.packages = {package_of("dry_acid", 500, 500)};
  PieceRequest request;
  request.more_languages = {&language("de")};
  const auto pieces =
      compose_pieces(shelf.sources(), sheet_named("container_label"), english(), request);
  const std::string words = words_of(pieces.value.at(0));
  for (const char* const said : {"Danger", "Gefahr", "Causes serious eye damage.",
                                 "Verursacht schwere Augenschäden.", "Säure\u00ADgranulat"}) {
    INFO(said);
    CHECK(words.find(said) != std::string::npos);
  }
}

TEST_CASE("a sanitizer for an owner is refused with the reason, and the dose tag offered") {
  Shelf shelf(sample_request());
  shelf.packages = {package_of("dichlor_dihydrate", 500, 500)};
  shelf.packages[0].stays = Package::Stays::with_owner;
  const Diagnostic found = refusal(shelf);
  CHECK(found.message.find("not re-labelled") != std::string::npos);
  CHECK(found.help.find("dose_tag") != std::string::npos);
  CHECK(found.where == "job.json: /shelf/0");
}

TEST_CASE("what a container label lacks is told with its place and the way out") {
  Shelf shelf(sample_request());
  CHECK(refusal(shelf).message.find("no product on the shelf has a package") == 0);
  shelf.packages = {package_of("dry_acid", 500, 500)};
  shelf.rules = "";
  CHECK(refusal(shelf).help.find("\"rules\": \"clp\"") != std::string::npos);
  shelf.rules = "clp";
  shelf.packages[0].supplier.erase("address");
  shelf.packages[0].supplier_where = "shop.json: /heading/prepared_by";
  CHECK(refusal(shelf).message ==
        "the rules clp ask for the supplier's name, address and phone, and address is missing");
  CHECK(refusal(shelf).where == "shop.json: /heading/prepared_by");
}

TEST_CASE("a strength without codes is refused, never guessed") {
  Shelf shelf(sample_request());
  shelf.packages = {package_of("sodium_bicarbonate", 500, 500)};
  CHECK(refusal(shelf).help.find("hazard_statements") != std::string::npos);
  shelf.packages[0].has_own_statements = true;  // its data sheet lists none
  const auto pieces =
      compose_pieces(shelf.sources(), sheet_named("container_label"), english(), {});
  CHECK(words_of(pieces.value.at(0)).find("Not classified as hazardous.") != std::string::npos);
}

TEST_CASE("hazcom asks for English") {
  Shelf shelf(sample_request());
  shelf.packages = {package_of("dry_acid", 500, 500)};
  shelf.rules = "hazcom";
  const Diagnostic found = first_error(
      [&] { compose_pieces(shelf.sources(), sheet_named("container_label"), language("es"), {}); });
  CHECK(found.help == "add it: \"language\": [ \"en\", \"es\" ]");
}

TEST_CASE("before a container is handed over its closure, mark and cap are named") {
  PlanRequest request = sample_request();
  request.shelf.push_back(shelf_item("muriatic_acid"));
  Shelf shelf(request);
  Package package = package_of("muriatic_acid", 0, 1000);
  package.contents_g.reset();
  package.contents_ml = 1000;
  package.stays = Package::Stays::with_owner;
  package.has_own_strength = true;
  package.ufi = "AB12-CD34-EF56-GH78";
  shelf.packages = {package};
  const auto pieces =
      compose_pieces(shelf.sources(), sheet_named("container_label"), english(), {});
  REQUIRE(pieces.warnings.size() == 1);
  CHECK(pieces.warnings[0].message ==
        "muriatic_acid may leave the shop only with a child-resistant closure, a tactile mark");
  const Printed label =
      printed(shelf.sources(), "container_label", "en", test_stock("label_105x148"));
  check_pages(label.pages);
  const std::string words = words_on(label.pages);
  CHECK(words.find("UFI: AB12-CD34-EF56-GH78") != std::string::npos);
  CHECK(words.find("child-resistant closure") != std::string::npos);
}

}  // namespace tub::sheets::test
