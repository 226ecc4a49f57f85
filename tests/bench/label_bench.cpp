// How long 200 different labels take, from a plan to a file of sheets that hold many of each.
//
// Prints milliseconds of the processor for each stage; the median of ten runs. The labels are dose
// tags of one job's products for tubs of different names.
#include <algorithm>
#include <array>
#include <ctime>
#include <fstream>
#include <iostream>
#include <iterator>

#include "app/pipeline.h"
#include "export/pdf.h"
#include "layout/pages/lay_out.h"
#include "sheets/compose.h"

namespace tub {
namespace {

constexpr std::size_t wanted = 200;
constexpr std::size_t stages = 4;  // composed, laid out, put on sheets, written
using Times = std::array<double, stages>;

double milliseconds() { return 1000.0 * static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

std::string text_of(const std::string& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>()};
}

/// What every label is made from.
struct Bench {
  Library library{DataFolders{std::string(TUB_BINARY_DIR) + "/share/tubwright", std::nullopt}};
  Job job;
  Plan plan;
  std::vector<TopUpReading> top_ups;
  LabelTables tables;

  explicit Bench(const std::string& file)
      : job(read_job({text_of(file), file}, std::nullopt, library.catalogue()).value),
        plan(plan_of(job, library.catalogue())),
        top_ups(tub::top_ups(job.request, library.catalogue().planning, library.catalogue().species,
                             plan.final)),
        tables(library.label_tables()) {}
};

std::vector<Document> compose_tags(const Bench& bench, const SheetTemplate& sheet,
                                   const Messages& words) {
  std::vector<Document> tags;
  for (int tub = 1; tags.size() < wanted; ++tub) {
    Heading heading = bench.job.heading;
    heading.vessel_name = "Tub " + std::to_string(tub);
    SheetSources sources{bench.plan, heading, bench.library.catalogue().planning.products,
                         TUB_VERSION};
    sources.shelf = bench.job.request.shelf;
    sources.top_ups = bench.top_ups;
    sources.labels = &bench.tables;
    for (Document& tag : compose_pieces(sources, sheet, words, {}).value) {
      tags.push_back(std::move(tag));
    }
  }
  tags.resize(wanted);
  return tags;
}

Times run_once(const Bench& bench) {
  const SheetTemplate sheet = bench.library.sheet("dose_tag");
  const Messages words = bench.library.language("en");
  const Style style = bench.library.style(sheet.style);
  const Stock stock = bench.library.stock("a4_2x4_99x68");
  const PdfResources resources = bench.library.pdf_resources();
  std::array<double, stages + 1> at{milliseconds()};
  const std::vector<Document> tags = compose_tags(bench, sheet, words);
  at[1] = milliseconds();
  std::vector<Page> labels;
  for (const Document& tag : tags) {
    labels.push_back(lay_out(tag, style, label_of(stock), bench.library.fonts()).front());
  }
  at[2] = milliseconds();
  const std::vector<Page> sheets = impose(labels, stock, {.first = 3}, bench.library.fonts());
  at[3] = milliseconds();
  const std::string file =
      to_pdf(sheets, bench.library.fonts(), resources, properties_of(sheets.front(), "tubwright"));
  at[4] = milliseconds();
  Times times{};
  for (std::size_t i = 0; i < stages; ++i) times.at(i) = at.at(i + 1) - at.at(i);
  return times;
}

double median(const std::vector<Times>& runs, std::size_t stage) {
  std::vector<double> values;
  for (const Times& run : runs) values.push_back(run.at(stage));
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}

}  // namespace
}  // namespace tub

int main() {
  const tub::Bench bench(std::string(TUB_SOURCE_DIR) + "/examples/quince-row.json");
  std::vector<tub::Times> runs;
  for (int i = 0; i < 10; ++i) runs.push_back(tub::run_once(bench));
  constexpr const char* names[] = {"composed", "laid out", "put on sheets", "written"};
  double sum = 0;
  for (std::size_t stage = 0; stage < tub::stages; ++stage) {
    const double ms = tub::median(runs, stage);
    sum += ms;
    std::cout << names[stage] << ": " << ms << " ms\n";
  }
  std::cout << tub::wanted << " labels: " << sum << " ms\n";
  return 0;
}
