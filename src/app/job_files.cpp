#include "app/job_files.h"

#include <fmt/format.h>

#include <cstdint>
#include <filesystem>
#include <optional>
#include <utility>

#include "app/files.h"
#include "export/png_reader.h"
#include "job/label_code/label_code.h"
#include "job/limits.h"

namespace tub::app {
namespace {

constexpr std::size_t most_bytes = 1U << 20U;
constexpr std::uint32_t most_pixels = 2000;

// A logo's faults are the job's, whatever kept it from being read.
[[noreturn]] void refuse(const LogoFile& logo, std::string message, std::string help) {
  throw Error({std::move(message), logo.where, {"reading the logo"}, std::move(help)});
}

std::string bytes_of(const LogoFile& logo) {
  try {
    return read_file(place_of(logo), most_bytes);
  } catch (const Error& error) {
    refuse(logo,
           fmt::format("the logo {} cannot be used: {}", logo.path,
                       error.diagnostics().front().message),
           "a PNG of at most 1 MiB is needed, its path relative to the file that names it");
  }
}

std::uint32_t big_endian(std::string_view bytes) {
  std::uint32_t value = 0;
  for (const char byte : bytes) value = value << 8U | static_cast<unsigned char>(byte);
  return value;
}

Logo checked(std::string bytes, const LogoFile& logo) {
  constexpr std::string_view signature = "\x89PNG\r\n\x1a\n";
  const bool is_png = bytes.size() >= 33 && std::string_view(bytes).substr(0, 8) == signature &&
                      std::string_view(bytes).substr(12, 4) == "IHDR";
  if (!is_png) refuse(logo, fmt::format("the logo {} is no PNG", logo.path), "save it as PNG");
  const std::uint32_t width = big_endian(std::string_view(bytes).substr(16, 4));
  const std::uint32_t height = big_endian(std::string_view(bytes).substr(20, 4));
  if (width == 0 || height == 0 || width > most_pixels || height > most_pixels) {
    refuse(logo,
           fmt::format("the logo {} has {} x {} pixels, at most {} a side are allowed", logo.path,
                       width, height, most_pixels),
           "save it smaller");
  }
  const std::optional<Picture24> picture = read_png(bytes);
  if (!picture) refuse(logo, fmt::format("the logo {} is damaged", logo.path), "save it again");
  return {std::move(bytes), picture->width, picture->height};
}

/// A job's JSON, as the file has it or as the code of a scanned label holds it.
NamedText job_text(const std::string& path) {
  NamedText text = {read_file(path, limits::file_bytes), name_of_input(path)};
  if (is_label_code(text.text)) text.text = job_of_label_code(text.text, text.file);
  return text;
}

}  // namespace

std::string place_of(const LogoFile& logo) {
  const std::filesystem::path base = logo.base == "-" ? "" : logo.base;
  return (base.parent_path() / logo.path).string();
}

std::optional<NamedText> shop_text(const Arguments& arguments) {
  const auto path = arguments.value("--shop");
  if (!path) return std::nullopt;
  return NamedText{read_file(*path, limits::file_bytes), *path};
}

Outcome<Job> load_job(const Arguments& arguments, const Catalogue& catalogue) {
  Outcome<Job> outcome = read_job(job_text(*arguments.operand), shop_text(arguments), catalogue);
  if (outcome.value.logo) {
    outcome.value.heading.logo = checked(bytes_of(*outcome.value.logo), *outcome.value.logo);
  }
  return outcome;
}

}  // namespace tub::app
