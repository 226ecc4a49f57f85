#include "app/pipeline.h"

#include <fmt/format.h>

#include <iterator>

#include "layout/lay_out.h"
#include "planning/make_plan.h"
#include "sheets/compose.h"

namespace tub {
namespace {

std::vector<Page> pages_of(const Print& print, const SheetSources& sources,
                           const Library& library) {
  try {
    const SheetTemplate sheet = library.sheet(print.sheet);
    const Document document = compose(sources, sheet, library.language(print.language));
    return lay_out(document, library.style("card"), print.stock, library.fonts());
  } catch (Error& error) {
    throw error.within(fmt::format("printing {} on {}", print.sheet, print.stock.name));
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
    std::vector<Page> more = pages_of(print, sources, library);
    pages.insert(pages.end(), std::make_move_iterator(more.begin()),
                 std::make_move_iterator(more.end()));
  }
  return pages;
}

}  // namespace tub
