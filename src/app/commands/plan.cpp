// The command plan: a job's plan as text or JSON, or the reasons of one of its numbers.
#include <unistd.h>

#include "app/commands.h"
#include "app/files.h"
#include "app/job_files.h"
#include "app/pipeline.h"
#include "app/plan_text.h"
#include "app/terminal.h"
#include "app/why_text.h"
#include "job/plan/plan_format.h"
#include "why/explain.h"

namespace tub::app {

namespace {

std::string reasons(const std::string& pointer, const Job& job, const Plan& plan,
                    const Library& library, const Arguments& arguments) {
  const why::Chain chain = why::explain(pointer, job, library.catalogue(), plan);
  if (arguments.has("--json")) return why::why_json(pointer, chain);
  return why_text(chain, {takes_colour(STDOUT_FILENO), 78});
}

std::string whole(const Job& job, const Plan& plan, const Library& library,
                  const Arguments& arguments) {
  if (arguments.has("--json")) return plan_json(plan);
  const SheetSources sources{plan, job.heading, library.catalogue().planning.products, TUB_VERSION};
  return plan_text(sources, library.language("en").in(job.heading.country),
                   {takes_colour(STDOUT_FILENO), 78});
}

}  // namespace

int run_plan(const Arguments& arguments) {
  const Library library(find_data_folders(arguments.value("--data")));
  const Outcome<Job> job = load_job(arguments, library.catalogue());
  const Plan plan = plan_of(job.value, library.catalogue());
  const auto pointer = arguments.value("--why");
  write_standard_output(pointer ? reasons(*pointer, job.value, plan, library, arguments)
                                : whole(job.value, plan, library, arguments));
  write_standard_error(shown(job.warnings, "warning"));
  return 0;
}

}  // namespace tub::app
