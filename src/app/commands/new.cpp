#include "app/clock.h"
#include "app/commands.h"
#include "app/files.h"
#include "app/job_files.h"
#include "app/library.h"
#include "job/job_format.h"

namespace tub {

int run_new(const Arguments& arguments) {
  const Library library(find_data_folders(arguments.value("--data")));
  const OutputFile job = {arguments.value("--out").value_or("-"),
                          starter_job(today(), shop_text(arguments), library.catalogue())};
  write_files({&job, 1});
  return 0;
}

}  // namespace tub
