// A square code with a text beside it or under it.
#include <algorithm>
#include <utility>

#include "layout/blocks/blocks.h"
#include "layout/blocks/qr.h"
#include "layout/type/lines.h"

namespace tub::layout {
Fragment lay_code(const Code& code, double width, const Context& context) {
  const QrCode modules = qr_code(code.payload);
  const double side = (modules.modules + 2 * quiet_modules) * code_module;
  const double over = side - code.side_mm * mm;
  if (over > 1e-6) {
    context.too_wide("a code of " + std::to_string(modules.modules) + " modules", over);
  }
  const bool beside = code.caption == Code::Caption::beside;
  const double text_x = beside ? side + context.lengths().sign_text_gap : 0;
  const Type& type = beside ? context.types().body : context.types().small;
  const Fragment text =
      paragraph(code.text, type, width - text_x, context, {}, beside ? Align::left : Align::right);
  Fragment fragment;
  fragment.height = beside ? std::max(side, text.height) : side + text.height;
  const double left = beside ? 0 : width - side;
  const double top = beside ? (fragment.height - side) / 2 : 0;
  const double quiet = quiet_modules * code_module;
  Path path = qr_path(modules, {left + quiet, top + quiet}, code_module);
  fragment.write_figure(Mark{Mark::Kind::figure, {std::move(path)}, code.alt});
  fragment.place(text, {text_x, beside ? (fragment.height - text.height) / 2 : side});
  return fragment;
}

}  // namespace tub::layout
