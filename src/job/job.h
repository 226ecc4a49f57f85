// A job as it was read: one vessel, its water, its shelf, and the sheets that it asks for.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.h"
#include "job/shape/catalogue.h"
#include "planning/heading.h"
#include "planning/package.h"
#include "planning/request.h"

namespace tub::job {

/// A picture that the job names; `app` reads its bytes.
struct LogoFile {
  std::string path;   ///< as written
  std::string base;   ///< the file that names it: relative paths start in its folder
  std::string where;  ///< that place, for messages
};

/// Paper or a label: a known name, or its size.
struct StockRequest {
  std::string name;  ///< "80x120mm" where the size was given
  double width_mm = 0;
  double height_mm = 0;  ///< 0: a known name
};

/// A sheet that the job asks for; nothing where it leaves the choice to the sheet or the program.
struct SheetRequest {
  std::string sheet;
  std::optional<StockRequest> stock{};
  std::vector<std::string> languages{};  ///< one piece in each; on a container label all at once
  std::string where{};                   ///< for messages
  std::vector<std::string> labels{};     ///< on a label sheet; empty: the program's choice
  std::optional<int> start_at{};         ///< the first free label of a sheet of labels
  std::string product{};                 ///< the labels of this product only; empty: of all
  int copies = 1;                        ///< of each label
  std::optional<double> bleed_mm{};
  bool has_crop_marks = false;
};

/// Where a printer puts a page that should be in place.
struct PrinterEntry {
  std::string name;     ///< empty: the printer that is used where none is named
  double right_mm = 0;  ///< by how much too far right
  double down_mm = 0;
  double across_100_mm = 100;  ///< what 100 mm of the page measure when printed
  double down_100_mm = 100;
};

/// A text that sheets print as it was written, and where.
struct PlacedText {
  std::string text;
  std::string where;
};

struct Job {
  Heading heading;                ///< without the logo's bytes
  std::vector<PlacedText> texts;  ///< of the heading, for messages about those that do not fit
  std::optional<LogoFile> logo;
  PlanRequest request;
  std::string
      text;  ///< of the job with its shop's file laid under it, as JSON: for its label's code
  std::vector<Package> packages;  ///< of the shelf, in its order: what container labels are for
  std::vector<SheetRequest> sheets;
  std::string rules;  ///< "clp", "hazcom" or empty
  std::string whole;  ///< the job with the shop's file under it, as JSON: what stands at a pointer
  // What the shop's file says of sheets that say nothing themselves.
  std::optional<std::string> language;
  std::map<std::string, StockRequest> stocks;  ///< by sheet
  std::vector<PrinterEntry> printers;
};

/// A text and the file it came from.
struct NamedText {
  std::string text;
  std::string file;
};

/// Reads a job, with what a shop sets once laid under it.
///
/// The warnings are what a careful reader would want to know before printing.
/// Throws: Error with every problem of both files, each at its place
Outcome<Job> read_job(const NamedText& job, const std::optional<NamedText>& shop,
                      const Catalogue& catalogue);

/// A stock given by its size on the command line: "80x120mm", sides from 20 to 1200 mm.
///
/// Returns: nothing if the text is no such size
std::optional<StockRequest> sized_stock(std::string_view text);

}  // namespace tub::job
