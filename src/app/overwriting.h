// What a run may not write over unless it is told to.
#pragma once

#include <span>
#include <string>

#include "app/arguments.h"
#include "app/data_folder.h"
#include "app/files.h"
#include "job/job.h"

namespace tub::app {

/// A file that the run reads.
struct InputFile {
  std::string path;
  std::string what;  ///< "the job itself"
};

/// The job, the shop's file, the logo and the templates. By whatever links they are reached.
std::vector<InputFile> input_files(const Arguments& arguments, const Job& job,
                                   const DataFolders& folders);

/// Throws: Error (Fault::command_line) if an output would replace an input, unless --force was
/// given
void refuse_inputs_as_outputs(const Arguments& arguments, std::span<const OutputFile> outputs,
                              std::span<const InputFile> inputs);

/// Throws: Error (Fault::command_line) if there is a file already, unless --force was given
void refuse_existing(const Arguments& arguments, const std::string& path);

}  // namespace tub::app
