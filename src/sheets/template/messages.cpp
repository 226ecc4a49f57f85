// Reading a language file whole: every fault at its place, then one throw.
#include "sheets/template/messages.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <set>

#include "base/nearest.h"
#include "base/node.h"

namespace tub::sheets {
namespace {

using PhraseMap = std::map<std::string, Phrase, std::less<>>;

const std::vector<std::string> file_fields = {"language", "name",     "numbers",
                                              "months",   "messages", "variants"};
const std::vector<std::string> number_fields = {"decimal", "group", "singular_up_to"};

struct Entry {
  std::string key;
  Node node;
};

// Groups of messages may be nested; the key joins their names with dots.
void collect(const Node& node, const std::string& prefix, std::vector<Entry>& entries) {
  for (const Node::Member& member : node.members()) {
    const std::string key = prefix.empty() ? member.name : prefix + "." + member.name;
    if (member.value.is_object()) {
      collect(member.value, key, entries);
    } else {
      entries.push_back({key, member.value});
    }
  }
}

const RequiredMessage* required_of(std::span<const RequiredMessage> required,
                                   std::string_view key) {
  const auto found = std::lower_bound(
      required.begin(), required.end(), key,
      [](const RequiredMessage& row, std::string_view wanted) { return row.key < wanted; });
  return found == required.end() || found->key != key ? nullptr : &*found;
}

void check_placeholders(const Entry& entry, const Phrase& phrase, const RequiredMessage& required) {
  for (const std::string& name : placeholders_of(phrase)) {
    const auto& known = required.parameters;
    if (std::find(known.begin(), known.end(), name) != known.end()) continue;
    entry.node.problem(fmt::format("the message \"{}\" has no placeholder {{{}}}", entry.key, name),
                       known.empty() ? "it has none" : suggestion(name, known));
  }
}

std::optional<Phrase> read_entry(const Entry& entry, std::span<const RequiredMessage> required,
                                 std::span<const std::string> known) {
  const RequiredMessage* const row = required_of(required, entry.key);
  if (row == nullptr) {
    const std::string meant = nearest(entry.key, known);
    entry.node.problem(fmt::format("no sheet uses a message \"{}\"", entry.key),
                       meant.empty() ? "remove it" : fmt::format("did you mean {}?", meant));
    return std::nullopt;
  }
  const std::optional<std::string> text = entry.node.text();
  if (!text) return std::nullopt;
  Phrase phrase = read_phrase(*text);
  if (phrase.parts.empty() && phrase.fault.empty()) {
    entry.node.problem(fmt::format("the message \"{}\" is empty", entry.key), "write its words");
  }
  if (!phrase.fault.empty()) entry.node.problem(phrase.fault, phrase.help);
  check_placeholders(entry, phrase, *row);
  return phrase;
}

void report_missing(const Node& node, const RequiredMessage& row) {
  const std::string help = row.said_by.empty()
                               ? "add it to this language"
                               : fmt::format("add it to this language: {} says it", row.said_by);
  node.problem(fmt::format("the message \"{}\" is missing", row.key), help);
}

struct ReadPhrases {
  PhraseMap phrases;
  std::set<std::string> found;  ///< those with faults included
};

ReadPhrases read_phrases(const Node& node, std::span<const RequiredMessage> required) {
  std::vector<std::string> known;
  for (const RequiredMessage& row : required) known.push_back(row.key);
  std::vector<Entry> entries;
  collect(node, "", entries);
  ReadPhrases result;
  for (const Entry& entry : entries) {
    result.found.insert(entry.key);
    std::optional<Phrase> phrase = read_entry(entry, required, known);
    if (phrase) result.phrases.insert_or_assign(entry.key, std::move(*phrase));
  }
  return result;
}

PhraseMap read_messages(const Node& node, std::span<const RequiredMessage> required) {
  ReadPhrases read = read_phrases(node, required);
  for (const RequiredMessage& row : required) {
    if (row.is_needed && !read.found.contains(row.key)) report_missing(node, row);
  }
  return std::move(read.phrases);
}

std::map<std::string, PhraseMap> read_variants(const Node& node,
                                               std::span<const RequiredMessage> required) {
  std::map<std::string, PhraseMap> variants;
  for (const Node::Member& member : node.members()) {
    variants.emplace(member.name, read_phrases(member.value, required).phrases);
  }
  return variants;
}

NumberStyle read_numbers(const Node& node) {
  node.allow_only(number_fields);
  NumberStyle style;
  if (const auto decimal = node.require("decimal")) style.decimal = decimal->text().value_or("");
  if (const auto group = node.require("group")) style.group = group->text().value_or("");
  if (const auto most = node.require("singular_up_to")) {
    style.singular_up_to = most->number(0, 10).value_or(1);
  }
  return style;
}

std::array<std::string, 12> read_months(const Node& node) {
  std::array<std::string, 12> months;
  const std::vector<Node> items = node.items();
  if (node.is_array() && items.size() != months.size()) {
    node.problem(fmt::format("expected 12 months, found {}", items.size()), "name every month");
  }
  for (std::size_t i = 0; i < std::min(items.size(), months.size()); ++i) {
    months.at(i) = items[i].text().value_or("");
  }
  return months;
}

[[noreturn]] void throw_ours(std::string message) {
  throw Error({std::move(message),
               "",
               {},
               "this is a fault of the program: its list of messages is not complete",
               Fault::machine});
}

Words filled(const Phrase& phrase, std::string_view key,
             std::span<const MessageParameter> parameters) {
  Words words;
  for (const PhrasePart& part : phrase.parts) {
    if (part.kind == PhrasePart::Kind::text) {
      append(words, part.weight, part.text);
    } else if (part.kind == PhrasePart::Kind::line) {
      words.parts.emplace_back(Fill{part.least_mm, ""});
    } else {
      const auto given = std::find_if(parameters.begin(), parameters.end(),
                                      [&](const auto& row) { return row.name == part.text; });
      if (given == parameters.end()) {
        throw_ours(fmt::format("the message \"{}\" was not given its {{{}}}", key, part.text));
      }
      append(words, part.weight, given->words);
    }
  }
  return words;
}

}  // namespace

Messages Messages::parse(std::string_view text, const std::string& file,
                         std::span<const RequiredMessage> required) {
  Problems problems;
  const Node root = Node::parse(text, file, problems);
  root.allow_only(file_fields);
  Messages messages;
  if (const auto node = root.require("language")) messages.language_ = node->text().value_or("");
  if (const auto node = root.require("name")) messages.name_ = node->text().value_or("");
  if (const auto node = root.require("numbers")) messages.numbers_ = read_numbers(*node);
  if (const auto node = root.require("months")) messages.months_ = read_months(*node);
  if (const auto node = root.require("messages")) {
    messages.phrases_ = read_messages(*node, required);
  }
  if (const auto node = root.find("variants")) {
    messages.variants_ = read_variants(*node, required);
  }
  problems.throw_if_any();
  return messages;
}

Messages Messages::in(const std::optional<Country>& country) const {
  Messages result = *this;
  if (!country) return result;
  if (!country->decimal.empty()) result.numbers_.decimal = country->decimal;
  const auto variant = variants_.find(country->variant);
  if (variant == variants_.end()) return result;
  for (const auto& [key, phrase] : variant->second) result.phrases_.insert_or_assign(key, phrase);
  return result;
}

bool Messages::has(std::string_view key) const { return phrases_.find(key) != phrases_.end(); }

const Phrase& Messages::phrase(std::string_view key) const {
  const auto found = phrases_.find(key);
  if (found != phrases_.end()) return found->second;
  throw_ours(fmt::format("the language \"{}\" has no message \"{}\"", language_, key));
}

Words Messages::words(std::string_view key, MessageParameters parameters) const {
  return words(key, std::span<const MessageParameter>(parameters.begin(), parameters.size()));
}

Words Messages::words(std::string_view key, std::span<const MessageParameter> parameters) const {
  return filled(phrase(key), key, parameters);
}

std::string Messages::text(std::string_view key, MessageParameters parameters) const {
  return text_of(words(key, parameters));
}

std::string Messages::date(const CalendarDate& date) const {
  const std::string day = date.day == 1 ? text("first_of_month") : std::to_string(date.day);
  return text("date", {{"day", day},
                       {"month", months_.at(static_cast<std::size_t>(date.month - 1))},
                       {"year", std::to_string(date.year)}});
}

}  // namespace tub::sheets
