#include "sheets/cabinet/label_facts.h"

namespace tub::sheets {

void copy_common(const Facts& from, Facts& to) {
  for (const FactRow& row : to.shape().rows) {
    const FactRow* const same = from.shape().find(row.name);
    const bool are_words = row.kind == FactRow::Kind::words;
    if (same == nullptr || !are_words || same->kind != row.kind) continue;
    to.set(row.name, from.words(row.name));
  }
}

void set_mark(Facts& facts, std::string_view name, bool is_set) {
  if (is_set) facts.set(name, std::string("yes"));
}

}  // namespace tub::sheets
