// Bytes as characters that square codes hold best (RFC 9285).
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/modules.h"

namespace tub::job {

/// The bytes in Base45: three characters for two bytes, two for a last one.
///
/// Source: RFC 9285
std::string to_base45(std::string_view bytes);

/// What keeps a text from being Base45.
struct Base45Fault {
  std::size_t at = 0;   ///< the character, from 1
  std::string message;  ///< "character 7 is none of the 45"
};

/// The bytes of a text in Base45, or what is wrong with it.
struct Base45Bytes {
  std::string bytes;  ///< empty if there is a fault
  std::optional<Base45Fault> fault;
};

/// Source: RFC 9285, section 4: groups above 65535 (or 255) and single last characters are refused
Base45Bytes from_base45(std::string_view text);

}  // namespace tub::job
