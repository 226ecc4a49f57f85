// Files and standard streams: read whole, written whole or not at all.
#pragma once

#include <cstddef>
#include <span>
#include <string>
#include <string_view>

namespace tub {

/// A file to be written.
struct OutputFile {
  std::string path;  ///< "-": standard output
  std::string bytes;
};

/// A job, a shop file or a table larger than this is refused.
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
/// leaves what was there. What is no regular file (a device, a pipe) is written straight.
///
/// Throws: Error (Fault::machine) with the path and the system's reason
void write_files(std::span<const OutputFile> files);

/// Writes all bytes to standard output.
///
/// Throws: Error (Fault::machine) with the system's reason
void write_standard_output(std::string_view bytes);

/// Writes to standard error, as far as it can be written.
void write_standard_error(std::string_view bytes);

/// "-" as people name it: "standard input".
std::string name_of_input(const std::string& path);

}  // namespace tub
