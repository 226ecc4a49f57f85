// What every exporter demands of a text run before it draws it.
#include "export/drawable.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/error.h"
#include "base/text.h"

namespace tub::exporting {
namespace {

[[noreturn]] void refuse(const std::string& what, const TextRun& run) {
  throw Error(
      Diagnostic{.message = fmt::format("{} reached the printing of \"{}\"", what, run.text),
                 .where = {},
                 .trace = {"drawing a page"},
                 .help = "this is a bug in the program: please report it with the job",
                 .fault = Fault::machine});
}

}  // namespace

std::u32string drawable(const TextRun& run, const Font& font) {
  const auto characters = code_points(run.text);
  if (!characters) refuse("text that is not UTF-8", run);
  const auto missing = std::find_if(characters->begin(), characters->end(),
                                    [&font](char32_t character) { return !font.has(character); });
  if (missing != characters->end())
    refuse(fmt::format("{}, which {} lacks,", code_point_name(*missing), font.name()), run);
  return *characters;
}

}  // namespace tub::exporting
