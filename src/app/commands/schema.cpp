// The command schema: the JSON Schema of a format.
#include "app/commands.h"
#include "app/files.h"
#include "app/library.h"
#include "job/plan/plan_format.h"
#include "job/shape/job_format.h"
#include "water/format.h"

namespace tub::app {
namespace {

std::string schema_named(const std::string& what, const DataFolders& folders) {
  if (what == "plan") return plan_schema();
  if (what == "water") return water_schema(load_species(folders));
  return job_schema(Library(folders).catalogue());
}

}  // namespace

int run_schema(const Arguments& arguments) {
  const DataFolders folders = find_data_folders(arguments.value("--data"));
  write_standard_output(schema_named(*arguments.operand, folders));
  return 0;
}

}  // namespace tub::app
