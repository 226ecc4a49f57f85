// How long a page takes to print, and which part of it either library takes.
//
// The page has the counts of a full startup card: 97 text runs, 129 items, 92 elements, 75 marked
// contents on A4.
#include <benchmark/benchmark.h>

#include <string>

#include "export/bitmap.h"
#include "export/dump.h"
#include "export/pdf.h"
#include "export/pdf_drawing.h"
#include "export/pdf_finishing.h"
#include "export/png.h"
#include "export/svg.h"
#include "export_test.h"
#include "layout/blocks/qr.h"
#include "layout/labels/impose.h"
#include "layout/type/style.h"

namespace tub {
namespace {

constexpr int paragraphs = 75;
constexpr int sections = 16;
constexpr int second_runs = 22;
constexpr int rules = 32;

/// The nth line of a column, two columns of them.
Point place(int n) { return {n % 2 == 0 ? 40.0 : 300.0, 40 + n / 2 * 15.0}; }

void add_run(Page& page, int n, int element, Face face) {
  const std::string text = "Scatter 90\u202Fg slowly over the water, jets on \u2212 wait. ";
  const double width = text_width(test_fonts().face(face), text, 9.5);
  page.items.emplace_back(TextRun{face, 9.5, place(n), width, text, {}, element});
}

Page full_page() {
  Page page;
  page.width = 595.2756;
  page.height = 841.8898;
  page.sheet = "startup_card";
  page.language = "en";
  page.elements.push_back(Element::of(Role::section, -1));
  for (int i = 0; i < sections; ++i) page.elements.push_back(Element::of(Role::section, 0));
  for (int i = 0; i < paragraphs; ++i) {
    page.elements.push_back(Element::of(Role::paragraph, 1 + i % sections));
    const auto made = static_cast<int>(page.elements.size()) - 1;
    add_run(page, i, made, i % 4 == 0 ? Face::bold : Face::regular);
    if (i < second_runs) add_run(page, i + paragraphs, made, Face::regular);
  }
  for (int i = 0; i < rules; ++i)
    page.items.emplace_back(Rule{place(i), {500, place(i).y}, 0.34, {}, artifact});
  return page;
}

const PdfProperties& properties() {
  static const PdfProperties values{.title = "Startup card",
                                    .language = "en",
                                    .author = "Thrushwater Tubs",
                                    .subject = {},
                                    .keywords = "7K4Q-M2",
                                    .date = {2026, 5, 4},
                                    .producer = "tubwright"};
  return values;
}

void pdf_file(benchmark::State& state) {
  const Page page = full_page();
  std::size_t bytes = 0;
  for (auto _ : state)
    bytes = to_pdf({&page, 1}, test_fonts(), test_resources(), properties()).size();
  state.counters["bytes"] = static_cast<double>(bytes);
  state.counters["files_a_second"] =
      benchmark::Counter(static_cast<double>(state.iterations()), benchmark::Counter::kIsRate);
}

void pdf_drawn_by_libharu(benchmark::State& state) {
  const Page page = full_page();
  for (auto _ : state) benchmark::DoNotOptimize(draw_pdf({&page, 1}, test_fonts()));
}

void pdf_finished_by_libqpdf(benchmark::State& state) {
  const Page page = full_page();
  const Drawing drawing = draw_pdf({&page, 1}, test_fonts());
  for (auto _ : state)
    benchmark::DoNotOptimize(
        finish_pdf(drawing, {&page, 1}, test_resources(), properties(), test_fonts()));
}

void pdf_many_pages(benchmark::State& state) {
  const std::vector<Page> pages(static_cast<std::size_t>(state.range(0)), full_page());
  std::size_t bytes = 0;
  for (auto _ : state) bytes = to_pdf(pages, test_fonts(), test_resources(), properties()).size();
  state.counters["bytes_a_page"] = static_cast<double>(bytes) / static_cast<double>(pages.size());
  state.counters["pages_a_second"] = benchmark::Counter(
      static_cast<double>(state.iterations()) * static_cast<double>(pages.size()),
      benchmark::Counter::kIsRate);
}

void svg(benchmark::State& state) {
  const Page page = full_page();
  for (auto _ : state) benchmark::DoNotOptimize(to_svg(page, test_fonts()));
}

void png(benchmark::State& state) {
  const Page page = full_page();
  const auto dots_per_inch = static_cast<double>(state.range(0));
  for (auto _ : state) benchmark::DoNotOptimize(to_png(page, test_fonts(), dots_per_inch));
}

void bitmap(benchmark::State& state) {
  const Page page = full_page();
  const auto dots_per_inch = static_cast<double>(state.range(0));
  for (auto _ : state)
    benchmark::DoNotOptimize(to_bitmap(page, test_fonts(), dots_per_inch, BitmapFormat::pbm));
}

/// A label of 100 x 150 mm with a code, a table's rules and lines of type over all its height.
Page full_label() {
  Page page;
  page.width = 100 * mm;
  page.height = 150 * mm;
  page.sheet = "cabinet_label";
  page.language = "en";
  page.elements = {Element::of(Role::section, -1)};
  page.items.emplace_back(
      qr_path(qr_code("01" + std::string(150, 'A')), {60 * mm, 5 * mm}, 0.5 * mm));
  for (int i = 0; i < 30; ++i) {
    const double y = (45 + 3.4 * i) * mm;
    page.elements.push_back(Element::of(Role::paragraph, 0));
    const Face face = i % 3 == 0 ? Face::bold : Face::regular;
    const std::string text = "too high: dry acid, 6 level tablespoons \u2212 wait";
    page.items.emplace_back(TextRun{
        face, 9, {5 * mm, y}, text_width(test_fonts().face(face), text, 9), text, {}, i + 1});
    if (i % 3 == 0)
      page.items.emplace_back(
          Rule{{5 * mm, y + 3}, {95 * mm, y + 3}, 0.5 * mm, Colour{}, artifact});
  }
  return page;
}

void label_bitmap(benchmark::State& state) {
  const Page page = full_label();
  const auto dots_per_inch = static_cast<double>(state.range(0));
  const auto format = state.range(1) == 0 ? BitmapFormat::pbm : BitmapFormat::png;
  for (auto _ : state)
    benchmark::DoNotOptimize(to_bitmap(page, test_fonts(), dots_per_inch, format));
}

/// Tags of 64 x 34 mm, no two alike.
std::vector<Page> tags(int count) {
  std::vector<Page> pages;
  for (int n = 0; n < count; ++n) {
    Page page;
    page.width = 64 * mm;
    page.height = 33.9 * mm;
    page.sheet = "dose_tag";
    page.language = "en";
    page.elements = {Element::of(Role::section, -1)};
    for (int i = 0; i < 8; ++i) {
      page.elements.push_back(Element::of(Role::paragraph, 0));
      const std::string text =
          "Tub " + std::to_string(n) + ": line " + std::to_string(i) + " of this tag";
      page.items.emplace_back(TextRun{Face::regular,
                                      7,
                                      {3 * mm, (5 + 3.2 * i) * mm},
                                      text_width(test_fonts().regular, text, 7),
                                      text,
                                      {},
                                      i + 1});
    }
    pages.push_back(std::move(page));
  }
  return pages;
}

void labels_many_up(benchmark::State& state) {
  const std::vector<Page> labels = tags(200);
  const Stock stock{.name = "a4_3x8_64x34",
                    .width_mm = 210,
                    .height_mm = 297,
                    .grid = LabelGrid{3, 8, 64, 33.9, 6.5, 12.9, 66.5, 33.9, 0},
                    .keep_out_mm = 1.5};
  for (auto _ : state)
    benchmark::DoNotOptimize(to_pdf(impose(labels, stock, {.first = 5}, test_fonts()), test_fonts(),
                                    test_resources(), properties()));
}

void dump(benchmark::State& state) {
  const Page page = full_page();
  for (auto _ : state) benchmark::DoNotOptimize(dump_text({&page, 1}));
}

BENCHMARK(pdf_file)->Unit(benchmark::kMillisecond);
BENCHMARK(pdf_drawn_by_libharu)->Unit(benchmark::kMillisecond);
BENCHMARK(pdf_finished_by_libqpdf)->Unit(benchmark::kMillisecond);
BENCHMARK(pdf_many_pages)->Arg(50)->Arg(200)->Unit(benchmark::kMillisecond);
BENCHMARK(svg)->Unit(benchmark::kMillisecond);
BENCHMARK(png)->Arg(96)->Arg(110)->Arg(300)->Unit(benchmark::kMillisecond);
BENCHMARK(bitmap)->Arg(203)->Arg(300)->Unit(benchmark::kMillisecond);
BENCHMARK(label_bitmap)
    ->ArgsProduct({{203, 300, 600}, {0, 1}})
    ->ArgNames({"dpi", "png"})
    ->Unit(benchmark::kMillisecond);
BENCHMARK(labels_many_up)->Unit(benchmark::kMillisecond);
BENCHMARK(dump)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace tub

BENCHMARK_MAIN();
