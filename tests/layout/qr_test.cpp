// Square codes: what fits into which size, and that a reader of codes reads back what was written.
#include "layout/blocks/qr.h"

#include <array>
#include <catch2/catch.hpp>
#include <cstdio>
#include <fstream>
#include <memory>
#include <string>

#include "base/error.h"
#include "layout/pages/fragment.h"

namespace tub::layout {
namespace {

TEST_CASE("a code holds as many characters as the table says, and one more takes the next size") {
  // The encoder has tables of its own.
  for (int modules = 21; modules <= 177; modules += 4) {
    CAPTURE(modules);
    const std::size_t most = qr_capacity(modules);
    CHECK(qr_code(std::string(most, 'A')).modules == modules);
    if (modules < 177) CHECK(qr_code(std::string(most + 1, 'A')).modules == modules + 4);
  }
  CHECK(qr_capacity(17) == 0);
  CHECK(qr_capacity(22) == 0);
  CHECK(qr_capacity(181) == 0);
}

TEST_CASE("a text that no square code holds is refused with its place or its length") {
  CHECK_THROWS_WITH(qr_code("TUB a"), Catch::Contains("character 5 of the code's text"));
  CHECK_THROWS_WITH(qr_code(""), Catch::Contains("at least one character"));
  CHECK_THROWS_WITH(qr_code(std::string(3392, 'A')),
                    Catch::Contains("3392 characters, and the largest square code holds 3391"));
}

TEST_CASE("the path covers the dark modules and no others") {
  const QrCode code = qr_code("TUB");
  const Path path = qr_path(code, {10, 20}, 2);
  std::vector<bool> covered(code.dark.size());
  for (std::size_t at = 0; at + 4 < path.segments.size(); at += 5) {
    const Point from = std::get<MoveTo>(path.segments[at]).to;
    const Point to = std::get<LineTo>(path.segments[at + 2]).to;
    CHECK(to.y - from.y == Approx(2));
    for (double x = from.x; x < to.x - 1; x += 2) {
      const auto column = static_cast<std::size_t>((x - 10) / 2 + 0.5);
      const auto row = static_cast<std::size_t>((from.y - 20) / 2 + 0.5);
      covered.at(row * 21 + column) = true;
    }
  }
  CHECK(covered == code.dark);
}

TEST_CASE("a code that is moved takes its grid along") {
  const Item item = moved(qr_path(qr_code("TUB"), {10, 20}, 2), {3, -4});
  const Path& path = std::get<Path>(item);
  REQUIRE(path.grid.has_value());
  CHECK(path.grid->corner == Point{13, 16});
  CHECK(std::get<MoveTo>(path.segments.front()).to == Point{13, 16});
}

/// A code as plain PBM, each module so many dots wide.
std::string picture(const QrCode& code, int dots) {
  const int side = (code.modules + 2 * quiet_modules) * dots;
  std::string text = "P1\n" + std::to_string(side) + " " + std::to_string(side) + "\n";
  for (int y = 0; y < side; ++y) {
    for (int x = 0; x < side; ++x) {
      const int column = x / dots - quiet_modules;
      const int row = y / dots - quiet_modules;
      const bool inside = column >= 0 && row >= 0 && column < code.modules && row < code.modules;
      text += inside && code.is_dark(column, row) ? "1 " : "0 ";
    }
    text += "\n";
  }
  return text;
}

std::string read_by_zbarimg(const std::string& picture_text) {
  const std::string path = std::string(TUB_BINARY_DIR) + "/qr_test.pbm";
  std::ofstream(path) << picture_text;
  const std::string command = "zbarimg --quiet --nodbus --raw --oneshot " + path;
  const std::unique_ptr<FILE, int (*)(FILE*)> pipe(popen(command.c_str(), "r"), pclose);
  REQUIRE(pipe != nullptr);
  std::string out;
  std::array<char, 512> part{};
  while (std::fgets(part.data(), part.size(), pipe.get()) != nullptr) out += part.data();
  return out;
}

TEST_CASE("a reader of codes reads what was written, every character of the mode") {
  const std::string text = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";
  for (const std::size_t times : {1U, 4U, 5U}) {
    std::string long_text;
    for (std::size_t i = 0; i < times; ++i) long_text += text;
    CHECK(read_by_zbarimg(picture(qr_code(long_text), 4)) == long_text);
  }
}

}  // namespace
}  // namespace tub::layout
