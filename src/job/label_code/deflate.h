// Raw deflate (RFC 1951) with a preset dictionary.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "base/modules.h"

namespace tub::job {

/// The text, deflated as far as zlib can; the same text gives the same bytes.
/// Throws: Error (the machine's fault) if zlib has no memory
std::string deflated(std::string_view text, std::string_view dictionary);

/// The text that was deflated; nothing if the bytes are no whole deflate stream, more follows it,
/// or the text would be longer than `longest`.
std::optional<std::string> inflated(std::string_view bytes, std::string_view dictionary,
                                    std::size_t longest);

}  // namespace tub::job
