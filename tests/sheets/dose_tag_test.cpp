// Dose tags and the cabinet label that goes with them: one computation, and safety to the last.
#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "../labels/label_data.h"
#include "../layout/layout_test.h"
#include "../planning/random_job.h"
#include "../planning/sample_job.h"
#include "base/text.h"
#include "fixture.h"
#include "label_shelf.h"
#include "sheets/cabinet/top_up_facts.h"
#include "sheets/compose.h"
#include "sheets/template/wording.h"

namespace tub::sheets::test {
namespace {

const std::vector<const char*> languages = {"en", "es", "fr", "de"};

std::vector<Document> tags_of(const Shelf& shelf, const std::string& tag, int turn,
                              const std::string& product = "") {
  return compose_pieces(shelf.sources(), sheet_named("dose_tag"), language(tag), {product, turn})
      .value;
}

int last_turn() { return static_cast<int>(sheet_named("dose_tag").given_up.size()); }

/// Where a text stands in the words of a tag.
std::size_t place_in(const Document& tag, const std::string& text) {
  return read_aloud(tag).find(text);
}

/// What a label says of one reading: "7.8 → 16 g".
using Said = std::set<std::string>;

Said on_the_cabinet_label(const Shelf& shelf) {
  Said said;
  const FactSets labels = cabinet_facts(shelf.sources(), english(), {});
  for (const Facts& reading : labels.value.at(0).list("readings")) {
    for (const Facts& line : reading.list("lines")) {
      for (const std::string side : {"low", "high"}) {
        said.insert(text_of(reading.words("name")) + " " + text_of(line.words(side + "_reads")) +
                    " → " + text_of(line.words(side + "_amount")));
      }
    }
  }
  return said;
}

Said on_the_tags(const Shelf& shelf) {
  Said said;
  for (const Facts& tag : tag_facts(shelf.sources(), english(), {}).value) {
    for (const Facts& use : tag.list("uses")) {
      if (!use.is_present("reading")) continue;
      for (const Facts& row : use.list("rows")) {
        // Tags call them by their short names.
        const std::string reading =
            replaced(replaced(text_of(use.words("reading")), "Alkalinity", "Total alkalinity"),
                     "Chlorine", "Free chlorine");
        said.insert(reading + " " + text_of(row.words("reads")) + " → " +
                    text_of(row.words("amount")));
      }
    }
  }
  return said;
}

/// Checks that a tag names everything that its product must never meet, the worst first.
void check_never_meets(const Shelf& shelf, const Document& tag, const std::string& tongue) {
  const SheetSources sources = shelf.sources();
  const Wording wording(sources, language(tongue));
  std::size_t last = 0;
  std::set<std::string> told;
  for (const std::string severity : {"deadly", "harmful", "spoils"}) {
    std::size_t furthest = last;
    for (const HazardPair& pair : shelf.plan.hazards) {
      const std::string& product = tag.properties.product;
      if (pair.severity != severity || (pair.first != product && pair.second != product)) continue;
      const std::string& partner = pair.first == product ? pair.second : pair.first;
      if (!told.insert(partner).second) continue;
      const std::size_t found = read_aloud(tag).find(wording.product_in_text(partner), last);
      INFO(read_aloud(tag) << "\n" << partner << " " << severity);
      REQUIRE(found != std::string::npos);
      furthest = std::max(furthest, found);
    }
    last = furthest;
  }
}

}  // namespace

TEST_CASE("a dose tag names all that its product must never meet on this shelf, the worst first") {
  for (std::uint64_t seed = 1; seed <= 15; ++seed) {
    const Shelf shelf(random_request(seed));
    for (const char* const tongue : languages) {
      for (const Document& tag : tags_of(shelf, tongue, 0)) {
        INFO("seed " << seed << " " << tongue << " " << tag.properties.product);
        check_never_meets(shelf, tag, tongue);
      }
    }
  }
}

TEST_CASE("acid's tag says poison gas before splashes, and names chlorine before soda") {
  const Shelf shelf(sample_request());
  const Document tag = tags_of(shelf, "en", 0, "dry_acid").at(0);
  CHECK(place_in(tag, "dichlor: poison gas") != std::string::npos);
  CHECK(place_in(tag, "dichlor: poison gas") < place_in(tag, "sodium bicarbonate"));
}

TEST_CASE("a product with no dangerous partner is never mixed all the same") {
  PlanRequest request = sample_request();
  request.shelf = {shelf_item("sodium_bicarbonate"), shelf_item("dichlor_dihydrate")};
  const Shelf shelf(request);
  for (const char* const tongue : languages) {
    const Document tag = tags_of(shelf, tongue, 0, "sodium_bicarbonate").at(0);
    CHECK(place_in(tag, language(tongue).text("dose_tag.never_with_any")) != std::string::npos);
  }
}

TEST_CASE("a dose tag asks for what protects from its product, to the last thing given up") {
  PlanRequest request = sample_request();
  request.shelf.push_back(shelf_item("sodium_hypochlorite"));
  const Shelf shelf(request);
  for (const char* const tongue : languages) {
    for (int turn = 0; turn <= last_turn(); ++turn) {
      for (const Document& tag : tags_of(shelf, tongue, turn)) {
        INFO(tongue << " " << turn << " " << read_aloud(tag));
        const std::string id = tag.properties.product;
        for (const std::string& sign : shelf_item(id).product.protection) {
          const std::string word = language(tongue).text("protection." + sign + ".alone");
          CHECK(place_in(tag, word) != std::string::npos);
        }
      }
    }
  }
}

TEST_CASE("deadly partners and the gas line stay on a dose tag to the last thing given up") {
  const Shelf shelf(sample_request());
  for (const char* const tongue : languages) {
    const Wording wording(shelf.sources(), language(tongue));
    for (int turn = 0; turn <= last_turn(); ++turn) {
      for (const Document& tag : tags_of(shelf, tongue, turn, "dry_acid")) {
        INFO(tongue << " " << turn << " " << read_aloud(tag));
        CHECK(place_in(tag, language(tongue).text("never_mix.word")) != std::string::npos);
        CHECK(place_in(tag, wording.product_in_text("dichlor_dihydrate")) != std::string::npos);
        CHECK(place_in(tag, "112") != std::string::npos);
        CHECK(place_in(tag, language(tongue).text("dose_tag.own_dry_spoon")) != std::string::npos);
      }
    }
  }
}

TEST_CASE("a dose tag carries the tub's name until nothing else is left to give up") {
  const Shelf shelf(sample_request());
  for (int turn = 0; turn < last_turn(); ++turn) {
    for (const Document& tag : tags_of(shelf, "en", turn)) {
      CHECK(place_in(tag, "Garden tub") != std::string::npos);
    }
  }
}

TEST_CASE("acid for alkalinity and acid for pH are one of the two, on each tag that has either") {
  const Shelf shelf(sample_request());
  for (const char* const tongue : languages) {
    const std::string alkalinity = language(tongue).text("reading.total_alkalinity.short");
    const std::string whole_name = language(tongue).text("reading.total_alkalinity.name");
    for (int turn = 0; turn <= last_turn(); ++turn) {
      const std::vector<Document> tags = tags_of(shelf, tongue, turn, "dry_acid");
      CHECK(tags.size() == (turn < sheet_named("dose_tag").split_at ? 1 : 2));
      for (const Document& tag : tags) {
        INFO(tongue << " " << turn << " " << read_aloud(tag));
        const bool names_it = place_in(tag, alkalinity) != std::string::npos ||
                              place_in(tag, whole_name) != std::string::npos;
        CHECK(names_it);
        CHECK(place_in(tag, "pH") != std::string::npos);
      }
    }
  }
  const Document whole = tags_of(shelf, "en", 0, "dry_acid").at(0);
  CHECK(place_in(whole, "Alkalinity and pH both off? One of the two, the smaller amount") !=
        std::string::npos);
  const Document of_ph = tags_of(shelf, "en", last_turn(), "dry_acid").at(1);
  CHECK(place_in(of_ph, "Alkalinity too? One, the smaller.") != std::string::npos);
}

TEST_CASE("a product with one use has no smaller of two amounts") {
  const Shelf shelf(sample_request());
  const Document tag = tags_of(shelf, "en", 0, "sodium_bicarbonate").at(0);
  CHECK(place_in(tag, "One of the two") == std::string::npos);
}

TEST_CASE("no row of a dose tag goes beyond the cabinet label: same readings, same amounts") {
  std::size_t rows = 0;
  for (std::uint64_t seed = 1; seed <= 60; ++seed) {
    INFO("seed " << seed);
    const Shelf shelf(random_request(seed));
    const Said label = on_the_cabinet_label(shelf);
    for (const std::string& row : on_the_tags(shelf)) {
      INFO(row);
      CHECK(label.contains(row));
      ++rows;
    }
  }
  CHECK(rows > 200);
}

TEST_CASE("labels of a tub without a name are sentences all the same") {
  Shelf shelf(sample_request());
  shelf.heading.vessel_name.clear();
  for (const char* const tongue : languages) {
    for (const char* const sheet : {"cabinet_label", "dose_tag"}) {
      const Document label =
          compose_pieces(shelf.sources(), sheet_named(sheet), language(tongue), {}).value.at(0);
      INFO(tongue << " " << label.title << "\n" << read_aloud(label));
      CHECK(label.title.find("1340") != std::string::npos);
      CHECK(read_aloud(label).find("\n,") == std::string::npos);
      CHECK(read_aloud(label).find("\n·") == std::string::npos);
    }
  }
  const auto cabinet =
      compose_pieces(shelf.sources(), sheet_named("cabinet_label"), english(), {}).value.at(0);
  CHECK(cabinet.title == "Cabinet label: Tub of 1340\u202FL");
  CHECK(read_aloud(cabinet).find("Kept with dichlor") != std::string::npos);
}

TEST_CASE("in English every tag of the sample fits on 50 × 30 mm") {
  const Shelf shelf(sample_request());
  const Printed tags = printed(shelf.sources(), "dose_tag", "en", test_stock("label_50x30"));
  check_pages(tags.pages);
  CHECK(tags.turn == last_turn());
}

}  // namespace tub::sheets::test
