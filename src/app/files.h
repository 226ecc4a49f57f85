// Files and standard streams: read whole, written whole or not at all.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.h"

namespace tub::app {

/// A file to be written.
struct OutputFile {
  std::string path;  ///< "-": standard output
  std::string bytes;
};

/// A template or a table larger than this is refused.
inline constexpr std::size_t largest_text = 4U << 20U;

/// Takes the places of standard streams that are closed, so that no file that is opened later gets
/// one of their numbers. What is written to such a stream fails.
void keep_standard_streams();

/// The bytes of a file; "-" is standard input.
///
/// Throws: Error (Fault::machine) if it cannot be opened or read; Error (Fault::job) if it holds
///         more than `most` bytes
std::string read_file(const std::string& path, std::size_t most = largest_text);

/// Writes all files beside their places and renames them when every one is whole, so that a failure
/// leaves what was there. What is no regular file (a device, a pipe) is written straight. Drafts
/// that runs which were killed have left in the same folders are removed.
///
/// Returns: what of the old files (their modes, say) could not be kept
/// Throws:  Error (Fault::machine) with the path and the system's reason
std::vector<Diagnostic> write_files(std::span<const OutputFile> files);

/// True if there is a regular file at that path, links followed.
bool is_regular_file(const std::string& path);

/// True if both are the same file, by whatever names and links.
bool is_same_file(const std::string& one, const std::string& other);

/// Writes all bytes. False, with errno set, if the system took only some.
bool write_all(int descriptor, std::string_view bytes);

/// Throws: Error (Fault::machine) with what failed, the path, and the reason in errno
[[noreturn]] void throw_system(std::string_view what, const std::string& path, std::string help);

/// Writes all bytes to standard output.
///
/// Throws: Error (Fault::machine) with the system's reason
void write_standard_output(std::string_view bytes);

/// Writes to standard error, as far as it can be written.
void write_standard_error(std::string_view bytes);

/// "-" as people name it: "standard input".
std::string name_of_input(const std::string& path);

}  // namespace tub::app
