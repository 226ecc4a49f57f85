// The command completion: the script that completes words in a shell.
#include "app/commands.h"
#include "app/files.h"
#include "app/help.h"

namespace tub::app {

int run_completion(const Arguments&) {
  write_standard_output(bash_completion());
  return 0;
}

}  // namespace tub::app
