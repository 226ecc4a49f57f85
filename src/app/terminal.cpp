#include "app/terminal.h"

#include <unistd.h>

#include <cstdlib>

namespace tub::app {

bool takes_colour(int descriptor) {
  const char* const refused = std::getenv("NO_COLOR");
  if (refused != nullptr && *refused != '\0') return false;
  const char* const terminal = std::getenv("TERM");
  if (terminal != nullptr && std::string_view(terminal) == "dumb") return false;
  return ::isatty(descriptor) == 1;
}

std::string bold(std::string_view text, bool with_colour) {
  if (!with_colour) return std::string(text);
  return "\x1b[1m" + std::string(text) + "\x1b[0m";
}

std::string shown(std::span<const Diagnostic> diagnostics, std::string_view severity) {
  const bool with_colour = takes_colour(STDERR_FILENO);
  std::string text;
  for (const Diagnostic& diagnostic : diagnostics) {
    const std::string plain = to_text(diagnostic, severity);
    text += bold(plain.substr(0, severity.size()), with_colour) + plain.substr(severity.size());
  }
  return text;
}

}  // namespace tub::app
