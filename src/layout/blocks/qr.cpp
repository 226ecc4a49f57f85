#include "layout/blocks/qr.h"

#include <fmt/format.h>
#include <qrencode.h>

#include <array>
#include <memory>
#include <string>

#include "base/error.h"

namespace tub::layout {
namespace {

constexpr std::string_view alphanumeric = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";

constexpr int smallest_side = 21;
constexpr int side_step = 4;

// Source: ISO/IEC 18004, table of data capacities, alphanumeric mode, level M, versions 1 to 40
// (from memory; a test holds them against the encoder)
constexpr std::array<std::size_t, 40> capacities = {
    20,   38,   61,   90,   122,  154,  178,  221,  262,  311,  366,  419,  483,  528,
    600,  656,  734,  816,  909,  970,  1035, 1134, 1248, 1326, 1451, 1542, 1637, 1732,
    1839, 1994, 2113, 2238, 2369, 2506, 2632, 2780, 2894, 3054, 3220, 3391};

[[noreturn]] void refuse(std::string message, std::string help) {
  throw Error(Diagnostic{.message = std::move(message),
                         .where = {},
                         .trace = {"making a square code"},
                         .help = std::move(help)});
}

void require_encodable(std::string_view text) {
  if (text.empty()) refuse("a square code needs at least one character", "");
  const std::size_t at = text.find_first_not_of(alphanumeric);
  if (at != std::string_view::npos) {
    refuse(fmt::format("character {} of the code's text is none that a square code holds", at + 1),
           "write it in Base45");
  }
  if (text.size() > capacities.back()) {
    refuse(fmt::format("{} characters, and the largest square code holds {}", text.size(),
                       capacities.back()),
           "leave something out");
  }
}

struct InputDeleter {
  void operator()(QRinput* input) const { QRinput_free(input); }
};
struct CodeDeleter {
  void operator()(QRcode* code) const { QRcode_free(code); }
};

void add_row(std::vector<Segment>& segments, double left, double right, double top, double bottom) {
  segments.insert(segments.end(), {MoveTo{{left, top}}, LineTo{{right, top}},
                                   LineTo{{right, bottom}}, LineTo{{left, bottom}}, ClosePath{}});
}

}  // namespace

QrCode qr_code(std::string_view text) {
  require_encodable(text);
  const std::unique_ptr<QRinput, InputDeleter> input(QRinput_new2(0, QR_ECLEVEL_M));
  const std::vector<unsigned char> bytes(text.begin(), text.end());
  if (input == nullptr ||
      QRinput_append(input.get(), QR_MODE_AN, static_cast<int>(bytes.size()), bytes.data()) != 0) {
    refuse("the encoder does not take the code's text", "");
  }
  const std::unique_ptr<QRcode, CodeDeleter> encoded(QRcode_encodeInput(input.get()));
  if (encoded == nullptr) refuse("the encoder makes no code of the text", "");
  const auto count = static_cast<std::size_t>(encoded->width * encoded->width);
  QrCode code{encoded->width, std::vector<bool>(count)};
  for (std::size_t i = 0; i < count; ++i) code.dark[i] = (encoded->data[i] & 1U) != 0;
  return code;
}

std::size_t qr_capacity(int modules) {
  const int past_first = modules - smallest_side;
  if (past_first < 0 || past_first % side_step != 0) return 0;
  const auto version = static_cast<std::size_t>(past_first / side_step);
  return version < capacities.size() ? capacities.at(version) : 0;
}

int modules_within(double side_mm) {
  const int whole = static_cast<int>(side_mm * 72 / 25.4 / code_module + 1e-6) - 2 * quiet_modules;
  if (whole < smallest_side) return 0;
  return smallest_side + (whole - smallest_side) / side_step * side_step;
}

Path qr_path(const QrCode& code, Point corner, double module) {
  Path path;
  path.fill = Colour{};
  path.grid = Grid{corner, module};
  for (int row = 0; row < code.modules; ++row) {
    const double top = corner.y + row * module;
    for (int from = 0; from < code.modules; ++from) {
      if (!code.is_dark(from, row)) continue;
      int to = from;
      while (to < code.modules && code.is_dark(to, row)) ++to;
      add_row(path.segments, corner.x + from * module, corner.x + to * module, top, top + module);
      from = to;
    }
  }
  return path;
}

}  // namespace tub::layout
