// The command check: every problem of a job, and what would keep people out.
#include "app/commands.h"
#include "app/files.h"
#include "app/job_files.h"
#include "app/library.h"
#include "app/pipeline.h"
#include "app/plan_text.h"
#include "app/prints.h"
#include "app/terminal.h"

namespace tub::app {
namespace {

/// What would keep people out, in the words of the plan.
std::vector<Diagnostic> closed_gates(const Job& job, const Plan& plan, const Library& library) {
  const SheetSources sources{plan, job.heading, library.catalogue().planning.products, TUB_VERSION};
  std::vector<Diagnostic> warnings;
  for (const std::string& text :
       closing_texts(sources, library.language("en").in(job.heading.country))) {
    warnings.push_back({.message = text, .where = {}, .trace = {}, .help = {}});
  }
  return warnings;
}

}  // namespace

int run_check(const Arguments& arguments) {
  const Library library(find_data_folders(arguments.value("--data")));
  const Outcome<Job> job = load_job(arguments, library.catalogue());
  std::vector<Diagnostic> warnings = job.warnings;
  const Plan plan = plan_of(job.value, library.catalogue());
  const std::vector<Diagnostic> closed = closed_gates(job.value, plan, library);
  warnings.insert(warnings.end(), closed.begin(), closed.end());
  if (!job.value.sheets.empty()) {
    const auto pages = run(job.value, prints_of(arguments, job.value, library), library);
    warnings.insert(warnings.end(), pages.warnings.begin(), pages.warnings.end());
  }
  write_standard_error(shown(warnings, "warning"));
  return 0;
}

}  // namespace tub::app
