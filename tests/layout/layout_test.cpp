// Reads what the layout tests share.
#include "layout_test.h"

#include <fstream>
#include <sstream>
#include <stdexcept>

namespace tub::layout {

std::string read_file(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) throw std::runtime_error("cannot read " + path);
  std::ostringstream bytes;
  bytes << file.rdbuf();
  return bytes.str();
}

const FontSet& test_fonts() {
  static const auto face = [](const std::string& name) {
    return Font::from_truetype(read_file(TUB_BINARY_DIR "/share/tubwright/fonts/" + name), name);
  };
  static const FontSet fonts{face("NotoSans-Regular.ttf"), face("NotoSans-Bold.ttf")};
  return fonts;
}

const Style& test_style() {
  static const Style style =
      Style::parse(read_file(TUB_SOURCE_DIR "/templates/styles/card.json"), "card.json");
  return style;
}

const Stock& test_stock(const std::string& name) {
  static const std::vector<Stock> stocks =
      read_stocks(read_file(TUB_SOURCE_DIR "/templates/stocks.json"), "stocks.json");
  for (const Stock& stock : stocks) {
    if (stock.name == name) return stock;
  }
  throw std::runtime_error("no stock " + name);
}

}  // namespace tub::layout
