// The program tubwright.
#include <csignal>
#include <string>
#include <vector>

#include "app/files.h"
#include "app/run.h"

int main(int argc, char** argv) {
  tub::keep_standard_streams();
  // A reader that goes away is an error of writing, reported like any other.
  std::signal(SIGPIPE, SIG_IGN);
  const std::vector<std::string> words(argv + (argc > 0 ? 1 : 0), argv + argc);
  return tub::run_command_line(words);
}
