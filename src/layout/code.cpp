// A square code with a text beside it.
#include <algorithm>
#include <utility>

#include "layout/blocks.h"
#include "layout/lines.h"
#include "layout/qr.h"

namespace tub {
namespace {

/// Smaller modules are not read surely when printed at 203 dots per inch (four dots each).
constexpr double least_module = 0.5 * mm;

}  // namespace

Fragment lay_code(const Code& code, double width, const Context& context) {
  const QrCode modules = qr_code(code.payload);
  const double count = modules.modules + 2 * quiet_modules;
  const double side = code.side_mm * mm;
  const double module = side / count;
  if (module < least_module - 1e-6) {
    context.too_wide("a code of " + std::to_string(modules.modules) + " modules",
                     count * least_module - side);
  }
  const double text_x = side + context.lengths().sign_text_gap;
  const Fragment text = paragraph(code.text, context.types().body, width - text_x, context);
  Fragment fragment;
  fragment.height = std::max(side, text.height);
  const double quiet = quiet_modules * module;
  Path path = qr_path(modules, {quiet, (fragment.height - side) / 2 + quiet}, module);
  fragment.write_figure(Mark{Mark::Kind::figure, {std::move(path)}, code.alt});
  fragment.place(text, {text_x, (fragment.height - text.height) / 2});
  return fragment;
}

}  // namespace tub
