// Which sheets are printed, on what, in which language: the command line first, then the job, then
// the shop, then ours.
#pragma once

#include <vector>

#include "app/arguments.h"
#include "app/pipeline.h"

namespace tub::app {

/// Throws: Error (Fault::command_line) for every name on the command line that there is not; Error
///         (Fault::job) if neither it nor the job asks for a sheet
std::vector<Print> prints_of(const Arguments& arguments, const Job& job, const Library& library);

/// The pages that `print` is asked for: the sheets, or with --alignment-page those to measure the
/// printer by.
///
/// Throws: Error of `prints_of`, `run` and `alignment_pages`
Outcome<std::vector<Page>> printed_pages(const Arguments& arguments, const Job& job,
                                         const Library& library);

}  // namespace tub::app
