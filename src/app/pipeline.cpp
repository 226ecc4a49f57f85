#include "app/pipeline.h"

#include <fmt/format.h>

#include <iterator>

#include "layout/impose.h"
#include "layout/lay_out.h"
#include "planning/make_plan.h"
#include "sheets/compose.h"

namespace tub {
namespace {

// A problem with a text that the job gave is told where the job gives it: the longest text that its
// message holds, since only a long one can be too wide.
Diagnostic at_its_text(Diagnostic diagnostic, const std::vector<PlacedText>& texts) {
  const PlacedText* longest = nullptr;
  for (const PlacedText& text : texts) {
    const bool is_held = diagnostic.message.find(text.text) != std::string::npos;
    const std::size_t least = longest == nullptr ? 4 : longest->text.size() + 1;
    if (is_held && text.text.size() >= least) longest = &text;
  }
  if (longest != nullptr) {
    diagnostic.trace.push_back("filling " + diagnostic.where);
    diagnostic.where = longest->where;
  }
  return diagnostic;
}

std::vector<Page> pages_of(const Print& print, const SheetSources& sources, const Job& job,
                           const Library& library) {
  try {
    const SheetTemplate sheet = library.sheet(print.sheet);
    const Document document = compose(sources, sheet, library.language(print.language));
    const std::vector<Page> pages =
        lay_out(document, library.style("card"), label_of(print.stock), library.fonts());
    return impose(pages, print.stock, {});
  } catch (const Error& error) {
    std::vector<Diagnostic> diagnostics;
    for (const Diagnostic& found : error.diagnostics()) {
      diagnostics.push_back(at_its_text(found, job.texts));
    }
    throw Error(std::move(diagnostics))
        .within(fmt::format("printing {} on {}", print.sheet, print.stock.name));
  }
}

}  // namespace

Plan plan_of(const Job& job, const Catalogue& catalogue) {
  return make_plan(job.request, catalogue.planning, catalogue.species);
}

std::vector<Page> run(const Job& job, std::span<const Print> prints, const Library& library) {
  const Plan plan = plan_of(job, library.catalogue());
  const SheetSources sources = {plan, job.heading, library.catalogue().planning.products,
                                TUB_VERSION};
  std::vector<Page> pages;
  for (const Print& print : prints) {
    std::vector<Page> more = pages_of(print, sources, job, library);
    pages.insert(pages.end(), std::make_move_iterator(more.begin()),
                 std::make_move_iterator(more.end()));
  }
  return pages;
}

}  // namespace tub
