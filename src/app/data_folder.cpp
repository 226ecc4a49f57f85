#include "app/data_folder.h"

#include <fmt/format.h>
#include <zlib.h>

#include <algorithm>
#include <filesystem>
#include <set>
#include <system_error>

#include "app/files.h"
#include "base/text.h"

namespace tub::app {
namespace {

namespace fs = std::filesystem;

bool is_folder(const fs::path& path) {
  std::error_code ignored;
  return fs::is_directory(path, ignored);
}

bool is_there(const fs::path& path) {
  std::error_code ignored;
  return fs::exists(path, ignored);
}

std::string own_folder() {
  std::error_code failed;
  const fs::path program = fs::read_symlink("/proc/self/exe", failed);
  const fs::path folder = program.parent_path();
  const fs::path beside = folder / "share" / "tubwright";
  const fs::path installed = folder.parent_path() / "share" / "tubwright";
  for (const fs::path& candidate : {beside, installed}) {
    if (is_folder(candidate / "data")) return candidate.string();
  }
  throw Error({"the program's own data is missing",
               fmt::format("{} and {}", beside.string(), installed.string()),
               {},
               "install the program whole: cmake --install",
               Fault::machine});
}

[[noreturn]] void refuse_own(std::string message, const std::string& path, std::string help) {
  throw Error({std::move(message), path, {}, std::move(help), Fault::machine});
}

// The checksum that a file of ours had when the program was built: its line is "9ae0daaf  name".
std::string built_checksum(const DataFolders& folders, const std::string& name,
                           const std::string& path) {
  const std::string list = read_file((fs::path(folders.own) / "checksums.txt").string());
  for (const std::string& line : split(list, '\n')) {
    const std::size_t gap = line.find("  ");
    if (gap != std::string::npos && line.substr(gap + 2) == name) return line.substr(0, gap);
  }
  refuse_own("this file is not one that the program was built with", path,
             "keep your own templates in a folder of their own, and name it with --data");
}

void require_undamaged(const DataFolders& folders, const std::string& name, const DataFile& file) {
  const auto* const bytes = reinterpret_cast<const Bytef*>(file.text.data());
  const auto found = ::crc32_z(0, bytes, file.text.size());
  if (fmt::format("{:08x}", found) == built_checksum(folders, name, file.path)) return;
  refuse_own("this file of the program's own is damaged: it is not what the program was built with",
             file.path,
             "install the program again; changed templates go into a folder named with --data");
}

void add_names(const fs::path& folder, std::set<std::string>& names) {
  std::error_code failed;
  for (const auto& entry : fs::directory_iterator(folder, failed)) {
    if (entry.path().extension() == ".json") names.insert(entry.path().stem().string());
  }
}

}  // namespace

DataFolders find_data_folders(const std::optional<std::string>& shop) {
  DataFolders folders = {own_folder(), shop};
  if (shop && !is_folder(*shop)) {
    throw Error({"the folder given with --data cannot be opened",
                 *shop,
                 {},
                 "name the folder that holds your templates",
                 Fault::machine});
  }
  return folders;
}

DataFile read_own_file(const DataFolders& folders, const std::string& name) {
  const std::string path = (fs::path(folders.own) / name).string();
  DataFile file = {path, read_file(path, std::size_t{64} << 20U), Fault::machine};
  require_undamaged(folders, name, file);
  return file;
}

DataFile read_template(const DataFolders& folders, const std::string& name) {
  if (folders.shop) {
    const fs::path path = fs::path(*folders.shop) / name;
    if (is_there(path)) return {path.string(), read_file(path.string()), Fault::job};
  }
  return read_own_file(folders, "templates/" + name);
}

std::optional<DataFile> replaced_template(const DataFolders& folders, const std::string& name) {
  if (!folders.shop || !is_there(fs::path(*folders.shop) / name)) return std::nullopt;
  if (!is_there(fs::path(folders.own) / "templates" / name)) return std::nullopt;
  return read_own_file(folders, "templates/" + name);
}

std::vector<std::string> template_names(const DataFolders& folders, const std::string& folder) {
  std::set<std::string> names;
  add_names(fs::path(folders.own) / "templates" / folder, names);
  if (folders.shop) add_names(fs::path(*folders.shop) / folder, names);
  return {names.begin(), names.end()};
}

}  // namespace tub::app
