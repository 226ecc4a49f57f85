// The command new: a starter job with comments.
#include <filesystem>
#include <system_error>

#include "app/clock.h"
#include "app/commands.h"
#include "app/files.h"
#include "app/job_files.h"
#include "app/library.h"
#include "app/overwriting.h"
#include "app/terminal.h"
#include "job/shape/job_format.h"

namespace tub::app {

namespace {

// The shop's file under its whole path, so that a logo beside it is found from anywhere.
std::optional<NamedText> shop_at_its_place(const Arguments& arguments) {
  std::optional<NamedText> shop = shop_text(arguments);
  std::error_code failed;
  if (shop) shop->file = std::filesystem::absolute(shop->file, failed).string();
  return shop;
}

}  // namespace

int run_new(const Arguments& arguments) {
  const std::string path = arguments.value("--out").value_or("-");
  refuse_existing(arguments, path);
  const Library library(find_data_folders(arguments.value("--data")));
  const OutputFile job = {path,
                          starter_job(today(), shop_at_its_place(arguments), library.catalogue())};
  write_standard_error(shown(write_files({&job, 1}), "warning"));
  return 0;
}

}  // namespace tub::app
