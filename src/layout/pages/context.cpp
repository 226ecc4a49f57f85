// Measures lines of type, and words what does not fit.
#include "layout/pages/context.h"

#include <fmt/format.h>

#include <optional>

#include "base/text.h"

namespace tub::layout {

double Context::width(std::u32string_view text, const Type& type) const {
  try {
    return text_width(fonts.face(type.face), text, type.size);
  } catch (Error& error) {
    throw error.within(fmt::format("setting {} of sheet {}", where, document.sheet));
  }
}

double Context::width(std::string_view text, const Type& type) const {
  const std::optional<std::u32string> characters = code_points(text);
  if (!characters) throw Error(Diagnostic{"a text is not well-formed UTF-8", where, {}, {}});
  return width(*characters, type);
}

double Context::rise(const Type& type) const {
  const Font& font = fonts.face(type.face);
  const double content = (font.ascent() + font.descent()) * type.size / 1000;
  return (type.leading - content) / 2 + font.ascent() * type.size / 1000;
}

const Type& Context::type_of(Rank rank) const {
  const Types& types = setting.types;
  switch (rank) {
    case Rank::heading:
      return types.heading;
    case Rank::small:
      return types.small;
    case Rank::product:
      return types.product;
    case Rank::reading:
      return types.table_reading;
    case Rank::signal:
      return types.signal;
    case Rank::body:
      break;
  }
  return types.body;
}

void Context::too_wide(std::string_view what, double by) const {
  misfits.push_back(
      Diagnostic{.message = fmt::format("\"{}\" is {} mm too wide for its place on {}", what,
                                        fixed(by / mm, 1), document.sheet),
                 .where = where,
                 .trace = {},
                 .help = "shorten it, or allow a break with a space or a soft hyphen",
                 .about = std::string(what)});
}

Type bold(Type type) {
  type.face = Face::bold;
  return type;
}

Type regular(Type type) {
  type.face = Face::regular;
  return type;
}

}  // namespace tub::layout
