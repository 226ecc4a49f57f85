#include "app/sheet_sizes.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "base/text.h"

namespace tub::app {
namespace {

std::string list_of(const std::vector<LeastSize>& sizes) {
  std::string text;
  for (std::size_t i = 0; i < sizes.size(); ++i) {
    if (i > 0) text += i + 1 == sizes.size() ? " or " : ", ";
    text += fmt::format("{} × {}", shortest(sizes[i].width_mm), shortest(sizes[i].height_mm));
  }
  return text + " mm";
}

}  // namespace

std::string sizes_text(const SheetTemplate& sheet) {
  if (sheet.sizes.empty()) return "";
  std::string text = list_of(sheet.sizes) + " and larger";
  if (!sheet.short_word_sizes.empty()) {
    text += "; where words are short, from " + list_of(sheet.short_word_sizes);
  }
  return text;
}

bool has_room(const SheetTemplate& sheet, const Stock& stock) {
  const Stock label = label_of(stock);
  const double kept_mm = stock.grid ? label.keep_out_mm : usual_keep_out_mm;
  const double lost_mm = 2 * std::max(kept_mm - usual_keep_out_mm, 0.0);
  return std::any_of(sheet.sizes.begin(), sheet.sizes.end(), [&](const LeastSize& size) {
    return label.width_mm - lost_mm >= size.width_mm && label.height_mm - lost_mm >= size.height_mm;
  });
}

}  // namespace tub::app
