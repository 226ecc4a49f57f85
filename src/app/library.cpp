#include "app/library.h"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>

#include "base/nearest.h"
#include "base/text.h"
#include "job/read/names.h"
#include "sheets/template/vocabulary.h"

namespace tub::app {
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
  data.sanitizers = table("sanitizers.json", parse_sanitizers);
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

FontSet load_fonts(const DataFolders& folders) {
  const auto face = [&](const std::string& name) {
    return Font::from_truetype(read_own_file(folders, "fonts/" + name).text, name);
  };
  return {face("NotoSans-Regular.ttf"), face("NotoSans-Bold.ttf")};
}

Catalogue load_catalogue(const DataFolders& folders, const FontSet& fonts,
                         const std::vector<Stock>& stocks) {
  Catalogue catalogue{load_planning(folders), load_species(folders), {}, {}, {}, {}, {}};
  catalogue.sheets = template_names(folders, "sheets");
  catalogue.sheets.emplace_back(label_sheet);
  for (const Stock& stock : stocks) catalogue.stocks.push_back(stock.name);
  catalogue.languages = template_names(folders, "languages");
  catalogue.characters = common_characters(fonts);
  catalogue.words =
      parsed(read_own_file(folders, "data/everyday_words.json"), parse_everyday_words);
  catalogue.countries = parsed(read_own_file(folders, "data/countries.json"), parse_countries);
  return catalogue;
}

}  // namespace

SpeciesTable load_species(const DataFolders& folders) {
  return parsed(read_own_file(folders, "data/species.json"), SpeciesTable::parse);
}

WaterTables load_water_tables(const DataFolders& folders) {
  return {load_species(folders),
          parsed(read_own_file(folders, "data/table_index.json"), parse_index_tables)};
}

Library::Library(DataFolders folders)
    : folders_(std::move(folders)),
      fonts_(load_fonts(folders_)),
      stocks_(parsed(read_template(folders_, "stocks.json"), read_stocks)),
      catalogue_(load_catalogue(folders_, fonts_, stocks_)) {}

const SheetTemplate& Library::sheet(const std::string& name) const {
  const auto kept = sheets_.find(name);
  if (kept != sheets_.end()) return kept->second;
  return sheets_
      .emplace(name,
               parsed(read_template(folders_, "sheets/" + name + ".json"), parse_sheet_template))
      .first->second;
}

Messages Library::language(const std::string& tag) const {
  std::vector<SheetTemplate> sheets;
  std::vector<SheetTemplate> replaced;
  for (const std::string& name : catalogue_.sheets) {
    if (name == label_sheet) continue;  // has no words but those of its labels
    sheets.push_back(sheet(name));
    const auto ours = replaced_template(folders_, "sheets/" + name + ".json");
    if (ours) replaced.push_back(parsed(*ours, parse_sheet_template));
  }
  const std::vector<RequiredMessage> required =
      required_messages(sheets, replaced, catalogue_.planning);
  DataFile words = read_template(folders_, "languages/" + tag + ".json");
  // Our languages have what our sheets say: what is missing, a shop's sheet asks for.
  if (folders_.shop) words.fault = Fault::job;
  return parsed(words, [&](std::string_view text, const std::string& file) {
    return Messages::parse(text, file, required);
  });
}

Stock Library::stock(const std::string& name) const {
  return *std::find_if(stocks_.begin(), stocks_.end(),
                       [&](const Stock& stock) { return stock.name == name; });
}

Stock Library::stock_of_sheet(const std::string& name) const {
  const SheetTemplate& asked = sheet(name);
  const auto& stocks = catalogue_.stocks;
  if (std::find(stocks.begin(), stocks.end(), asked.stock) != stocks.end()) {
    return stock(asked.stock);
  }
  const std::string near = nearest(asked.stock, stocks);
  throw Error({fmt::format("the sheet {} is meant for the stock \"{}\", which is not among the {} "
                           "that there are",
                           name, shortened(asked.stock), stocks.size()),
               asked.file + ": /stock",
               {},
               near.empty() ? "add it to stocks.json, or choose another with --stock: `tubwright "
                              "list stocks` names them"
                            : fmt::format("did you mean {}?", near),
               folders_.shop ? Fault::job : Fault::machine});
}

Style Library::style(const std::string& name) const {
  return parsed(read_template(folders_, "styles/" + name + ".json"), Style::parse);
}

LabelTables Library::label_tables() const {
  const auto table = [&](const char* name, auto parse) {
    return parsed(read_own_file(folders_, std::string("data/") + name), parse);
  };
  return {table("label_rules.json", parse_label_rules), table("label_hazards.json", parse_hazards),
          table("label_statements.json", LabelStatements::parse),
          table("classified_substances.json", parse_substances)};
}

PdfResources Library::pdf_resources() const {
  return read_pdf_resources(
      [&](const std::string& name) { return read_own_file(folders_, "pdf/" + name).text; });
}

}  // namespace tub::app
