#include "app/library.h"

#include "layout/stock.h"

namespace tub {
namespace {

PlanningData load_planning(const DataFolders& folders) {
  const auto table = [&](const char* name, auto parse) {
    return parsed(read_own_file(folders, std::string("data/") + name), parse);
  };
  PlanningData data;
  data.products = table("products.json", parse_products);
  data.target_sets = table("targets.json", parse_target_sets);
  data.gate = table("targets.json", parse_gate);
  data.test_methods = table("test_methods.json", parse_test_methods);
  data.hazard_rules = table("hazards.json", parse_hazard_rules);
  data.measures = table("measures.json", parse_measures);
  data.assumptions = table("assumptions.json", parse_assumptions);
  return data;
}

// Characters that both faces have.
std::vector<char32_t> common_characters(const FontSet& fonts) {
  std::vector<char32_t> characters;
  for (const char32_t character : fonts.regular.characters()) {
    if (fonts.bold.has(character)) characters.push_back(character);
  }
  return characters;
}

}  // namespace

SpeciesTable load_species(const DataFolders& folders) {
  return parsed(read_own_file(folders, "data/species.json"), SpeciesTable::parse);
}

FontSet load_fonts(const DataFolders& folders) {
  const auto face = [&](const std::string& name) {
    return Font::from_truetype(read_own_file(folders, "fonts/" + name).text, name);
  };
  return {face("NotoSans-Regular.ttf"), face("NotoSans-Bold.ttf")};
}

std::vector<Stock> load_stocks(const DataFolders& folders) {
  return parsed(read_template(folders, "stocks.json"), read_stocks);
}

Catalogue load_catalogue(const DataFolders& folders, const FontSet& fonts) {
  Catalogue catalogue{load_planning(folders), load_species(folders), {}, {}, {}, {}};
  catalogue.sheets = template_names(folders, "sheets");
  for (const Stock& stock : load_stocks(folders)) catalogue.stocks.push_back(stock.name);
  catalogue.languages = template_names(folders, "languages");
  catalogue.characters = common_characters(fonts);
  return catalogue;
}

}  // namespace tub
