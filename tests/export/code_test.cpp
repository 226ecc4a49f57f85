// Square codes on printed pages: whole dots a module, and read back from bitmaps and from PDFs.
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdio>
#include <fstream>
#include <memory>
#include <string>

#include "export/bitmap.h"
#include "export/pixels.h"
#include "export_test.h"
#include "layout/blocks/qr.h"
#include "layout/type/style.h"

namespace tub::exporting {
namespace {

constexpr double module_side = 0.5 * mm;

const std::string code_text = "TUB 123-ABC%$ 0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ/*+.:";

/// A label of 50 x 30 mm with a code in it, away from whole dots.
Page label_with_code() {
  Page page;
  page.width = 50 * mm;
  page.height = 30 * mm;
  page.sheet = "cabinet_label";
  page.title = "A label";
  page.language = "en";
  page.elements = {Element::of(Role::section, -1), Element::of(Role::figure, 0)};
  page.elements.back().alt = "the code";
  Path path = qr_path(qr_code(code_text), {7.3, 5.1}, module_side);
  path.element = 1;
  page.items = {path};
  return page;
}

std::string output_of(const std::string& command) {
  const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(command.c_str(), "r"), pclose);
  REQUIRE(pipe != nullptr);
  std::string out;
  std::array<char, 512> part{};
  while (std::fgets(part.data(), part.size(), pipe.get()) != nullptr) out += part.data();
  return out;
}

std::string read_code(const std::string& picture) {
  return output_of("zbarimg --quiet --nodbus --raw --oneshot " + picture);
}

TEST_CASE("each module of a code is equally many whole dots wide, at any resolution") {
  const QrCode code = qr_code(code_text);
  struct Device {
    double dots_per_inch;
    int dots;  // 0.5 mm / 25.4 mm * dots an inch, rounded
  };
  for (const auto& [dots_per_inch, dots] : {Device{203, 4}, Device{300, 6}, Device{600, 12}}) {
    CAPTURE(dots_per_inch);
    const Pixels pixels = draw_pixels(label_with_code(), test_fonts(), dots_per_inch, Raster::dots);
    const int left = static_cast<int>(std::lround(7.3 * dots_per_inch / 72));
    const int top = static_cast<int>(std::lround(5.1 * dots_per_inch / 72));
    int wrong = 0;
    for (int y = 0; y < code.modules * dots; ++y)
      for (int x = 0; x < code.modules * dots; ++x) {
        const bool black = (pixels.row(top + y)[left + x] & 0xFFFFFFU) == 0;
        if (black != code.is_dark(x / dots, y / dots)) ++wrong;
      }
    CHECK(wrong == 0);
  }
}

TEST_CASE("a reader of codes reads the bitmap that goes to a label printer") {
  for (const int dots_per_inch : {203, 300, 600}) {
    CAPTURE(dots_per_inch);
    const std::string path = std::string(TUB_BINARY_DIR) + "/code_test.png";
    std::ofstream(path, std::ios::binary)
        << to_bitmap(label_with_code(), test_fonts(), dots_per_inch, BitmapFormat::png);
    CHECK(read_code(path) == code_text);
  }
}

TEST_CASE("a reader of codes reads the PDF, rasterised as a label printer would") {
  const std::string stem = std::string(TUB_BINARY_DIR) + "/code_test_of_pdf";
  const Page page = label_with_code();
  std::ofstream(stem + ".pdf", std::ios::binary) << sample_pdf(std::span(&page, 1));
  for (const int dots_per_inch : {203, 300}) {
    CAPTURE(dots_per_inch);
    const std::string command = "pdftoppm -singlefile -png -mono -r " +
                                std::to_string(dots_per_inch) + " " + stem + ".pdf " + stem;
    REQUIRE(output_of(command).empty());
    CHECK(read_code(stem + ".png") == code_text);
  }
}

}  // namespace
}  // namespace tub::exporting
