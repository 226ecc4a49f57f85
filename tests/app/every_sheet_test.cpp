// Every sheet on every stock, in every language and by every set of rules: it lays out clean, or is
// refused with the reason.
#include <catch2/catch.hpp>
#include <filesystem>
#include <nlohmann/json.hpp>

#include "app/pipeline.h"
#include "app/sheet_sizes.h"
#include "built_library.h"
#include "job/read/names.h"
#include "layout/pages/checks.h"
#include "project_text.h"

using namespace tub;
using namespace tub::app;

namespace {

using Json = nlohmann::ordered_json;

/// The example job with one container that stays in the workplace.
Job job_by(const std::string& rules) {
  Json job = Json::parse(project_text("examples/quince-row.json"));
  job["rules"] = rules;
  for (Json& item : job["shelf"]) {
    if (item != "dry_acid") continue;
    item = {{"product", "dry_acid"}, {"package", "500 g"}, {"stays_in", "workplace"}};
  }
  return read_job({job.dump(), "job.json"}, std::nullopt, library().catalogue()).value;
}

/// How the sheets of one kind came out.
struct Tally {
  int printed = 0;
  int refused = 0;
};

void require_reason(const Error& error) {
  for (const Diagnostic& diagnostic : error.diagnostics()) {
    CAPTURE(diagnostic.message);
    CHECK(diagnostic.fault == Fault::job);
    const bool is_told = diagnostic.message.find(" mm") != std::string::npos ||
                         diagnostic.message.find("the rules hazcom ask for") == 0;
    CHECK(is_told);
    CHECK_FALSE(diagnostic.help.empty());
  }
}

// Cards are held to more where their words are known, in tests of their own.
void require_clean(const Page& page) {
  CHECK(outside(page, library().fonts(), 0) == std::vector<std::string>{});
  if (page.sheet == "startup_card") return;
  CHECK(overlaps(page, library().fonts()) == std::vector<std::string>{});
  CHECK(tree_faults(page) == std::vector<std::string>{});
}

void print(const Job& job, const std::string& sheet, const Stock& stock,
           const std::string& language, Tally& tally) {
  CAPTURE(sheet, stock.name, language, job.rules);
  const Print wanted{.sheet = sheet, .templates = {sheet}, .stock = stock, .language = language};
  try {
    for (const Page& page : run(job, {&wanted, 1}, library()).value) require_clean(page);
    ++tally.printed;
  } catch (const Error& error) {
    require_reason(error);
    const bool is_promised = has_room(library().sheet(sheet), stock);
    const bool is_of_words = error.diagnostics().front().message.find(" mm") == std::string::npos;
    CHECK((is_of_words || !is_promised));
    if (!is_promised && !is_of_words) {
      CHECK(error.diagnostics().front().help.find(sheet + " fits on") != std::string::npos);
    }
    ++tally.refused;
  }
}

Tally print_everywhere(const std::string& sheet, const std::string& rules) {
  const Job job = job_by(rules);
  Tally tally;
  for (const Stock& stock : library().stocks()) {
    for (const std::string& language : library().catalogue().languages) {
      print(job, sheet, stock, language, tally);
    }
  }
  return tally;
}

}  // namespace

TEST_CASE("a startup card lays out clean on every stock, or says what is missing") {
  const Tally tally = print_everywhere("startup_card", "clp");
  CHECK(tally.printed >= 3 * 4);  // A4, Letter, A3
}

TEST_CASE("a cabinet label lays out clean on every stock, or says what is missing") {
  const Tally tally = print_everywhere("cabinet_label", "clp");
  CHECK(tally.printed >= 4 * 4);  // 70 x 100 to 105 x 148 mm, 4 x 6 in
}

TEST_CASE("dose tags lay out clean on every stock, or say what is missing") {
  const Tally tally = print_everywhere("dose_tag", "clp");
  CHECK(tally.printed >= 2 * 4);  // 50 x 30 and 74 x 52 mm
}

TEST_CASE(
    "a container label lays out clean on every stock by every rule, or says what is missing") {
  CHECK(print_everywhere("container_label", "clp").printed >= 2 * 4);
  CHECK(print_everywhere("container_label", "hazcom").printed >= 2);
}

TEST_CASE("a hazard sheet lays out clean on every stock, or says what is missing") {
  const Tally tally = print_everywhere("hazard_sheet", "clp");
  CHECK(tally.printed >= 2 * 4);
}

TEST_CASE(
    "every example's labels are printed in every language on the least sizes of their sheet") {
  for (const auto& entry :
       std::filesystem::directory_iterator(std::string(TUB_SOURCE_DIR) + "/examples")) {
    if (entry.path().extension() != ".json") continue;
    const std::string text = project_text(entry.path());
    const Job job = read_job({text, "job.json"}, std::nullopt, library().catalogue()).value;
    for (const std::string sheet : {"dose_tag", "cabinet_label", "hazard_sheet", "startup_card"}) {
      for (const LeastSize& size : library().sheet(sheet).sizes) {
        Stock stock{"least", size.width_mm, size.height_mm};
        stock.keep_out_mm = 1;
        for (const std::string& language : library().catalogue().languages) {
          Tally tally;
          print(job, sheet, stock, language, tally);
          CAPTURE(entry.path().string(), sheet, size.width_mm, language);
          CHECK(tally.printed == 1);
        }
      }
    }
  }
}
