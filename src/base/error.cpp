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

}  // namespace

std::string to_text(const Diagnostic& diagnostic, std::string_view severity) {
  std::string text = std::string(severity) + ": " + visible(diagnostic.message) + "\n";
  if (!diagnostic.where.empty()) text += "  where: " + visible(diagnostic.where) + "\n";
  for (const std::string& step : diagnostic.trace) text += "  while: " + visible(step) + "\n";
  if (!diagnostic.help.empty()) text += "  help:  " + visible(diagnostic.help) + "\n";
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

void Problems::throw_if_any() const {
  if (!found_.empty()) throw Error(found_);
}

}  // namespace tub
