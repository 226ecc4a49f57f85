#include "app/prints.h"

#include <fmt/format.h>

#include <algorithm>

#include "app/files.h"
#include "app/imposition_choices.h"
#include "app/output.h"
#include "base/nearest.h"
#include "base/text.h"
#include "job/limits.h"
#include "job/read/names.h"

namespace tub::app {
namespace {

bool is_in(const std::vector<std::string>& names, const std::string& name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

// A name on the command line that must be one of `usable`; those of later versions are told apart.
void require_name(const std::string& what, const std::string& name,
                  const std::vector<std::string>& usable, const std::vector<std::string>& known,
                  Problems& problems) {
  if (is_in(usable, name)) return;
  if (is_in(known, name)) {
    problems.add(command_line_fault(fmt::format("the {} \"{}\" is not in this version", what, name),
                                    fmt::format("in this version: {}", fmt::join(usable, ", "))));
  } else {
    problems.add(command_line_fault(fmt::format("there is no {} \"{}\"", what, name),
                                    suggestion(name, usable)));
  }
}

std::vector<SheetRequest> requested(const Arguments& arguments, const Job& job) {
  std::vector<SheetRequest> requests;
  for (const std::string& sheet : arguments.values("--sheet")) {
    requests.push_back(SheetRequest{.sheet = sheet});
  }
  if (requests.empty()) requests = job.sheets;
  if (requests.empty()) {
    throw Error({"the job asks for no sheet",
                 *arguments.operand,
                 {},
                 "add \"sheets\": [ \"startup_card\" ] to it, or --sheet startup_card"});
  }
  return requests;
}

Stock stock_from(const StockRequest& request, const Library& library) {
  if (request.height_mm == 0) return library.stock(request.name);
  Stock stock{request.name, request.width_mm, request.height_mm};
  stock.keep_out_mm = usual_keep_out_mm;
  return stock;
}

std::optional<StockRequest> read_stock_name(const std::string& stock, const Catalogue& catalogue,
                                            Problems& problems) {
  if (const auto sized = sized_stock(stock)) return sized;
  const bool is_size = stock.size() > 4 && stock.ends_with("mm") && stock.find('x') != stock.npos;
  if (is_size && !is_in(catalogue.stocks, stock)) {
    problems.add(command_line_fault(fmt::format("\"{}\" is no size of a stock", stock),
                                    "give sides from 20 to 1200 mm: 80x120mm"));
  } else {
    require_name("stock", stock, catalogue.stocks, known_stocks(), problems);
  }
  return StockRequest{stock, 0, 0};
}

// The choices of the command line, which hold for all sheets.
struct Choices {
  std::optional<StockRequest> stock;
  std::optional<std::string> language;
  ImpositionChoices imposition;
};

std::vector<std::string> labels_of(const Catalogue& catalogue) {
  std::vector<std::string> labels;
  for (const std::string& label : known_labels()) {
    if (is_in(catalogue.sheets, label)) labels.push_back(label);
  }
  return labels;
}

/// What is wrong with a sheet, with the field of the job that says it.
struct FaultOfSheet {
  std::string message;
  std::string field;
  std::string help;
};

/// Reports it where the job asks for the sheet, or at the command line if that did.
void report(const SheetRequest& request, const FaultOfSheet& fault, Problems& problems) {
  if (request.where.empty()) {
    problems.add(command_line_fault(fault.message, fault.help));
  } else {
    problems.add({fault.message, request.where + fault.field, {}, fault.help});
  }
}

Choices read_choices(const Arguments& arguments, const Job& job, const Catalogue& catalogue) {
  Problems problems;
  Choices choices;
  for (const std::string& sheet : arguments.values("--sheet")) {
    require_name("sheet", sheet, catalogue.sheets, known_sheets(), problems);
  }
  for (const std::string& label : arguments.values("--label")) {
    require_name("label", label, labels_of(catalogue), known_labels(), problems);
  }
  if (const auto stock = arguments.value("--stock")) {
    choices.stock = read_stock_name(*stock, catalogue, problems);
  }
  choices.language = arguments.value("--language");
  if (choices.language) {
    require_name("language", *choices.language, catalogue.languages, known_languages(), problems);
  }
  choices.imposition = read_imposition(arguments, job, problems);
  problems.throw_if_any();
  return choices;
}

/// The labels on a label sheet: those named, else those that the job asks for, else all.
std::vector<std::string> templates_of(const SheetRequest& request, const Arguments& arguments,
                                      const Job& job, const Catalogue& catalogue) {
  if (request.sheet != label_sheet) return {request.sheet};
  if (arguments.has("--label")) return arguments.values("--label");
  if (!request.labels.empty()) return request.labels;
  std::vector<std::string> labels;
  for (const SheetRequest& other : job.sheets) {
    const bool is_label = is_in(labels_of(catalogue), other.sheet) && !is_in(labels, other.sheet);
    if (is_label) labels.push_back(other.sheet);
  }
  return labels.empty() ? labels_of(catalogue) : labels;
}

StockRequest chosen_stock(const SheetRequest& request, const Choices& choices, const Job& job,
                          const Library& library, Problems& problems) {
  if (choices.stock) return *choices.stock;
  if (request.stock) return *request.stock;
  if (job.stocks.contains(request.sheet)) return job.stocks.at(request.sheet);
  if (request.sheet == label_sheet) {
    report(request,
           {"the label sheet has no stock", "",
            "name a sheet of labels, such as a4_2x4_99x68: `tubwright list stocks`"},
           problems);
    return {"a4", 0, 0};
  }
  return {library.stock_of_sheet(request.sheet).name, 0, 0};
}

void check_position(const Print& print, const SheetRequest& request, const Choices& choices,
                    Problems& problems) {
  const int first = print.imposition.first;
  const auto& grid = print.stock.grid;
  if (first <= (grid ? grid->labels() : 1)) return;
  const std::string found =
      grid ? fmt::format("position {} is not on the sheet: {} has positions 1 to {}", first,
                         print.stock.name, grid->labels())
           : fmt::format("there is no position {} on {}, which is no sheet of labels", first,
                         print.stock.name);
  const std::string help = "name the first free label, counted row by row from the upper left";
  SheetRequest at = request;
  if (choices.imposition.first) at.where.clear();
  report(at, {found, "/start_at", help}, problems);
}

Print print_of(const SheetRequest& request, const StockRequest& stock, const Choices& choices,
               const Library& library) {
  Print print;
  print.sheet = request.sheet;
  print.stock = stock_from(stock, library);
  const ImpositionChoices& chosen = choices.imposition;
  print.copies = chosen.copies.value_or(request.copies);
  print.imposition.first = chosen.first.value_or(request.start_at.value_or(1));
  print.imposition.correction = chosen.correction;
  print.imposition.bleed_mm =
      chosen.bleed_mm.value_or(request.bleed_mm.value_or(print.stock.bleed_mm));
  if (chosen.has_crop_marks || request.has_crop_marks) {
    print.imposition.crop_marks = CropMarks::corners;
  }
  return print;
}

void check_count(const std::vector<SheetRequest>& requests, Problems& problems) {
  if (requests.size() <= limits::sheets) return;
  report(requests.front(),
         {fmt::format("{} sheets are asked for, and at most {} are printed at once",
                      in_thousands(requests.size()), limits::sheets),
          "", "print the job in parts, with --sheet"},
         problems);
  problems.throw_if_any();
}

/// A bitmap is for devices of one ink.
Device device_of(const Arguments& arguments) {
  const bool prints = arguments.has("--out");
  return prints && read_output(arguments).format == Format::bitmap ? Device::one_ink
                                                                   : Device::in_colour;
}

std::vector<std::string> languages_of(const SheetRequest& request, const Choices& choices,
                                      const Job& job) {
  if (choices.language) return {*choices.language};
  if (!request.languages.empty()) return request.languages;
  return {job.language.value_or("en")};
}

/// A container label holds all its languages; of other sheets there is one in each.
void add_in_languages(Print print, const std::vector<std::string>& languages,
                      const Library& library, std::vector<Print>& prints) {
  const bool is_shared = std::any_of(
      print.templates.begin(), print.templates.end(),
      [&](const std::string& name) { return library.sheet(name).facts == "container"; });
  for (const std::string& language : languages) {
    print.language = language;
    if (is_shared) print.more_languages.assign(languages.begin() + 1, languages.end());
    prints.push_back(print);
    if (is_shared) return;
  }
}

}  // namespace

std::vector<Print> prints_of(const Arguments& arguments, const Job& job, const Library& library) {
  const Choices choices = read_choices(arguments, job, library.catalogue());
  Problems problems;
  std::vector<Print> prints;
  const std::vector<SheetRequest> requests = requested(arguments, job);
  check_count(requests, problems);
  for (const SheetRequest& request : requests) {
    const StockRequest stock = chosen_stock(request, choices, job, library, problems);
    Print print = print_of(request, stock, choices, library);
    print.templates = templates_of(request, arguments, job, library.catalogue());
    print.product = request.product;
    print.where = request.where;
    print.device = device_of(arguments);
    check_position(print, request, choices, problems);
    add_in_languages(print, languages_of(request, choices, job), library, prints);
  }
  problems.throw_if_any();
  return prints;
}

Outcome<std::vector<Page>> printed_pages(const Arguments& arguments, const Job& job,
                                         const Library& library) {
  const std::vector<Print> prints = prints_of(arguments, job, library);
  if (arguments.has("--alignment-page")) return {alignment_pages(prints, library), {}};
  return run(job, prints, library);
}

}  // namespace tub::app
