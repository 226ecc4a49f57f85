#include "app/pipeline.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "app/sheet_sizes.h"
#include "base/text.h"
#include "job/label_code/label_code.h"
#include "job/limits.h"
#include "job/read/names.h"
#include "layout/blocks/qr.h"
#include "layout/labels/impose.h"
#include "layout/labels/measures.h"
#include "layout/labels/preprinted.h"
#include "layout/pages/lay_out.h"
#include "planning/make_plan.h"
#include "planning/pours/top_up.h"
#include "sheets/compose.h"

namespace tub::app {
namespace {

// A printed text that does not fit is told where the job gives it: the longest of the job's texts
// in it, since only a long one can be too wide. No other problem is the job's for naming what it
// names.
Diagnostic at_its_text(Diagnostic diagnostic, const std::vector<PlacedText>& texts) {
  const PlacedText* longest = nullptr;
  for (const PlacedText& text : texts) {
    const bool is_held = diagnostic.about.find(text.text) != std::string::npos;
    const std::size_t least = longest == nullptr ? 4 : longest->text.size() + 1;
    if (is_held && text.text.size() >= least) longest = &text;
  }
  if (longest != nullptr) {
    diagnostic.trace.push_back("filling " + diagnostic.where);
    diagnostic.where = longest->where;
  }
  return diagnostic;
}

/// Why a square of these blocks does not hold the job, with what to leave out of it.
std::optional<Diagnostic> misfit_of_code(const Code& code, const Job& job) {
  const std::size_t room = qr_capacity(modules_within(code.side_mm));
  if (code.payload.size() <= room) return std::nullopt;
  try {
    label_code_of(job.text, std::max<std::size_t>(room, 1));
  } catch (const Error& error) {
    return error.diagnostics().front();
  }
  return std::nullopt;
}

std::optional<Diagnostic> misfit_of_codes(const std::vector<Block>& blocks, const Job& job) {
  std::optional<Diagnostic> misfit;
  for (const Block& block : blocks) {
    if (misfit) break;
    if (const auto* const code = std::get_if<Code>(&block.content)) {
      misfit = misfit_of_code(*code, job);
    } else if (const auto* const columns = std::get_if<Columns>(&block.content)) {
      for (const Columns::Column& column : columns->columns) {
        if (!misfit) misfit = misfit_of_codes(column.blocks, job);
      }
    }
  }
  return misfit;
}

/// How many labels and pages a run still has room for, copies counted.
class Allowance {
 public:
  /// Throws: Error if so many more are over the limit
  void require(std::size_t labels, const Print& print) const {
    const std::size_t more = labels * static_cast<std::size_t>(print.copies);
    if (taken_ + more <= limits::printed) return;
    throw Error(
        {fmt::format("with {} of these, {} labels and pages or more would be printed, and at "
                     "most {} are printed at once",
                     in_thousands(more), in_thousands(taken_ + more), limits::printed),
         print.where,
         {},
         "ask for fewer copies, or print the job in parts, with --sheet and --copies"});
  }

  void take(std::size_t labels, const Print& print) {
    require(labels, print);
    taken_ += labels * static_cast<std::size_t>(print.copies);
  }

 private:
  std::size_t taken_ = 0;
};

/// One template of a job, in one language on one stock.
class Printing {
 public:
  Printing(const std::string& name, const Print& print, const SheetSources& sources, const Job& job,
           const Library& library)
      : print_(print),
        sources_(sources),
        job_(job),
        library_(library),
        sheet_(library.sheet(name)),
        messages_(library.language(print.language).in(job.heading.country)),
        style_(library.style(sheet_.style)) {
    for (const std::string& language : print.more_languages) {
      more_messages_.push_back(library.language(language).in(job.heading.country));
    }
  }

  /// The pages, each label with as little given up as lets it fit. A job that its square does not
  /// hold has no square.
  Outcome<std::vector<Page>> pages(const Allowance& allowance) {
    allowance.require(1, print_);
    Outcome<std::vector<Document>> whole = pieces(print_.product, 0);
    allowance.require(whole.value.size(), print_);
    Outcome<std::vector<Page>> outcome{{}, whole.warnings};
    for (const Document& piece : whole.value) {
      const std::optional<Diagnostic> misfit = misfit_of_codes(piece.blocks, job_);
      if (!misfit) continue;
      sources_.code.clear();
      outcome.warnings.push_back(without_code(*misfit));
      whole = pieces(print_.product, 0);
      break;
    }
    for (const Document& piece : whole.value) append_fitted(piece, outcome);
    return outcome;
  }

 private:
  Outcome<std::vector<Document>> pieces(const std::string& product, int turn) const {
    std::vector<const Messages*> more;
    for (const Messages& each : more_messages_) more.push_back(&each);
    return compose_pieces(sources_, sheet_, messages_, {product, turn, more});
  }

  void append_fitted(const Document& whole, Outcome<std::vector<Page>>& outcome) const {
    const int last = static_cast<int>(sheet_.given_up.size());
    const std::string& product = whole.properties.product;
    for (int turn = 0;; ++turn) {
      try {
        const auto laid = turn == 0 ? pages_of_pieces({whole}, print_.stock)
                                    : pages_of_pieces(pieces(product, turn).value, print_.stock);
        outcome.value.insert(outcome.value.end(), laid.value.begin(), laid.value.end());
        outcome.warnings.insert(outcome.warnings.end(), laid.warnings.begin(), laid.warnings.end());
        if (turn > 0) outcome.warnings.push_back(left_out(whole, turn));
        return;
      } catch (const Error& error) {
        if (turn == last) {
          throw with_sizes(with_larger_stock(error, pieces(product, turn).value));
        }
      }
    }
  }

  /// The smallest stock of the same kind, larger than the one in use, that takes all of it; empty
  /// if none does.
  std::string larger_stock_for(const std::vector<Document>& documents) const {
    const Stock here = label_of(print_.stock);
    std::vector<const Stock*> larger;
    for (const Stock& stock : library_.stocks()) {
      const Stock label = label_of(stock);
      const bool is_larger = label.width_mm >= here.width_mm && label.height_mm >= here.height_mm &&
                             label.width_mm * label.height_mm > here.width_mm * here.height_mm;
      if (is_larger && stock.grid.has_value() == print_.stock.grid.has_value()) {
        larger.push_back(&stock);
      }
    }
    const auto area = [](const Stock* stock) {
      return label_of(*stock).width_mm * label_of(*stock).height_mm;
    };
    std::stable_sort(larger.begin(), larger.end(),
                     [&](const Stock* a, const Stock* b) { return area(a) < area(b); });
    const auto found = std::find_if(larger.begin(), larger.end(),
                                    [&](const Stock* stock) { return takes(*stock, documents); });
    return found == larger.end() ? "" : (*found)->name;
  }

  bool takes(const Stock& stock, const std::vector<Document>& documents) const {
    try {
      pages_of_pieces(documents, stock);
      return true;
    } catch (const Error&) {
      return false;
    }
  }

  /// What does not fit is told to be put on a larger stock only where one takes it.
  Error with_larger_stock(const Error& error, const std::vector<Document>& documents) const {
    const std::string stock = larger_stock_for(documents);
    std::vector<Diagnostic> diagnostics = error.diagnostics();
    for (Diagnostic& diagnostic : diagnostics) {
      if (stock.empty()) continue;
      diagnostic.help = fmt::format("take {}{}{}", stock, diagnostic.help.empty() ? "" : ", or ",
                                    diagnostic.help);
    }
    return Error(std::move(diagnostics));
  }

  Outcome<std::vector<Page>> pages_of_pieces(const std::vector<Document>& documents,
                                             const Stock& stock) const {
    Outcome<std::vector<Page>> outcome;
    for (const Document& piece : documents) {
      std::vector<Page> laid = lay_out(piece, style_, label_of(stock), library_.fonts());
      std::move(laid.begin(), laid.end(), std::back_inserter(outcome.value));
    }
    check_container(outcome.value, outcome.warnings);
    if (print_.device == Device::one_ink) use_preprinted_frames(outcome.value, stock);
    return outcome;
  }

  // Source: OSHA letter of 2015-08-25 and CLP Annex V: the frame of a pictogram is red.
  void use_preprinted_frames(std::vector<Page>& pages, const Stock& stock) const {
    for (Page& page : pages) {
      if (page.properties.container_litres <= 0) continue;
      page = on_preprinted(std::move(page), label_of(stock), library_.fonts());
    }
  }

  /// What was laid out, held against the rules: what is broken is an error, the rest is said.
  void check_container(const std::vector<Page>& pages, std::vector<Diagnostic>& warnings) const {
    Problems problems;
    for (const Page& page : pages) {
      const double litres = page.properties.container_litres;
      if (litres <= 0) continue;
      const LabelRules& rules = label_rules_named(sources_.labels->rules, sources_.rules);
      const LabelFindings findings =
          check_label(measure_label(page, library_.fonts()), rules, litres);
      for (const Diagnostic& broken : findings.broken) problems.add(broken);
      warnings.insert(warnings.end(), findings.warnings.begin(), findings.warnings.end());
    }
    problems.throw_if_any();
  }

  /// On a stock that the sheet is not made for, the help says what it is made for.
  Error with_sizes(const Error& error) const {
    const std::string sizes = sizes_text(sheet_);
    if (sizes.empty() || has_room(sheet_, print_.stock)) return error;
    std::vector<Diagnostic> diagnostics = error.diagnostics();
    for (Diagnostic& diagnostic : diagnostics) {
      if (diagnostic.message.find(" mm") == std::string::npos) continue;
      diagnostic.help +=
          fmt::format("{}{} fits on {}", diagnostic.help.empty() ? "" : "; ", sheet_.sheet, sizes);
    }
    return Error(std::move(diagnostics));
  }

  Diagnostic without_code(const Diagnostic& misfit) const {
    return {fmt::format("{} leaves out the code: {}", sheet_.sheet, misfit.message),
            misfit.where,
            {},
            misfit.help};
  }

  Diagnostic left_out(const Document& whole, int turn) const {
    const auto& names = sheet_.given_up;
    const std::string& product = whole.properties.product;
    const std::string of = product.empty() ? "" : fmt::format(" of {}", product);
    const std::string stock = larger_stock_for({whole});
    return {fmt::format("{}{} on {} leaves out {}", sheet_.sheet, of, label_of(print_.stock).name,
                        fmt::join(names.begin(), names.begin() + turn, ", ")),
            {},
            {},
            stock.empty() ? "no larger stock takes all of it: leave the rest out, or shorten names"
                          : fmt::format("take {} for all of it", stock)};
  }

  const Print& print_;
  SheetSources sources_;
  const Job& job_;
  const Library& library_;
  SheetTemplate sheet_;
  Messages messages_;
  std::vector<Messages> more_messages_;
  Style style_;
};

/// One template's pages, each as often as asked.
void append_pages(Printing printing, const Print& print, Allowance& allowance,
                  Outcome<std::vector<Page>>& pages) {
  const Outcome<std::vector<Page>> printed = printing.pages(allowance);
  allowance.take(printed.value.size(), print);
  for (const Page& page : printed.value) {
    pages.value.insert(pages.value.end(), static_cast<std::size_t>(print.copies), page);
  }
  pages.warnings.insert(pages.warnings.end(), printed.warnings.begin(), printed.warnings.end());
}

bool is_label_sheet(const Print& print) { return print.sheet == label_sheet; }

std::string title_of_sheet(const Print& print, const Library& library) {
  return library.language(print.language).text("label_sheet.title", {{"stock", print.stock.name}});
}

Outcome<std::vector<Page>> imposed(const Print& print, const SheetSources& sources, const Job& job,
                                   const Library& library, Allowance& allowance) {
  Outcome<std::vector<Page>> pages;
  for (const std::string& name : print.templates) {
    append_pages(Printing(name, print, sources, job, library), print, allowance, pages);
  }
  pages.value = impose(pages.value, print.stock, print.imposition, library.fonts());
  if (!is_label_sheet(print)) return pages;
  for (Page& page : pages.value) {
    page.sheet = print.sheet;
    page.title = title_of_sheet(print, library);
  }
  return pages;
}

/// True if no print has a sheet that is made from more than the plan.
bool are_only_cards(std::span<const Print> prints, const Library& library) {
  return std::all_of(prints.begin(), prints.end(), [&](const Print& print) {
    return std::all_of(
        print.templates.begin(), print.templates.end(),
        [&](const std::string& name) { return library.sheet(name).facts == "plan"; });
  });
}

Outcome<std::vector<Page>> pages_of(const Print& print, const SheetSources& sources, const Job& job,
                                    const Library& library, Allowance& allowance) {
  try {
    return imposed(print, sources, job, library, allowance);
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

Outcome<std::vector<Page>> run(const Job& job, std::span<const Print> prints,
                               const Library& library) {
  const Catalogue& catalogue = library.catalogue();
  const Plan plan = plan_of(job, catalogue);
  SheetSources sources = {plan, job.heading, catalogue.planning.products, TUB_VERSION};
  std::vector<TopUpReading> more;
  std::optional<LabelTables> tables;
  if (!are_only_cards(prints, library)) {
    more = top_ups(job.request, catalogue.planning, catalogue.species, plan.final);
    tables = library.label_tables();
    sources.shelf = job.request.shelf;
    sources.top_ups = more;
    sources.code = label_code_of(job.text, 0);
    sources.packages = job.packages;
    sources.rules = job.rules;
    sources.labels = &*tables;
  }
  Outcome<std::vector<Page>> outcome;
  Allowance allowance;
  for (const Print& print : prints) {
    Outcome<std::vector<Page>> printed = pages_of(print, sources, job, library, allowance);
    std::move(printed.value.begin(), printed.value.end(), std::back_inserter(outcome.value));
    std::move(printed.warnings.begin(), printed.warnings.end(),
              std::back_inserter(outcome.warnings));
  }
  return outcome;
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

}  // namespace tub::app
