// One function a command: what was asked for goes to standard output or a file.
#pragma once

#include "app/arguments.h"

namespace tub::app {

/// Each returns the exit status of a run that came to its end.
///
/// Throws: Error with every problem that kept the command from its result
int run_new(const Arguments& arguments);
int run_check(const Arguments& arguments);
int run_plan(const Arguments& arguments);
int run_print(const Arguments& arguments);
int run_water(const Arguments& arguments);
int run_list(const Arguments& arguments);
int run_schema(const Arguments& arguments);
int run_completion(const Arguments& arguments);

}  // namespace tub::app
