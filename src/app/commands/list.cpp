// The command list: products, targets, units and what else a job may name.
#include <nlohmann/json.hpp>

#include "app/commands.h"
#include "app/files.h"
#include "app/listings.h"
#include "job/shape/json_text.h"

namespace tub::app {

int run_list(const Arguments& arguments) {
  const DataFolders folders = find_data_folders(arguments.value("--data"));
  const auto rows = listing(*arguments.operand, folders);
  write_standard_output(arguments.has("--json") ? to_text(rows) : in_columns(rows));
  return 0;
}

}  // namespace tub::app
