#include "app/listings.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "app/sheet_sizes.h"
#include "base/text.h"
#include "job/read/names.h"
#include "units/display.h"

namespace tub::app {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::array<std::string_view, 3> form_names = {"granules", "liquid", "tablets"};

Json products(const Catalogue& catalogue) {
  Json rows = Json::array();
  for (const Product& product : catalogue.planning.products) {
    std::string strength;
    if (!product.strengths.empty()) {
      strength = fmt::format("{} {}", shortest(product.strength), product.strengths.front().name);
    }
    rows.push_back({{"product", product.id},
                    {"form", form_names.at(static_cast<std::size_t>(product.form))},
                    {"strength", strength}});
  }
  return rows;
}

Json targets(const Catalogue& catalogue) {
  Json rows = Json::array();
  for (const TargetSet& set : catalogue.planning.target_sets) {
    rows.push_back({{"set", set.id},
                    {"uses", set.uses},
                    {"forbids", set.forbids},
                    {"authority", set.authority.empty() ? "common practice" : set.authority}});
  }
  return rows;
}

const char* whether_usable(bool is_usable) {
  return is_usable ? "in this version" : "not in this version";
}

Json sanitizers(const Catalogue& catalogue) {
  Json rows = Json::array();
  for (const SanitizerRow& row : catalogue.planning.sanitizers) {
    rows.push_back({{"sanitizer", row.id}, {"products", row.all_products()}, {"about", row.about}});
  }
  return rows;
}

// Names of the format and of what is there, with whether this version has them.
Json names(const char* key, std::vector<std::string> known,
           const std::vector<std::string>& usable) {
  for (const std::string& name : usable) {
    if (std::find(known.begin(), known.end(), name) == known.end()) known.push_back(name);
  }
  Json rows = Json::array();
  for (const std::string& name : known) {
    const bool is_usable = std::find(usable.begin(), usable.end(), name) != usable.end();
    rows.push_back({{key, name}, {"usable", whether_usable(is_usable)}});
  }
  return rows;
}

std::vector<std::string> usable_sheets(const DataFolders& folders) {
  std::vector<std::string> sheets = template_names(folders, "sheets");
  sheets.emplace_back(label_sheet);
  return sheets;
}

/// The sheets of this version, with what each is made for.
Json sheets(const DataFolders& folders) {
  const Library library(folders);
  Json rows = names("sheet", known_sheets(), usable_sheets(folders));
  const std::vector<std::string> templates = template_names(folders, "sheets");
  for (Json& row : rows) {
    const auto name = row["sheet"].get<std::string>();
    const bool is_template = std::find(templates.begin(), templates.end(), name) != templates.end();
    row["sizes"] = is_template ? sizes_text(library.sheet(name)) : "";
    if (name == label_sheet) row["sizes"] = "a sheet of labels as large as each label asks";
  }
  return rows;
}

Json stock_row(const Stock& stock) {
  Json row = {{"stock", stock.name}, {"width_mm", stock.width_mm}, {"height_mm", stock.height_mm}};
  const Stock label = label_of(stock);
  row["labels"] = stock.grid ? stock.grid->labels() : 1;
  row["label_width_mm"] = label.width_mm;
  row["label_height_mm"] = label.height_mm;
  row["keep_out_mm"] = stock.keep_out_mm;
  row["bleed_mm"] = stock.bleed_mm;
  row["preprinted_frames"] = stock.frames.size();
  return row;
}

Json stocks(const DataFolders& folders) {
  Json rows = Json::array();
  const Library library(folders);
  std::vector<SheetTemplate> sheets;
  for (const std::string& name : template_names(folders, "sheets")) {
    sheets.push_back(library.sheet(name));
  }
  for (const Stock& stock : library.stocks()) {
    Json row = stock_row(stock);
    row["sheets"] = Json::array();
    for (const SheetTemplate& sheet : sheets) {
      if (has_room(sheet, stock)) row["sheets"].push_back(sheet.sheet);
    }
    rows.push_back(std::move(row));
  }
  return rows;
}

Json units_of_quantities() {
  Json rows = Json::array();
  for (const KindOfQuantity& kind : kinds_of_quantity()) {
    for (const Unit& unit : units()) {
      if (unit.kind != kind.kind) continue;
      rows.push_back({{"quantity", kind.name},
                      {"unit", unit.name},
                      {"factor", unit.factor},
                      {"offset", unit.offset},
                      {"in", kind.own_unit},
                      {"meaning", unit.meaning}});
    }
  }
  for (const AmbiguousUnit& unit : ambiguous_units()) {
    rows.push_back({{"quantity", description_of(unit.kind).name},
                    {"unit", unit.spellings.front()},
                    {"factor", nullptr},
                    {"offset", nullptr},
                    {"in", "refused"},
                    {"meaning", fmt::format("write {}", fmt::join(unit.choices, " or "))}});
  }
  return rows;
}

std::string cell(const Json& value) {
  if (value.is_string()) return value.get<std::string>();
  if (value.is_number()) return shortest(value.get<double>());
  if (!value.is_array()) return "";
  std::string text;
  for (const Json& item : value) text += (text.empty() ? "" : ", ") + cell(item);
  return text;
}

// "1 US gal" and what it is: "= 3.785412 L".
Json unit_for_people(const Json& row) {
  Json shown = {{"quantity", row["quantity"]}, {"unit", row["unit"]}};
  if (row["factor"].is_null()) {
    shown["is"] = row["in"];
  } else {
    const auto offset = row["offset"].get<double>();
    const std::string more = offset == 0 ? "" : fmt::format(" {:+.5g}", offset);
    shown["is"] = fmt::format("= {:.7g}{} {}", row["factor"].get<double>(), more,
                              row["in"].get<std::string>());
  }
  shown["meaning"] = row["meaning"];
  return shown;
}

// "a4_2x4_99x68", "210 × 297 mm", "8 labels of 99.1 × 67.7 mm"
Json stock_for_people(const Json& row) {
  const auto size = [&](const char* width, const char* height) {
    return fmt::format("{} × {} mm", cell(row[width]), cell(row[height]));
  };
  std::string labels;
  if (row["labels"] != 1) {
    labels = fmt::format("{} labels of {}", cell(row["labels"]),
                         size("label_width_mm", "label_height_mm"));
  }
  return {{"stock", row["stock"]},
          {"size", size("width_mm", "height_mm")},
          {"labels", labels},
          {"sheets", row["sheets"]}};
}

std::size_t width_of(const std::string& text) { return code_points(text)->size(); }

}  // namespace

Json listing(std::string_view what, const DataFolders& folders) {
  if (what == "units") return units_of_quantities();
  if (what == "stocks") return stocks(folders);
  if (what == "sheets") return sheets(folders);
  if (what == "languages") {
    return names("language", known_languages(), template_names(folders, "languages"));
  }
  const Library library(folders);
  if (what == "sanitizers") return sanitizers(library.catalogue());
  return what == "products" ? products(library.catalogue()) : targets(library.catalogue());
}

Json for_people(const Json& rows) {
  Json shown = Json::array();
  for (const Json& row : rows) {
    if (row.contains("factor")) {
      shown.push_back(unit_for_people(row));
    } else if (row.contains("products")) {
      shown.push_back({row["sanitizer"], row["about"]});
    } else if (row.contains("width_mm")) {
      shown.push_back(stock_for_people(row));
    } else {
      shown.push_back(row);
    }
  }
  return shown;
}

std::string in_columns(const Json& raw_rows) {
  const Json rows = for_people(raw_rows);
  std::vector<std::size_t> widths;
  for (const Json& row : rows) {
    std::size_t column = 0;
    for (const auto& [key, value] : row.items()) {
      if (column == widths.size()) widths.push_back(0);
      widths.at(column) = std::max(widths.at(column), width_of(cell(value)));
      ++column;
    }
  }
  std::string text;
  for (const Json& row : rows) {
    std::string line;
    std::size_t column = 0;
    for (const auto& [key, value] : row.items()) {
      const std::string shown = cell(value);
      line += shown + std::string(widths.at(column++) - width_of(shown) + 2, ' ');
    }
    line.erase(line.find_last_not_of(' ') + 1);
    text += line + "\n";
  }
  return text;
}

}  // namespace tub::app
