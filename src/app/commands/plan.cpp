#include <unistd.h>

#include "app/commands.h"
#include "app/files.h"
#include "app/job_files.h"
#include "app/pipeline.h"
#include "app/plan_text.h"
#include "app/terminal.h"
#include "job/plan_format.h"

namespace tub {

int run_plan(const Arguments& arguments) {
  if (arguments.has("--why")) {
    throw Error(command_line_fault("--why is not in this version",
                                   "the plan's \"assumed\" and \"sources\" say what it rests on"));
  }
  const Library library(find_data_folders(arguments.value("--data")));
  const Outcome<Job> job = load_job(arguments, library.catalogue());
  const Plan plan = plan_of(job.value, library.catalogue());
  if (arguments.has("--json")) {
    write_standard_output(plan_json(plan));
  } else {
    write_standard_output(plan_text(plan, job.value.heading, library.language("en"),
                                    {takes_colour(STDOUT_FILENO), 78}));
  }
  write_standard_error(shown(job.warnings, "warning"));
  return 0;
}

}  // namespace tub
