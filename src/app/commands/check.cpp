#include "app/commands.h"
#include "app/files.h"
#include "app/job_files.h"
#include "app/library.h"
#include "app/pipeline.h"
#include "app/prints.h"
#include "app/terminal.h"

namespace tub::app {

int run_check(const Arguments& arguments) {
  const Library library(find_data_folders(arguments.value("--data")));
  const Outcome<Job> job = load_job(arguments, library.catalogue());
  std::vector<Diagnostic> warnings = job.warnings;
  if (job.value.sheets.empty()) {
    static_cast<void>(plan_of(job.value, library.catalogue()));
  } else {
    const auto pages = run(job.value, prints_of(arguments, job.value, library), library);
    warnings.insert(warnings.end(), pages.warnings.begin(), pages.warnings.end());
  }
  write_standard_error(shown(warnings, "warning"));
  return 0;
}

}  // namespace tub::app
