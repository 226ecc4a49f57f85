// The command print: a job's sheets in files.
#include "app/commands.h"
#include "app/files.h"
#include "app/job_files.h"
#include "app/output.h"
#include "app/overwriting.h"
#include "app/prints.h"
#include "app/terminal.h"

namespace tub::app {

int run_print(const Arguments& arguments) {
  const Output output = read_output(arguments);
  const DataFolders folders = find_data_folders(arguments.value("--data"));
  const Library library(folders);
  const Outcome<Job> job = load_job(arguments, library.catalogue());
  const Outcome<std::vector<Page>> pages = printed_pages(arguments, job.value, library);
  const std::vector<OutputFile> files = output_files(pages.value, output, library);
  refuse_inputs_as_outputs(arguments, files, input_files(arguments, job.value, folders));
  const std::vector<Diagnostic> not_kept = write_files(files);
  write_standard_error(shown(job.warnings, "warning"));
  write_standard_error(shown(pages.warnings, "warning"));
  write_standard_error(shown(not_kept, "warning"));
  return 0;
}

}  // namespace tub::app
