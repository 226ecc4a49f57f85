#include "app/commands.h"
#include "app/files.h"
#include "app/job_files.h"
#include "app/output.h"
#include "app/prints.h"
#include "app/terminal.h"

namespace tub {

int run_print(const Arguments& arguments) {
  const Output output = read_output(arguments);
  const Library library(find_data_folders(arguments.value("--data")));
  const Outcome<Job> job = load_job(arguments, library.catalogue());
  const Outcome<std::vector<Page>> pages = printed_pages(arguments, job.value, library);
  write_files(output_files(pages.value, output, library));
  write_standard_error(shown(job.warnings, "warning"));
  write_standard_error(shown(pages.warnings, "warning"));
  return 0;
}

}  // namespace tub
