// The program tubwright.
#include <unistd.h>

#include <csignal>
#include <cstdlib>
#include <exception>
#include <new>
#include <string>
#include <string_view>
#include <vector>

#include "app/files.h"
#include "app/run.h"
#include "base/error.h"

namespace {

// Written as it stands: there is no memory left to build a message with.
constexpr std::string_view too_little_memory =
    "error: there is not enough memory\n"
    "  help:  close other programs, or print fewer sheets at once\n";

int say_too_little_memory() {
  [[maybe_unused]] const ssize_t written =
      ::write(STDERR_FILENO, too_little_memory.data(), too_little_memory.size());
  return static_cast<int>(tub::Fault::machine);
}

// Memory that runs out where no exception can leave still ends in the sentence.
[[noreturn]] void end_without_memory() {
  try {
    if (const std::exception_ptr current = std::current_exception()) {
      std::rethrow_exception(current);
    }
  } catch (const std::bad_alloc&) {
    std::_Exit(say_too_little_memory());
  } catch (...) {
    std::abort();
  }
  std::abort();
}

}  // namespace

int main(int argc, char** argv) {
  tub::app::keep_standard_streams();
  // A reader that goes away is an error of writing, reported like any other.
  std::signal(SIGPIPE, SIG_IGN);
  std::set_terminate(end_without_memory);
  try {
    const std::vector<std::string> words(argv + (argc > 0 ? 1 : 0), argv + argc);
    return tub::app::run_command_line(words);
  } catch (const std::bad_alloc&) {
    return say_too_little_memory();
  }
}
