#include "sheets/cabinet/tag_safety.h"

#include <algorithm>
#include <utility>
#include <vector>

namespace tub::sheets {
namespace {

/// The partners with whom the same happens.
struct Danger {
  std::string what;  ///< in words: two codes may be one danger to a reader
  std::string severity;
  std::vector<std::string> partners;
};

/// Dangers the worst first, as the pairs of a plan come; a partner stands with its worst only.
std::vector<Danger> dangers_of(const Wording& wording, const std::string& product) {
  std::vector<Danger> dangers;
  std::vector<std::string> told;
  for (const HazardPair& pair : wording.plan().hazards) {
    if (pair.first != product && pair.second != product) continue;
    const std::string& partner = pair.first == product ? pair.second : pair.first;
    if (std::find(told.begin(), told.end(), partner) != told.end()) continue;
    told.push_back(partner);
    const std::string what = wording.messages().text("dose_tag.outcome." + pair.code);
    const auto same = std::find_if(dangers.begin(), dangers.end(), [&](const Danger& danger) {
      return danger.what == what && danger.severity == pair.severity;
    });
    if (same != dangers.end()) {
      same->partners.push_back(partner);
    } else {
      dangers.push_back({what, pair.severity, {partner}});
    }
  }
  return dangers;
}

Words joined(const Messages& messages, std::string_view key, const Words& first, Words second) {
  if (first.empty()) return second;
  return messages.words(key, {{"first", first}, {"second", std::move(second)}});
}

Words words_of(const Wording& wording, const Danger& danger) {
  Words partners;
  for (const std::string& partner : danger.partners) {
    partners =
        joined(wording.messages(), "list.comma", partners, plain(wording.product_in_text(partner)));
  }
  return wording.messages().words("dose_tag.danger",
                                  {{"products", partners}, {"danger", danger.what}});
}

Words sentence(const Wording& wording, const std::vector<Danger>& dangers) {
  Words all;
  for (const Danger& danger : dangers) {
    all = joined(wording.messages(), "list.semicolon", all, words_of(wording, danger));
  }
  return wording.messages().words("dose_tag.never_with", {{"dangers", all}});
}

}  // namespace

Words never_meets(const Wording& wording, const std::string& product) {
  const std::vector<Danger> dangers = dangers_of(wording, product);
  if (dangers.empty()) return wording.messages().words("dose_tag.never_with_any");
  return sentence(wording, dangers);
}

Words never_meets_worst(const Wording& wording, const std::string& product) {
  std::vector<Danger> dangers = dangers_of(wording, product);
  const std::size_t all = dangers.size();
  std::erase_if(dangers, [worst = dangers.empty() ? "" : dangers.front().severity](
                             const Danger& danger) { return danger.severity != worst; });
  return dangers.size() == all ? Words{} : sentence(wording, dangers);
}

Words protection_of(const Wording& wording, const Product& product) {
  const Messages& messages = wording.messages();
  Words list;
  for (const std::string& sign : product.protection) {
    list = joined(messages, "list.comma", list, messages.words("protection." + sign + ".alone"));
  }
  return list.empty() ? list : messages.words("dose_tag.wear", {{"protection", list}});
}

}  // namespace tub::sheets
