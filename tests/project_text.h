// The text of a file, as every test reads it.
#pragma once

#include <filesystem>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>

namespace tub {

/// What a file holds; the path starts at the source tree unless it is absolute.
///
/// @throws std::runtime_error  the file cannot be read
inline std::string project_text(const std::filesystem::path& path) {
  std::ifstream file(std::filesystem::path(TUB_SOURCE_DIR) / path, std::ios::binary);
  if (!file) throw std::runtime_error("cannot read " + path.string());
  return {std::istreambuf_iterator<char>(file), {}};
}

}  // namespace tub
