// The files that a job comes from: the job itself, the shop's, the logo.
#pragma once

#include "app/arguments.h"
#include "job/job.h"

namespace tub::app {

/// The job that the command line names, laid over the shop's file if one is given, with its logo.
///
/// Throws: Error with every problem of the files
Outcome<Job> load_job(const Arguments& arguments, const Catalogue& catalogue);

/// Where a logo's file is.
std::string place_of(const LogoFile& logo);

/// The text of the file given with --shop; nothing if none is.
std::optional<NamedText> shop_text(const Arguments& arguments);

}  // namespace tub::app
