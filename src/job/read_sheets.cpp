#include <fmt/format.h>

#include "base/text.h"
#include "job/job_parts.h"

namespace tub {
namespace {

constexpr double least_side_mm = 20;
constexpr double most_side_mm = 1200;

std::optional<double> side_in_mm(std::string_view text) {
  const auto value = to_number(text);
  return value && *value >= least_side_mm && *value <= most_side_mm ? value : std::nullopt;
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
    SheetRequest request = {*name, {}, sheet.text("language"), sheet.node().where()};
    if (const Value* const stock = sheet.find("stock")) request.stock = read_stock(*stock);
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

}  // namespace tub
