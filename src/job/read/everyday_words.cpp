#include "job/read/everyday_words.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

#include "base/nearest.h"
#include "base/node.h"
#include "base/text.h"

namespace tub::job {
namespace {

bool holds(std::span<const std::string> names, std::string_view name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

std::string folded(std::string_view text) {
  std::string result;
  for (const char c : trimmed(text)) {
    const bool is_blank = c == '_' || c == '-' || c == ' ' || c == '\t';
    if (is_blank && result.ends_with(' ')) continue;
    result += is_blank ? ' ' : c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  }
  return result;
}

std::vector<std::string> folded_list(const Node& row, std::string_view field) {
  std::vector<std::string> words;
  const auto list = row.require(field);
  if (!list) return words;
  for (const Node& item : list->items()) words.push_back(folded(item.text().value_or("")));
  return words;
}

EverydayWords::Row read_row(const Node& node) {
  node.allow_only(std::vector<std::string>{"for", "said", "write"});
  EverydayWords::Row row;
  if (const auto what = node.require("for")) row.what = what->text().value_or("");
  row.said = folded_list(node, "said");
  if (const auto names = node.require("write")) {
    for (const Node& name : names->items()) row.write.push_back(name.text().value_or(""));
  }
  return row;
}

// The one word that is a letter off; none for short words, where a letter is another meaning: of
// "pH+" and "pH-" nobody may be told the other.
std::string one_slip_away(const std::string& word, const std::vector<std::string>& words) {
  constexpr std::size_t shortest_word = 6;
  if (word.size() < shortest_word) return "";
  const auto found = std::find_if(words.begin(), words.end(), [&](const std::string& other) {
    const std::size_t longer = std::max(word.size(), other.size());
    // The lengths first: a name of a megabyte is compared with none.
    return longer - std::min(word.size(), other.size()) <= 1 && edit_distance(word, other) == 1;
  });
  return found == words.end() ? "" : *found;
}

std::string advice(const std::vector<std::string>& names) {
  if (names.size() == 1) return "write " + names.front();
  return fmt::format("write {} or {}: whichever it is",
                     fmt::join(names.begin(), names.end() - 1, ", "), names.back());
}

}  // namespace

bool EverydayWords::means_not_known(std::string_view text) const {
  return holds(not_known, folded(text));
}

bool EverydayWords::means_nothing_found(std::string_view text) const {
  return holds(nothing_found, folded(text));
}

std::optional<std::string> EverydayWords::what_to_write(std::string_view what,
                                                        std::string_view found,
                                                        std::span<const std::string> usable) const {
  std::vector<std::string> all_said;
  for (const Row& row : rows) {
    if (row.what == what) all_said.insert(all_said.end(), row.said.begin(), row.said.end());
  }
  std::string word = folded(found);
  if (!holds(all_said, word)) {
    if (!nearest(found, usable).empty()) return std::nullopt;
    word = one_slip_away(word, all_said);
  }
  for (const Row& row : rows) {
    if (row.what != what || !holds(row.said, word)) continue;
    std::vector<std::string> names;
    std::copy_if(row.write.begin(), row.write.end(), std::back_inserter(names),
                 [&](const std::string& name) { return holds(usable, name); });
    if (!names.empty()) return advice(names);
  }
  return std::nullopt;
}

EverydayWords parse_everyday_words(std::string_view text, const std::string& file) {
  Problems problems;
  const Node root = Node::parse(text, file, problems);
  root.allow_only(std::vector<std::string>{"_about", "not_known", "nothing_found", "words"});
  EverydayWords words;
  words.not_known = folded_list(root, "not_known");
  words.nothing_found = folded_list(root, "nothing_found");
  if (const auto rows = root.require("words")) {
    for (const Node& row : rows->items()) words.rows.push_back(read_row(row));
  }
  problems.throw_if_any();
  return words;
}

}  // namespace tub::job
