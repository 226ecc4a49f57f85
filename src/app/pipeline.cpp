#include "app/pipeline.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "job/names.h"
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

/// One template's pages, each as often as asked.
void append_pages(const std::string& name, const Print& print, const SheetSources& sources,
                  const Library& library, std::vector<Page>& pages) {
  const Document document = compose(sources, library.sheet(name), library.language(print.language));
  for (const Page& page :
       lay_out(document, library.style("card"), label_of(print.stock), library.fonts())) {
    pages.insert(pages.end(), static_cast<std::size_t>(print.copies), page);
  }
}

bool is_label_sheet(const Print& print) { return print.sheet == label_sheet; }

std::string title_of_sheet(const Print& print, const Library& library) {
  return library.language(print.language).text("label_sheet.title", {{"stock", print.stock.name}});
}

std::vector<Page> imposed(const Print& print, const SheetSources& sources, const Library& library) {
  std::vector<Page> labels;
  for (const std::string& name : print.templates) {
    append_pages(name, print, sources, library, labels);
  }
  std::vector<Page> pages = impose(labels, print.stock, print.imposition, library.fonts());
  if (!is_label_sheet(print)) return pages;
  for (Page& page : pages) {
    page.sheet = print.sheet;
    page.title = title_of_sheet(print, library);
  }
  return pages;
}

std::vector<Page> pages_of(const Print& print, const SheetSources& sources, const Job& job,
                           const Library& library) {
  try {
    return imposed(print, sources, library);
  } catch (const Error& error) {
    std::vector<Diagnostic> diagnostics;
    for (const Diagnostic& found : error.diagnostics()) {
      diagnostics.push_back(at_its_text(found, job.texts));
    }
    throw Error(std::move(diagnostics))
        .within(fmt::format("printing {} on {}", print.sheet, print.stock.name));
  }
}

AlignmentWords alignment_words(const Stock& stock, const Messages& messages) {
  const AlignmentMarks marks = alignment_marks(stock);
  const auto number = [](int value) { return fmt::format("{}", value); };
  const std::string title = messages.text("alignment_page.title", {{"stock", stock.name}});
  if (marks.from == marks.to) {
    return {title, messages.text("alignment_page.short_note", {{"mark", number(marks.place)}})};
  }
  return {title, messages.text("alignment_page.note", {{"mark", number(marks.place)},
                                                       {"from", number(marks.from)},
                                                       {"to", number(marks.to)}})};
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

std::vector<Page> alignment_pages(std::span<const Print> prints, const Library& library) {
  std::vector<Page> pages;
  std::vector<std::string> done;
  for (const Print& print : prints) {
    if (std::find(done.begin(), done.end(), print.stock.name) != done.end()) continue;
    done.push_back(print.stock.name);
    const AlignmentWords words = alignment_words(print.stock, library.language(print.language));
    Page page = alignment_page(print.stock, words, library.fonts());
    page.language = print.language;
    pages.push_back(corrected(std::move(page), print.imposition.correction));
  }
  return pages;
}

}  // namespace tub
