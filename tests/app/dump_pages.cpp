// Prints the startup card of a job as a text dump of its pages: dump_pages JOB STOCK
#include <exception>
#include <fstream>
#include <iostream>
#include <iterator>

#include "app/pipeline.h"
#include "export/dump.h"

namespace {

std::string dump(const std::string& path, const std::string& stock) {
  std::ifstream file(path, std::ios::binary);
  const std::string text{std::istreambuf_iterator<char>(file), {}};
  const tub::Library library(
      tub::DataFolders{std::string(TUB_BINARY_DIR) + "/share/tubwright", std::nullopt});
  const tub::Job job = tub::read_job({text, path}, std::nullopt, library.catalogue()).value;
  const tub::Print print{"startup_card", library.stock(stock), "en"};
  return tub::dump_text(tub::run(job, {&print, 1}, library));
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 3) {
    std::cerr << "usage: dump_pages JOB STOCK\n";
    return 2;
  }
  try {
    std::cout << dump(argv[1], argv[2]);
  } catch (const std::exception& failure) {
    std::cerr << failure.what();
    return 1;
  }
  return 0;
}
