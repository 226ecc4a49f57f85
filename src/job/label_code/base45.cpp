#include "job/label_code/base45.h"

#include <fmt/format.h>

#include <algorithm>

namespace tub::job {
namespace {

constexpr std::string_view alphabet = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";
constexpr unsigned radix = 45;

unsigned byte_at(std::string_view bytes, std::size_t at) {
  return static_cast<unsigned char>(bytes[at]);
}

/// The first character that is none of the 45, or the end.
std::size_t first_foreign(std::string_view text) {
  return std::min(text.find_first_not_of(alphabet), text.size());
}

Base45Bytes fault(std::size_t at, std::string message) {
  return {.bytes = {}, .fault = Base45Fault{at, std::move(message)}};
}

}  // namespace

std::string to_base45(std::string_view bytes) {
  std::string text;
  for (std::size_t at = 0; at < bytes.size(); at += 2) {
    const bool is_pair = at + 1 < bytes.size();
    unsigned value = byte_at(bytes, at);
    if (is_pair) value = value * 256 + byte_at(bytes, at + 1);
    for (int digit = 0; digit < (is_pair ? 3 : 2); ++digit, value /= radix) {
      text += alphabet[value % radix];
    }
  }
  return text;
}

Base45Bytes from_base45(std::string_view text) {
  const std::size_t foreign = first_foreign(text);
  if (foreign < text.size()) {
    return fault(foreign + 1, fmt::format("character {} is none of the 45", foreign + 1));
  }
  if (text.size() % 3 == 1) return fault(text.size(), "a character is missing at the end");
  std::string bytes;
  for (std::size_t at = 0; at < text.size(); at += 3) {
    const std::string_view group = text.substr(at, 3);
    unsigned value = 0;
    for (std::size_t i = group.size(); i > 0; --i) {
      value = value * radix + static_cast<unsigned>(alphabet.find(group[i - 1]));
    }
    const unsigned limit = group.size() == 3 ? 0xFFFF : 0xFF;
    if (value > limit) {
      return fault(at + 1, fmt::format("\"{}\" at character {} stands for {}, above {}", group,
                                       at + 1, value, limit));
    }
    if (group.size() == 3) bytes += static_cast<char>(value / 256);
    bytes += static_cast<char>(value % 256);
  }
  return {.bytes = std::move(bytes), .fault = std::nullopt};
}

}  // namespace tub::job
