// What is to be printed: sheets, labels, stocks, imposition.
#include <fmt/format.h>

#include "base/text.h"
#include "job/read/names.h"
#include "job/shape/job_parts.h"

namespace tub::job {
namespace {

constexpr double least_side_mm = 20;
constexpr double most_side_mm = 1200;

std::optional<double> side_in_mm(std::string_view text) {
  const auto value = to_number(text);
  return value && *value >= least_side_mm && *value <= most_side_mm ? value : std::nullopt;
}

std::vector<std::string> read_labels(const Value& sheet) {
  std::vector<std::string> labels;
  const Value* const names = sheet.find("labels");
  if (names == nullptr) return labels;
  if (sheet.text("sheet") && sheet.text("sheet") != label_sheet) {
    names->problem(fmt::format("{} holds no other labels", *sheet.text("sheet")),
                   "remove the field, or name the sheet label_sheet");
  }
  for (const Value& name : names->items()) {
    if (const auto label = name.text()) labels.push_back(*label);
  }
  return labels;
}

// How labels lie on their sheet.
void read_imposition(const Value& sheet, SheetRequest& request) {
  request.labels = read_labels(sheet);
  if (const auto position = sheet.number("start_at")) {
    request.start_at = static_cast<int>(*position);
  }
  request.copies = static_cast<int>(sheet.number("copies").value_or(1));
  if (const auto bleed = sheet.number("bleed")) request.bleed_mm = *bleed * 1000;
  request.has_crop_marks = sheet.flag("crop_marks").value_or(false);
}

void read_choices(const Value& sheet, SheetRequest& request) {
  request.product = sheet.text("product").value_or("");
  const Value* const language = sheet.find("language");
  if (language == nullptr) return;
  if (const auto one = language->text()) {
    request.languages.push_back(*one);
  } else {
    for (const Value& each : language->items()) {
      if (const auto tag = each.text()) request.languages.push_back(*tag);
    }
  }
}

}  // namespace

std::optional<StockRequest> read_stock(const Value& stock) {
  if (const auto name = stock.text()) return StockRequest{*name, 0, 0};
  const auto width = stock.number("width");
  const auto height = stock.number("height");
  if (!width || !height) return std::nullopt;
  const double width_mm = *width * 1000;
  const double height_mm = *height * 1000;
  return StockRequest{fmt::format("{}x{}mm", shortest(width_mm), shortest(height_mm)), width_mm,
                      height_mm};
}

std::vector<SheetRequest> read_sheets(const Value& job) {
  std::vector<SheetRequest> requests;
  const Value* const sheets = job.find("sheets");
  if (sheets == nullptr) return requests;
  for (const Value& sheet : sheets->items()) {
    const auto name = sheet.is_object() ? sheet.text("sheet") : sheet.text();
    if (!name) continue;
    SheetRequest request{.sheet = *name};
    request.where = sheet.node().where();
    if (sheet.is_object()) read_choices(sheet, request);
    if (const Value* const stock = sheet.find("stock")) request.stock = read_stock(*stock);
    if (sheet.is_object()) read_imposition(sheet, request);
    requests.push_back(std::move(request));
  }
  return requests;
}

std::optional<StockRequest> sized_stock(std::string_view text) {
  if (text.size() < 3 || text.substr(text.size() - 2) != "mm") return std::nullopt;
  const std::vector<std::string> sides = split(text.substr(0, text.size() - 2), 'x');
  if (sides.size() != 2) return std::nullopt;
  const auto width = side_in_mm(sides.front());
  const auto height = side_in_mm(sides.back());
  if (!width || !height) return std::nullopt;
  return StockRequest{std::string(text), *width, *height};
}

}  // namespace tub::job
