#include "app/output.h"

#include <fmt/format.h>

#include <array>
#include <cmath>

#include "app/help.h"
#include "base/text.h"
#include "export/bitmap.h"
#include "export/pdf.h"
#include "export/png.h"
#include "export/svg.h"
#include "job/limits.h"

namespace tub::app {
namespace {

/// A format by its name and by the endings of files.
struct FormatRow {
  std::string_view name;
  std::string_view ending;
  Format format;
  double dots_per_inch;  // where none are asked for; 0: it has none
};

constexpr std::array<FormatRow, 5> format_rows = {{{"pdf", ".pdf", Format::pdf, 0},
                                                   {"svg", ".svg", Format::svg, 0},
                                                   {"png", ".png", Format::png, 110},
                                                   {"bitmap", ".pbm", Format::bitmap, 203},
                                                   {"bitmap", ".pnm", Format::bitmap, 203}}};

bool ends_in(std::string_view path, std::string_view ending) {
  return path.size() > ending.size() && path.substr(path.size() - ending.size()) == ending;
}

/// Where the ending of a path's last part begins; its end if it has none.
std::size_t ending_of(std::string_view path) {
  const std::size_t slash = path.rfind('/');
  const std::size_t start = slash == std::string_view::npos ? 0 : slash + 1;
  const std::size_t dot = path.rfind('.');
  return dot == std::string_view::npos || dot <= start ? path.size() : dot;
}

// The row of a name; without one, that of the path's ending, or PDF where it has none.
const FormatRow* row_for(const std::string& path, const std::optional<std::string>& name) {
  if (!name && ending_of(path) == path.size()) return format_rows.data();
  for (const FormatRow& row : format_rows) {
    if (name ? row.name == *name : ends_in(path, row.ending)) return &row;
  }
  return nullptr;
}

double read_dots(const Arguments& arguments, const FormatRow& row, Problems& problems) {
  const auto text = arguments.value("--dpi");
  if (!text) return row.dots_per_inch;
  const auto dots = to_number(*text);
  if (row.dots_per_inch == 0) {
    problems.add(command_line_fault(fmt::format("--dpi means nothing for {}", row.name),
                                    "leave it out, or print to png or bitmap"));
  } else if (!dots || *dots < 20 || *dots > 1200) {
    problems.add(command_line_fault(fmt::format("--dpi {} is not from 20 to 1200", *text),
                                    "give the printer's dots per inch, such as 203 or 300"));
  }
  return dots.value_or(0);
}

std::string numbered(const std::string& path, std::size_t number) {
  const std::size_t end = ending_of(path);
  return fmt::format("{}-{}{}", path.substr(0, end), number, path.substr(end));
}

std::string picture(const Page& page, const Output& output, const FontSet& fonts) {
  if (output.format == Format::svg) return to_svg(page, fonts);
  if (output.format == Format::png) return to_png(page, fonts, output.dots_per_inch);
  const bool is_pbm = ends_in(output.path, ".pbm") || ends_in(output.path, ".pnm");
  return to_bitmap(page, fonts, output.dots_per_inch,
                   is_pbm ? BitmapFormat::pbm : BitmapFormat::png);
}

/// Refuses more files than one run writes.
void require_few_files(std::size_t pages, const Output& output) {
  if (output.path == "-" && pages > 1) {
    throw Error(command_line_fault(
        fmt::format("{} pages are {} files, and standard output takes one", pages, pages),
        "name a file with --out, or print as pdf"));
  }
  if (pages <= limits::picture_files) return;
  throw Error(
      command_line_fault(fmt::format("{} pages are {} files, and at most {} are written at once",
                                     pages, pages, limits::picture_files),
                         "print as pdf, or one copy, as often as it is wanted"));
}

double square_inches(std::span<const Page> pages) {
  double area = 0;
  for (const Page& page : pages) area += page.width / 72 * page.height / 72;
  return area;
}

/// Refuses pictures of more pixels than are drawn, with the dots per inch that would do.
void require_few_pixels(std::span<const Page> pages, const Output& output) {
  const double area = square_inches(pages);
  const double found = area * output.dots_per_inch * output.dots_per_inch;
  if (found <= limits::pixels) return;
  const auto millions = [](double pixels) { return fixed(pixels / 1e6, 1); };
  throw Error(command_line_fault(
      fmt::format("at {} dots per inch the {} would be {} million pixels, and at most {} million "
                  "are drawn at once",
                  shortest(output.dots_per_inch),
                  pages.size() == 1 ? "picture" : fmt::format("{} pictures", pages.size()),
                  millions(found), millions(limits::pixels)),
      fmt::format("--dpi {} would do; pdf and svg have no pixels",
                  std::floor(std::sqrt(limits::pixels / area)))));
}

}  // namespace

Output read_output(const Arguments& arguments) {
  Problems problems;
  Output output;
  output.path = arguments.value("--out").value_or("");
  const auto name = arguments.value("--format");
  const FormatRow* const row = row_for(output.path, name);
  if (row == nullptr) {
    problems.add(command_line_fault(fmt::format("the ending of \"{}\" says no format", output.path),
                                    "end it in .pdf, .svg, .png or .pbm, or add --format"));
    problems.throw_if_any();
  }
  output.format = row->format;
  output.dots_per_inch = read_dots(arguments, *row, problems);
  problems.throw_if_any();
  return output;
}

std::vector<OutputFile> output_files(std::span<const Page> pages, const Output& output,
                                     const Library& library) {
  if (output.format == Format::pdf) {
    const PdfProperties properties = properties_of(pages.front(), version_line());
    return {{output.path, to_pdf(pages, library.fonts(), library.pdf_resources(), properties)}};
  }
  require_few_files(pages.size(), output);
  require_few_pixels(pages, output);
  std::vector<OutputFile> files;
  for (const Page& page : pages) {
    const std::string path =
        pages.size() > 1 ? numbered(output.path, files.size() + 1) : output.path;
    files.push_back({path, picture(page, output, library.fonts())});
  }
  return files;
}

}  // namespace tub::app
