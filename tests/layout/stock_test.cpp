// The table of stocks: sizes as the standards have them, and sheets whose labels fit.
#include "layout/labels/stock.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <map>

#include "base/error.h"
#include "layout_test.h"

namespace tub::layout {
namespace {

std::vector<Stock> all_stocks() {
  return read_stocks(read_file(TUB_SOURCE_DIR "/templates/stocks.json"), "stocks.json");
}

TEST_CASE("papers and labels have the sizes that their names say") {
  // Source: ISO 216 (A3, A4; A6, A7, A8 are the sizes of CLP Table 1.3); inches of 25.4 mm
  const std::map<std::string, std::pair<double, double>> sizes = {{"a4", {210, 297}},
                                                                  {"letter", {215.9, 279.4}},
                                                                  {"a3", {297, 420}},
                                                                  {"label_50x30", {50, 30}},
                                                                  {"label_74x52", {74, 52}},
                                                                  {"label_52x74", {52, 74}},
                                                                  {"label_52x80", {52, 80}},
                                                                  {"label_70x100", {70, 100}},
                                                                  {"label_74x105", {74, 105}},
                                                                  {"label_100x150", {100, 150}},
                                                                  {"label_105x148", {105, 148}},
                                                                  {"label_4x6in", {101.6, 152.4}}};
  for (const auto& [name, size] : sizes) {
    CAPTURE(name);
    CHECK(test_stock(name).width_mm == size.first);
    CHECK(test_stock(name).height_mm == size.second);
    CHECK_FALSE(test_stock(name).grid.has_value());
  }
}

TEST_CASE("a sheet of labels is named by its paper, its columns and rows, and its label's size") {
  int sheets = 0;
  for (const Stock& stock : all_stocks()) {
    if (!stock.grid) continue;
    CAPTURE(stock.name);
    const LabelGrid& grid = *stock.grid;
    const std::string paper = stock.name.substr(0, stock.name.find('_'));
    CHECK(stock.width_mm == test_stock(paper).width_mm);
    CHECK(stock.height_mm == test_stock(paper).height_mm);
    CHECK(stock.name == paper + "_" + std::to_string(grid.columns) + "x" +
                            std::to_string(grid.rows) + "_" +
                            std::to_string(std::lround(grid.label_width_mm)) + "x" +
                            std::to_string(std::lround(grid.label_height_mm)));
    CHECK(label_of(stock).width_mm == grid.label_width_mm);
    CHECK_FALSE(label_of(stock).grid.has_value());
    ++sheets;
  }
  CHECK(sheets == 20);
}

TEST_CASE("the labels of a sheet lie in its middle, as sheets on sale have them") {
  // From memory: margins left and right, and above and below, are equal to a millimetre and a half.
  for (const Stock& stock : all_stocks()) {
    if (!stock.grid) continue;
    const LabelGrid& grid = *stock.grid;
    CAPTURE(stock.name);
    const double right =
        stock.width_mm - grid.left_mm - (grid.columns - 1) * grid.pitch_x_mm - grid.label_width_mm;
    const double foot =
        stock.height_mm - grid.top_mm - (grid.rows - 1) * grid.pitch_y_mm - grid.label_height_mm;
    CHECK(right == Approx(grid.left_mm).margin(1.5));
    CHECK(foot == Approx(grid.top_mm).margin(1.5));
  }
}

std::string with_grid(const std::string& grid) {
  return R"([{"name": "x", "width_mm": 210, "height_mm": 297, "grid": )" + grid + "}]";
}

TEST_CASE("what reaches an office printer's edge keeps more free than a label in the middle") {
  // Source: 4.2 mm (0.166 in) that office printers cannot print, from memory.
  for (const Stock& stock : all_stocks()) {
    CAPTURE(stock.name);
    CHECK(stock.keep_out_mm > 0);
    if (!stock.grid) continue;
    const double edge = std::min(stock.grid->left_mm, stock.grid->top_mm);
    CHECK(edge + stock.keep_out_mm >= 4.2);
    CHECK(label_of(stock).keep_out_mm == stock.keep_out_mm);
  }
}

TEST_CASE("frames that are printed beforehand lie on their label") {
  const auto read = [](const std::string& frame) {
    return read_stocks(
        R"([{"name": "x", "width_mm": 74, "height_mm": 105, "frames": [)" + frame + "]}]",
        "stocks.json");
  };
  const Stock stock = read(R"({"centre_mm": [16, 40], "side_mm": 16})").at(0);
  REQUIRE(stock.frames.size() == 1);
  CHECK(stock.frames[0].y_mm == 40);
  // A square of 16 mm set at a point reaches 11.3 mm from its middle.
  CHECK_THROWS_WITH(read(R"({"centre_mm": [11, 40], "side_mm": 16})"),
                    Catch::Contains("the frame reaches past the label's edge"));
}

TEST_CASE("a stock keeps its edges free or is printed past them") {
  CHECK_THROWS_WITH(read_stocks(R"([{"name": "x", "width_mm": 74, "height_mm": 105,
                                     "keep_out_mm": 1, "bleed_mm": 2}])",
                                "stocks.json"),
                    Catch::Contains("not both"));
}

TEST_CASE("a sheet whose labels overlap or reach past its edge is refused at its place") {
  const auto read = [](const std::string& grid) { read_stocks(with_grid(grid), "stocks.json"); };
  CHECK_THROWS_WITH(
      read(R"({"columns": 3, "rows": 1, "label_mm": [70, 30], "left_mm": 5, "top_mm": 5,
               "pitch_mm": [70, 30]})"),
      Catch::Contains("the labels reach 5.00 mm past the sheet's edge") &&
          Catch::Contains("stocks.json: /0/grid"));
  CHECK_THROWS_WITH(
      read(R"({"columns": 2, "rows": 1, "label_mm": [70, 30], "left_mm": 5, "top_mm": 5,
               "pitch_mm": [69, 30]})"),
      Catch::Contains("the labels overlap"));
  CHECK_THROWS_WITH(read(R"({"columns": 2, "rows": 1, "label_mm": [70], "left_mm": 5, "top_mm": 5,
               "pitch_mm": [70, 30]})"),
                    Catch::Contains("expected [across, down] in millimetres"));
  CHECK_THROWS_WITH(read_stocks(R"([{"name": "x", "width_mm": 50, "height_mm": 50},
                                    {"name": "x", "width_mm": 60, "height_mm": 50}])",
                                "stocks.json"),
                    Catch::Contains("the stock x stands twice"));
}

}  // namespace
}  // namespace tub::layout
