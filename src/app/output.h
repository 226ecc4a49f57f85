// Finished pages as files of one format.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "app/arguments.h"
#include "app/files.h"
#include "app/library.h"
#include "layout/pages/page.h"

namespace tub::app {

enum class Format { pdf, svg, png, bitmap };

/// Where pages go, as the command line says.
struct Output {
  std::string path;
  Format format = Format::pdf;
  double dots_per_inch = 0;  ///< of png and bitmap
};

/// Throws: Error (Fault::command_line) with every option that makes no sense
Output read_output(const Arguments& arguments);

/// The files of the pages: all in one PDF, else one a page ("card-1.png", "card-2.png", …).
///
/// Throws: Error (Fault::command_line) if several files are to go to standard output
std::vector<OutputFile> output_files(std::span<const Page> pages, const Output& output,
                                     const Library& library);

}  // namespace tub::app
