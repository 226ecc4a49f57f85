// Where the program's tables, templates and fonts are, with a shop's own templates before ours.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/error.h"

namespace tub::app {

/// Folders that data is read from.
struct DataFolders {
  std::string own;                  ///< holds data, templates and fonts
  std::optional<std::string> shop;  ///< laid out as our `templates`: sheets, languages, …
};

/// The text of one file, with whose fault its faults are.
struct DataFile {
  std::string path;
  std::string text;
  Fault fault = Fault::machine;
};

/// Finds our folder beside the program (in a build tree) or in its share (installed).
///
/// shop:   the folder given with --data
/// Throws: Error (Fault::machine) if there is none, or the shop's cannot be opened
DataFolders find_data_folders(const std::optional<std::string>& shop);

/// A file of ours: "data/species.json".
///
/// Throws: Error (Fault::machine) if it cannot be read, or is not what the program was built with
///         (its checksum, in `checksums.txt` of the folder, is another)
DataFile read_own_file(const DataFolders& folders, const std::string& name);

/// A template: "sheets/startup_card.json"; the shop's if it has one of that name, else ours.
///
/// Throws: Error if neither can be read
DataFile read_template(const DataFolders& folders, const std::string& name);

/// Ours where the shop has a template of that name; nothing where ours is the one in use, or where
/// the shop's is a new one.
std::optional<DataFile> replaced_template(const DataFolders& folders, const std::string& name);

/// Names of the templates in one of the folders, without their ending, sorted.
std::vector<std::string> template_names(const DataFolders& folders, const std::string& folder);

/// Parses a file's text; its problems are laid at the door of whoever wrote the file.
template <class Parse>
auto parsed(const DataFile& file, Parse parse) {
  try {
    return parse(file.text, file.path);
  } catch (const Error& error) {
    std::vector<Diagnostic> diagnostics = error.diagnostics();
    for (Diagnostic& diagnostic : diagnostics) diagnostic.fault = file.fault;
    throw Error(std::move(diagnostics));
  }
}

}  // namespace tub::app
