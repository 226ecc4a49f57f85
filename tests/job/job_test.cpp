#include "job_test.h"
#include "project_text.h"

#include <nlohmann/json.hpp>

namespace tub::job::test {
namespace {

using Json = nlohmann::ordered_json;

template <class Parse>
auto planning_table(const std::string& name, Parse parse) {
  return parse(project_text("src/planning/data/" + name), name);
}

Catalogue read_catalogue() {
  Catalogue result;
  result.planning.products = planning_table("products.json", parse_products);
  result.planning.target_sets = planning_table("targets.json", parse_target_sets);
  result.planning.gate = planning_table("targets.json", parse_gate);
  result.planning.test_methods = planning_table("test_methods.json", parse_test_methods);
  result.planning.sanitizers = planning_table("sanitizers.json", parse_sanitizers);
  result.planning.hazard_rules = planning_table("hazards.json", parse_hazard_rules);
  result.planning.measures = planning_table("measures.json", parse_measures);
  result.planning.assumptions = planning_table("assumptions.json", parse_assumptions);
  result.species =
      SpeciesTable::parse(project_text("src/chemistry/data/species.json"), "species.json");
  result.words =
      parse_everyday_words(project_text("src/job/data/everyday_words.json"), "everyday_words.json");
  result.countries = planning_table("countries.json", parse_countries);
  result.sheets = {"startup_card"};
  result.stocks = {"a4", "letter"};
  result.languages = {"en"};
  for (char32_t character = 0x20; character < 0x180; ++character) {
    result.characters.push_back(character);
  }
  return result;
}

}  // namespace

const Catalogue& catalogue() {
  static const Catalogue result = read_catalogue();
  return result;
}

Json sound_job() {
  return Json::parse(R"({
    "tubwright": 1,
    "heading": { "date": "2026-05-04" },
    "vessel": { "volume": "1340 L", "shell": "acrylic", "use": "private",
                "bathing_temperature": "38 °C" },
    "source_water": { "tested_with": "drop_kit", "temperature": "14 °C", "ph": 7.9,
                      "total_alkalinity": "62 mg/L", "calcium_hardness": "89 mg/L" },
    "sanitizer": "dichlor",
    "targets": "common_practice",
    "shelf": [ "sodium_bicarbonate", "dry_acid", "dichlor_dihydrate" ],
    "measure": "grams"
  })");
}

std::string patched(const std::string& patch) {
  Json job = sound_job();
  job.merge_patch(Json::parse(patch));
  return job.dump();
}

Outcome<Job> read(const std::string& job, const std::string& shop) {
  const auto shop_text =
      shop.empty() ? std::nullopt : std::optional<NamedText>(NamedText{shop, "shop.json"});
  return read_job({job, "job.json"}, shop_text, catalogue());
}

std::string problems_of(const std::string& job, const std::string& shop) {
  try {
    read(job, shop);
    return "";
  } catch (const Error& error) {
    return error.what();
  }
}

}  // namespace tub::job::test
