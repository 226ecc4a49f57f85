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

namespace tub {
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
  if (pages.size() > 1 && output.path == "-") {
    throw Error(
        command_line_fault(fmt::format("{} pages are {} files, and standard output takes one",
                                       pages.size(), pages.size()),
                           "name a file with --out, or print as pdf"));
  }
  std::vector<OutputFile> files;
  for (const Page& page : pages) {
    const std::string path =
        pages.size() > 1 ? numbered(output.path, files.size() + 1) : output.path;
    files.push_back({path, picture(page, output, library.fonts())});
  }
  return files;
}

}  // namespace tub
