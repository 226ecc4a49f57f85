#include "base/error.h"

#include <algorithm>
#include <cassert>

#include "base/text.h"

namespace tub {
namespace {

std::string all_text(const std::vector<Diagnostic>& diagnostics) {
  std::string text;
  for (const Diagnostic& diagnostic : diagnostics) text += to_text(diagnostic);
  return text;
}

constexpr std::size_t most_of_a_kind = 10;

bool may_vary(char c) {
  const auto byte = static_cast<unsigned char>(c);
  return c == '"' || (c >= '0' && c <= '9') || byte >= 0x80;
}

// A message without what lies between the first and the last of its quotes and digits: what was
// found cannot make two kinds of one.
std::string kind_of(std::string_view message) {
  const auto* const first = std::find_if(message.begin(), message.end(), may_vary);
  const auto last = std::find_if(message.rbegin(), message.rend(), may_vary);
  return std::string(message.begin(), first) + '"' + std::string(last.base(), message.end());
}

}  // namespace

std::string to_text(const Diagnostic& diagnostic, std::string_view severity) {
  std::string text = std::string(severity) + ": " + visible(diagnostic.message) + "\n";
  if (!diagnostic.where.empty()) text += "  where: " + visible(diagnostic.where) + "\n";
  for (const std::string& step : diagnostic.trace) text += "  while: " + visible(step) + "\n";
  if (!diagnostic.help.empty()) text += "  help:  " + visible(diagnostic.help) + "\n";
  if (diagnostic.more_like_it > 0) {
    text += "  and " + in_thousands(diagnostic.more_like_it) + " more like it\n";
  }
  return text;
}

Error::Error(Diagnostic diagnostic) : Error(std::vector<Diagnostic>{std::move(diagnostic)}) {}

Error::Error(std::vector<Diagnostic> diagnostics) : diagnostics_(std::move(diagnostics)) {
  assert(!diagnostics_.empty());
  text_ = all_text(diagnostics_);
}

Fault Error::fault() const {
  Fault highest = Fault::job;
  for (const Diagnostic& diagnostic : diagnostics_) highest = std::max(highest, diagnostic.fault);
  return highest;
}

Error& Error::within(const std::string& step) {
  for (Diagnostic& diagnostic : diagnostics_) diagnostic.trace.push_back(step);
  text_ = all_text(diagnostics_);
  return *this;
}

void Problems::add(Diagnostic diagnostic) {
  Kind& kind = kinds_[kind_of(diagnostic.message)];
  if (kind.kept == most_of_a_kind) {
    found_[kind.last].more_like_it += 1 + diagnostic.more_like_it;
    return;
  }
  ++kind.kept;
  kind.last = found_.size();
  found_.push_back(std::move(diagnostic));
}

bool Problems::has_room_for(std::string_view message) const {
  const auto kind = kinds_.find(kind_of(message));
  return kind == kinds_.end() || kind->second.kept < most_of_a_kind;
}

void Problems::throw_if_any() const {
  if (!found_.empty()) throw Error(found_);
}

}  // namespace tub
