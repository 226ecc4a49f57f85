// Names of pictograms, and words without their inline parts.
#include "document/block.h"

#include <algorithm>
#include <array>
#include <cstddef>

namespace tub::document {
namespace {

const std::array<std::string, 11> names = {"gloves",        "goggles",        "mask",
                                           "face_shield",   "apron",          "ghs_oxidiser",
                                           "ghs_corrosion", "ghs_toxic",      "ghs_exclamation",
                                           "ghs_health",    "ghs_environment"};

struct PartText {
  template <class Part>
  std::string operator()(const Part& part) const {
    return part.text;
  }
  std::string operator()(const Amount& amount) const {
    return amount.spoons.empty() ? amount.text : amount.text + " " + amount.spoons;
  }
  std::string operator()(const Fill&) const { return {}; }
  std::string operator()(const Triangle&) const { return {}; }
};

}  // namespace

std::string text_of(const Words& words) {
  std::string text;
  for (const Inline& part : words.parts) text += std::visit(PartText{}, part);
  return text;
}

std::optional<Pictogram> pictogram_named(std::string_view name) {
  const auto found = std::find(names.begin(), names.end(), name);
  if (found == names.end()) return std::nullopt;
  return static_cast<Pictogram>(found - names.begin());
}

std::span<const std::string> pictogram_names() { return names; }

}  // namespace tub::document
