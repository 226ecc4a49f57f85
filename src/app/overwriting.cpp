#include "app/overwriting.h"

#include <fmt/format.h>

#include <filesystem>
#include <system_error>

#include "app/job_files.h"

namespace tub::app {
namespace {

constexpr const char* way_out = "name another file with --out, or add --force to replace it";

namespace fs = std::filesystem;

// A shop's folder may hold other things as well: only what is read from it counts.
void add_shops_templates(const fs::path& folder, std::vector<InputFile>& inputs) {
  constexpr const char* what = "a template of the shop's";
  std::error_code failed;
  for (const char* const part : {"sheets", "languages", "styles"}) {
    for (const auto& entry : fs::directory_iterator(folder / part, failed)) {
      inputs.push_back({entry.path().string(), what});
    }
  }
  inputs.push_back({(folder / "stocks.json").string(), what});
}

void add_own_files(const fs::path& folder, std::vector<InputFile>& inputs) {
  std::error_code failed;
  for (const auto& entry : fs::recursive_directory_iterator(folder, failed)) {
    inputs.push_back({entry.path().string(), "a file of this program's own"});
  }
}

}  // namespace

std::vector<InputFile> input_files(const Arguments& arguments, const Job& job,
                                   const DataFolders& folders) {
  std::vector<InputFile> inputs;
  if (arguments.operand && *arguments.operand != "-") {
    inputs.push_back({*arguments.operand, "the job itself"});
  }
  if (const auto shop = arguments.value("--shop")) inputs.push_back({*shop, "the shop's file"});
  if (job.logo) inputs.push_back({place_of(*job.logo), "the logo"});
  if (folders.shop) add_shops_templates(*folders.shop, inputs);
  add_own_files(folders.own, inputs);
  return inputs;
}

void refuse_inputs_as_outputs(const Arguments& arguments, std::span<const OutputFile> outputs,
                              std::span<const InputFile> inputs) {
  if (arguments.has("--force")) return;
  Problems problems;
  for (const OutputFile& output : outputs) {
    if (output.path == "-" || !is_regular_file(output.path)) continue;
    for (const InputFile& input : inputs) {
      if (!is_same_file(output.path, input.path)) continue;
      problems.add(
          command_line_fault(fmt::format("the output {} is {}", output.path, input.what), way_out));
      break;
    }
  }
  problems.throw_if_any();
}

void refuse_existing(const Arguments& arguments, const std::string& path) {
  if (arguments.has("--force") || path == "-" || !is_regular_file(path)) return;
  throw Error(command_line_fault(fmt::format("there is a file at {} already", path), way_out));
}

}  // namespace tub::app
