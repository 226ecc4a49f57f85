#include "app/prints.h"

#include <fmt/format.h>

#include <algorithm>

#include "app/files.h"
#include "base/nearest.h"
#include "job/names.h"

namespace tub {
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
  for (const std::string& sheet : arguments.values("--sheet"))
    requests.push_back({sheet, {}, {}, ""});
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
  if (request.height_mm > 0) return {request.name, request.width_mm, request.height_mm};
  return library.stock(request.name);
}

// The choices of the command line, which hold for all sheets.
struct Choices {
  std::optional<StockRequest> stock;
  std::optional<std::string> language;
};

Choices read_choices(const Arguments& arguments, const Catalogue& catalogue) {
  Problems problems;
  Choices choices;
  for (const std::string& sheet : arguments.values("--sheet")) {
    require_name("sheet", sheet, catalogue.sheets, known_sheets(), problems);
  }
  if (const auto stock = arguments.value("--stock")) {
    choices.stock = sized_stock(*stock);
    if (!choices.stock) {
      require_name("stock", *stock, catalogue.stocks, known_stocks(), problems);
      choices.stock = StockRequest{*stock, 0, 0};
    }
  }
  choices.language = arguments.value("--language");
  if (choices.language) {
    require_name("language", *choices.language, catalogue.languages, known_languages(), problems);
  }
  problems.throw_if_any();
  return choices;
}

}  // namespace

std::vector<Print> prints_of(const Arguments& arguments, const Job& job, const Library& library) {
  const Choices choices = read_choices(arguments, library.catalogue());
  std::vector<Print> prints;
  for (const SheetRequest& request : requested(arguments, job)) {
    std::optional<StockRequest> stock = choices.stock ? choices.stock : request.stock;
    if (!stock && job.stocks.contains(request.sheet)) stock = job.stocks.at(request.sheet);
    const auto language = choices.language ? choices.language : request.language;
    prints.push_back({request.sheet, stock_from(stock.value_or(StockRequest{"a4", 0, 0}), library),
                      language.value_or(job.language.value_or("en"))});
  }
  return prints;
}

}  // namespace tub
