// Prints what `tubwright print` would, as a text dump of its pages: dump_pages JOB --stock NAME …
#include <exception>
#include <iostream>
#include <string>
#include <vector>

#include "app/job_files.h"
#include "app/library.h"
#include "app/prints.h"
#include "export/dump.h"

namespace {

std::string dump(std::vector<std::string> words) {
  words.insert(words.begin(), {"print", "--out", "-"});
  const tub::app::Arguments arguments = tub::app::parse_arguments(words);
  const tub::app::Library library(tub::app::DataFolders{
      std::string(TUB_BINARY_DIR) + "/share/tubwright", arguments.value("--data")});
  const tub::app::Job job = tub::app::load_job(arguments, library.catalogue()).value;
  return tub::app::dump_text(tub::app::printed_pages(arguments, job, library).value);
}

}  // namespace

int main(int argc, char** argv) {
  try {
    std::cout << dump({argv + 1, argv + argc});
  } catch (const std::exception& failure) {
    std::cerr << failure.what();
    return 1;
  }
  return 0;
}
