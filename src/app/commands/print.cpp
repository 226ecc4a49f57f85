#include "app/commands.h"
#include "app/files.h"
#include "app/job_files.h"
#include "app/output.h"
#include "app/prints.h"
#include "app/terminal.h"

namespace tub {

namespace {

// Source: OSHA letter of 2015-08-25 and CLP Annex V: the frame of a pictogram is red.
void refuse_colourless_labels(const std::vector<Page>& pages) {
  for (const Page& page : pages) {
    if (page.properties.container_litres <= 0) continue;
    throw Error(Diagnostic{"a bitmap has one ink, and the frames on a container label are red",
                           page.sheet,
                           {},
                           "print it as pdf, svg or png on a printer that has red; a printer with "
                           "one ink needs labels with preprinted red frames, which are not in this "
                           "version"});
  }
}

}  // namespace

int run_print(const Arguments& arguments) {
  const Output output = read_output(arguments);
  const Library library(find_data_folders(arguments.value("--data")));
  const Outcome<Job> job = load_job(arguments, library.catalogue());
  const Outcome<std::vector<Page>> pages = printed_pages(arguments, job.value, library);
  if (output.format == Format::bitmap) refuse_colourless_labels(pages.value);
  write_files(output_files(pages.value, output, library));
  write_standard_error(shown(job.warnings, "warning"));
  write_standard_error(shown(pages.warnings, "warning"));
  return 0;
}

}  // namespace tub
