#include "job/shape/job_shape.h"

#include "job/limits.h"
#include "job/read/names.h"
#include "job/read/slip.h"
#include "job/shape/shapes.h"
#include "planning/tables/product.h"

namespace tub::job {
namespace {

using namespace shapes;

std::vector<std::string> rows_of_products(const Catalogue& catalogue) {
  std::vector<std::string> ids;
  for (const Product& product : catalogue.planning.products) ids.push_back(product.id);
  return ids;
}

std::vector<std::string> rows_of_methods(const Catalogue& catalogue) {
  std::vector<std::string> ids;
  for (const TestMethod& method : catalogue.planning.test_methods) ids.push_back(method.id);
  return ids;
}

FieldShape product_shape(const Catalogue& catalogue) {
  return names("product", rows_of_products(catalogue), known_products());
}

FieldShape method_shape(const Catalogue& catalogue) {
  return names("test", rows_of_methods(catalogue), known_methods());
}

FieldShape language_shape(const Catalogue& catalogue) {
  return names("language", catalogue.languages, known_languages());
}

FieldShape country_shape(const Catalogue& catalogue) {
  NameShape shape{"country", {}, {}, {}, ""};
  for (const Country& country : catalogue.countries) {
    shape.usable.push_back(country.id);
    shape.meant.emplace_back(country.id, country.id);
    shape.meant.emplace_back(country.name, country.id);
    for (const std::string& also : country.also) shape.meant.emplace_back(also, country.id);
  }
  shape.help =
      "write its two letters (ISO 3166); without the field, the sheets have a line for the "
      "emergency number. Known are: ";
  for (const std::string& id : shape.usable) {
    shape.help += (&id == &shape.usable.front() ? "" : ", ") + id;
  }
  return {std::move(shape)};
}

FieldShape prepared_by_shape() {
  return object({{"name", "the shop's name", text(60)},
                 {"phone", "who to call", text(30)},
                 {"address", "one line", text(100)},
                 {"emergency_phone", "for container labels", text(30)},
                 {"poison_centre", "whom owners call about what was swallowed or splashed",
                  object({{"name", "without it, the words of the sheet's language", text(40)},
                          required("phone", "its number", text(30))})},
                 {"logo", "a PNG, at most 1 MiB and 2000 pixels a side; relative to this file",
                  FieldShape{PathShape{}}}});
}

FieldShape heading_shape() {
  return object(
      {{"date", "the day on the card; without it, a line to write on", FieldShape{DateShape{}}},
       {"prepared_for", "whose tub it is", text(60)},
       {"prepared_by", "the shop", prepared_by_shape()}});
}

FieldShape dimensions_shape() {
  const FieldShape length = quantity({QuantityKind::length, 0.2, 30, "2.1 m"});
  const FieldShape depth = quantity({QuantityKind::length, 0.1, 3, "0.75 m"});
  const FieldShape bench =
      object({required("length", "along the wall", length), required("width", "of the seat", depth),
              required("height", "from the floor to the seat", depth)});
  return object({required("shape", "rectangle, round or oval",
                          names("shape", {"rectangle", "round", "oval"})),
                 {"length", "inside, of a rectangle or an oval", length},
                 {"width", "inside, of a rectangle or an oval", length},
                 {"diameter", "inside, of a round vessel", length},
                 required("water_depth", "from the floor to the water's surface", depth),
                 {"benches", "seats and steps, which take the place of water",
                  list_of(bench, {limits::benches,
                                  "take several that are alike as one, as long as all of them"})}});
}

FieldShape volume_shape() {
  const FieldShape plain = quantity({QuantityKind::volume, 100, 50000, "1340 L",
                                     "write the water in the filled vessel, as \"1340 L\""});
  const FieldShape share = quantity({QuantityKind::share, 0, 0.5, "5 %"});
  return either(plain, object({required("value", "the volume", plain),
                               {"give_or_take", "how far off it may be", share}}));
}

FieldShape vessel_shape(const Catalogue& catalogue) {
  const FieldShape fill = object({required("time", "how long the fill took",
                                           quantity({QuantityKind::time, 60, 172800, "34 min"})),
                                  required("flow", "what the hose gives",
                                           quantity({QuantityKind::flow, 0.5, 1000, "40 L/min"}))});
  const FieldShape level = text(40);
  const FieldShape dilution =
      object({required("product", "what was dissolved", product_shape(catalogue)),
              required("amount", "how much of it", FieldShape{AmountShape{}}),
              required("reading", "what it raised",
                       names("reading", {"total_alkalinity", "calcium_hardness"})),
              required("before", "the reading before", level),
              required("after", "and after", level),
              {"tested_with", "both times; the job's retest_with where nothing is said",
               method_shape(catalogue)}});
  const FieldShape bathing = quantity({QuantityKind::temperature, 10, 40, "38 °C",
                                       "water that people bathe in is at most 40 °C (104 °F)"});
  return object(
      {{"name", "which tub it is", text(60)},
       {"volume",
        "the water in this very tub; or instead dimensions, fill or dilution, to find it from",
        volume_shape()},
       {"dimensions", "the inside, instead of a volume", dimensions_shape()},
       {"fill", "the time it took to fill, instead of a volume", fill},
       {"dilution", "what a known amount raised, instead of a volume", dilution},
       required("shell", "what the inside is made of",
                names("shell", {known_shells().begin(), known_shells().end()})),
       required("use", "private, rented or public", names("use", known_uses())),
       {"bathers_per_week", "a count", FieldShape{WholeShape{0, 2000}}},
       {"bathing_temperature", "38 °C where nothing is said", bathing}});
}

FieldShape reading_of(const FieldShape& plain, const FieldShape& method) {
  return either(plain, object({required("value", "what the test showed", plain),
                               {"tested_with", "if not with the water's own test", method}}));
}

std::vector<Field> slip_shape(const Catalogue& catalogue) {
  const FieldShape method = method_shape(catalogue);
  std::vector<Field> fields;
  for (const SlipField& slip : slip_fields()) {
    const FieldShape plain =
        slip.name == "ph" ? FieldShape{NumberShape{slip.low, slip.high}}
                          : quantity({slip.kind, slip.low, slip.high, std::string(slip.example)});
    Field field = {std::string(slip.name), std::string(slip.about), reading_of(plain, method)};
    fields.push_back(std::move(field));
  }
  return fields;
}

FieldShape water_shape(const Catalogue& catalogue) {
  std::vector<Field> fields = slip_shape(catalogue);
  for (Field& field : fields) {
    if (field.name != "ph" && field.name != "total_alkalinity") continue;
    field.presence = Presence::required;
    field.missing_help = field.name == "ph"
                             ? "test the pH: no plan can be made without it"
                             : "test the total alkalinity: no plan can be made without it";
  }
  const Field method = {"tested_with", "the test that the readings come from",
                        method_shape(catalogue)};
  const Field temperature = {"temperature", "of the water as it was tested",
                             quantity({QuantityKind::temperature, 0, 45, "14 °C",
                                       "write the water's temperature when it was tested"})};
  fields.insert(fields.begin(), {method, temperature});
  return object(std::move(fields));
}

FieldShape package_shape() {
  return either(FieldShape{AmountShape{}},
                object({{"contents", "what is in it: \"2 kg\"", FieldShape{AmountShape{}}},
                        {"capacity", "what the container can hold: the size of a label goes by it",
                         quantity({QuantityKind::volume, 0.005, 1000, "2 L"})}}));
}

FieldShape shelf_item_shape(const Catalogue& catalogue) {
  const FieldShape product = product_shape(catalogue);
  const FieldShape supplier = either(text(60), object({{"name", "", text(60)},
                                                       {"address", "", text(100)},
                                                       {"phone", "", text(30)},
                                                       {"emergency_phone", "", text(30)}}));
  return either(
      product,
      object({required("product", "a generic chemical", product),
              {"strength", "by its label, with what it counts: \"12.5 g/100 mL as Cl2\"",
               FieldShape{StrengthShape{}}},
              {"bulk_density", "of granules as they are poured, or of a liquid",
               quantity({QuantityKind::density, 0.3, 3, "0.95 g/mL"})},
              {"dose", "a sequestrant's own: \"45 mL per 1000 L\"", FieldShape{DoseShape{}}},
              {"package", "what one holds: \"2 kg\"", package_shape()},
              {"maker_label_name", "what its maker calls it", text(60)},
              {"hazard_statements", "H codes of its own label",
               list_of(text(30), {limits::hazard_statements, "list each code once"})},
              {"made_on", "the day on the package", FieldShape{DateShape{}}},
              {"supplier", "of a container label; the shop where nothing is said", supplier},
              {"stays_in",
               "trade or workplace: a container that no owner gets; without it, an owner does",
               names("place", {"trade", "workplace"})},
              {"lot", "of this filling", text(30)},
              {"use_by", "the day until which it keeps its strength", FieldShape{DateShape{}}},
              {"ufi", "its unique formula identifier", text(30)},
              {"authorisation", "number of its registration or authorisation", text(40)}}));
}

FieldShape shelf_shape(const Catalogue& catalogue) {
  return some_of(shelf_item_shape(catalogue), {limits::shelf, "list each product once"},
                 "put at least one product on the shelf; `tubwright list products` names them");
}

FieldShape target_shape(const Reading reading) {
  const SlipField* const slip = slip_field_of(reading);
  const FieldShape edge =
      reading == Reading::ph
          ? FieldShape{NumberShape{slip->low, slip->high}}
          : quantity({slip->kind, slip->low, slip->high, std::string(slip->example)});
  return object({{"low", "kept between uses, from", edge},
                 {"ideal", "aimed at", edge},
                 {"high", "kept between uses, to", edge},
                 {"bathe_low", "below it, nobody bathes", edge},
                 {"stop", "above it, nobody bathes", edge}});
}

FieldShape targets_shape(const Catalogue& catalogue) {
  std::vector<std::string> sets;
  for (const TargetSet& set : catalogue.planning.target_sets) sets.push_back(set.id);
  const FieldShape plain = names("target set", std::move(sets));
  std::vector<Field> fields = {required("set", "whose figures the others are", plain)};
  for (const Reading reading : all_readings) {
    if (slip_field_of(reading) == nullptr) continue;
    fields.push_back({std::string(name_of(reading)), "", target_shape(reading)});
  }
  return either(plain, object(std::move(fields)));
}

FieldShape sanitizer_shape(const Catalogue& catalogue) {
  std::vector<std::string> kinds;
  for (const SanitizerRow& row : catalogue.planning.sanitizers) kinds.push_back(row.id);
  const FieldShape plain = names("sanitizer", std::move(kinds));
  return either(plain, object({required("kind", "the sanitizer", plain),
                               {"mineral_cartridge", "true: a lower residual is kept beside it",
                                FieldShape{FlagShape{}}}}));
}

FieldShape stock_shape(const Catalogue& catalogue) {
  const FieldShape side = quantity({QuantityKind::length, 0.02, 1.2, "80 mm"});
  return either(names("stock", catalogue.stocks, known_stocks()),
                object({required("width", "across", side), required("height", "down", side)}));
}

std::vector<std::string> usable_labels(const Catalogue& catalogue) {
  std::vector<std::string> labels;
  for (const std::string& sheet : catalogue.sheets) {
    if (sheet != label_sheet) labels.push_back(sheet);
  }
  return labels;
}

FieldShape sheets_shape(const Catalogue& catalogue) {
  const FieldShape plain = names("sheet", catalogue.sheets, known_sheets());
  const FieldShape language = language_shape(catalogue);
  const FieldShape label = names("label", usable_labels(catalogue), known_labels());
  return some_of(
      either(
          plain,
          object({required("sheet", "what to print", plain),
                  {"stock", "paper or label", stock_shape(catalogue)},
                  {"language", "of its words, or a list of languages",
                   either(language,
                          some_of(language, {known_languages().size(), "list each language once"},
                                  "name a language"))},
                  {"product", "only the labels of this product", product_shape(catalogue)},
                  {"labels", "on a label sheet; else those that the job asks for, or all",
                   some_of(label, {known_labels().size(), "list each label once"},
                           "name a label, or remove the field")},
                  {"start_at", "the first free label of the sheet, row by row from 1",
                   FieldShape{WholeShape{1, 999}}},
                  {"copies", "of each label", FieldShape{WholeShape{1, limits::printed}}},
                  {"bleed", "how far past its edge a label is printed",
                   quantity({QuantityKind::length, 0, 0.005, "2 mm"})},
                  {"crop_marks", "true: lines that say where to cut", FieldShape{FlagShape{}}}})),
      {limits::sheets, "print the job in parts, with --sheet"},
      "name a sheet, or remove the field");
}

FieldShape later_readings_shape(const Catalogue& catalogue) {
  std::vector<Field> fields = slip_shape(catalogue);
  const Field head[] = {
      {"after_step", "the number printed on the rung", FieldShape{WholeShape{1, 99}}},
      {"after_pour", "1 or 2; the last where nothing is said", FieldShape{WholeShape{1, 2}}},
      {"after_round", "of a repeated rung", FieldShape{WholeShape{1, 99}}},
      {"date", "of a later visit", FieldShape{DateShape{}}},
      {"tested_with", "the test that the readings come from", method_shape(catalogue)},
      {"temperature", "of the water as it was tested",
       quantity({QuantityKind::temperature, 0, 45, "36 °C"})}};
  fields.insert(fields.begin(), std::begin(head), std::end(head));
  return list_of(
      object(std::move(fields)),
      {limits::readings, "begin a new job, with the last visit's readings as its tub_water"});
}

std::vector<Field> settings_fields(const Catalogue& catalogue) {
  const FieldShape method = method_shape(catalogue);
  std::vector<std::string> measures;
  for (const MeasureSystem& row : catalogue.planning.measures) measures.push_back(row.id);
  return {{"retest_with", "the test at the tub; strip where nothing is said", method},
          {"sanitizer", "how the tub is kept clean", sanitizer_shape(catalogue)},
          {"targets", "whose figures the water is brought to", targets_shape(catalogue)},
          {"shelf", "the products at hand", shelf_shape(catalogue)},
          {"measure", "what the owner measures with",
           names("measure", std::move(measures), known_measures())},
          {"sheets", "what to print", sheets_shape(catalogue)},
          {"rules", "clp or hazcom; container labels need it",
           names("set of rules", {"clp", "hazcom"})},
          {"country", "ISO 3166, as GB: emergency number, decimal sign, dates and spelling",
           country_shape(catalogue)}};
}

}  // namespace

FieldShape job_shape(const Catalogue& catalogue) {
  const FieldShape water = water_shape(catalogue);
  std::vector<Field> fields = {
      required("tubwright", "the version of the format: 1", FieldShape{VersionShape{1}}),
      {"heading", "who and when; printed, never planned with", heading_shape()},
      required("vessel", "the tub", vessel_shape(catalogue)),
      {"source_water", "what comes out of the hose, for a fresh fill", water},
      {"tub_water", "what is in a tub that is already full", water},
      {"second_source", "another water to blend or replace with", water},
      {"readings", "retests and later visits", later_readings_shape(catalogue)}};
  for (Field& field : settings_fields(catalogue)) {
    const bool is_needed = field.name == "sanitizer" || field.name == "targets" ||
                           field.name == "shelf" || field.name == "measure";
    if (is_needed) field.presence = Presence::required;
    fields.push_back(std::move(field));
  }
  return object(std::move(fields));
}

std::vector<Field> printer_fields() {
  const FieldShape shift = quantity({QuantityKind::length, -0.02, 0.02, "0.4 mm"});
  const FieldShape hundred = quantity({QuantityKind::length, 0.09, 0.11, "100.2 mm"});
  return {{"right", "by how much too far right", shift},
          {"down", "by how much too far down", shift},
          {"across_100_mm", "what 100 mm across measure when printed", hundred},
          {"down_100_mm", "what 100 mm down measure when printed", hundred}};
}

FieldShape printers_shape() {
  std::vector<Field> fields = printer_fields();
  fields.insert(fields.begin(), required("name", "chosen with --printer", text(40)));
  return list_of(object(std::move(fields)),
                 {limits::printers, "write a shop's file for each place with printers"});
}

FieldShape shop_shape(const Catalogue& catalogue) {
  std::vector<Field> stocks;
  for (const std::string& sheet : known_sheets()) {
    stocks.push_back({sheet, "", stock_shape(catalogue)});
  }
  std::vector<Field> fields = {
      {"tubwright", "the version of the format: 1", FieldShape{VersionShape{1}}},
      {"heading", "the shop", object({{"prepared_by", "the shop", prepared_by_shape()}})}};
  for (Field& field : settings_fields(catalogue)) fields.push_back(std::move(field));
  fields.push_back({"language", "of all sheets that name none", language_shape(catalogue)});
  fields.push_back({"stocks", "what each sheet is printed on", object(std::move(stocks))});
  fields.push_back(
      {"products", "the shop's own figures for products that jobs name",
       list_of(shelf_item_shape(catalogue), {limits::shelf, "list each product once"})});
  fields.push_back({"printer", "where the printer puts a page that should be in place",
                    object(printer_fields())});
  fields.push_back({"printers", "the same of further printers", printers_shape()});
  return object(std::move(fields));
}

}  // namespace tub::job
