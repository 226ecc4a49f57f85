// Scope, placeholders, repetition.
#include "sheets/template/composer.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <utility>

#include "base/nearest.h"

namespace tub::sheets {
namespace {

constexpr std::string_view message_prefix = "say.";
constexpr int most_turns = 20;
const std::vector<std::string> text_item_fields = {"text"};

const char* kind_name(FactRow::Kind kind) {
  switch (kind) {
    case FactRow::Kind::words:
      return "words";
    case FactRow::Kind::number:
      return "a number";
    case FactRow::Kind::list:
      return "a list";
  }
  return "";
}

// An absent fact leaves the space before it: at the end of a text, that space goes too.
Words trimmed_words(Words words) {
  if (words.parts.empty()) return words;
  auto* const last = std::get_if<Plain>(&words.parts.back());
  if (last == nullptr) return words;
  last->text.erase(last->text.find_last_not_of(' ') + 1);
  if (last->text.empty()) words.parts.pop_back();
  return words;
}

}  // namespace

Composer::Composer(const Facts& facts, const Messages* messages, int turn)
    : scope_{&facts}, messages_(messages), turn_(turn) {}

std::optional<Composer::Found> Composer::find_any(std::string_view name) const {
  for (auto facts = scope_.rbegin(); facts != scope_.rend(); ++facts) {
    if (const FactRow* const row = (*facts)->shape().find(name)) return Found{*facts, row};
  }
  return std::nullopt;
}

std::vector<std::string> Composer::names_in_scope() const {
  std::vector<std::string> names;
  for (auto facts = scope_.rbegin(); facts != scope_.rend(); ++facts) {
    for (const FactRow& row : (*facts)->shape().rows) names.emplace_back(row.name);
  }
  return names;
}

std::optional<Composer::Found> Composer::find(const Node& node, std::string_view name,
                                              FactRow::Kind kind) {
  const std::optional<Found> found = find_any(name);
  if (!found) {
    node.problem(fmt::format("no fact here is called \"{}\"", name),
                 suggestion(name, names_in_scope()));
    return std::nullopt;
  }
  if (found->row->kind == kind) return found;
  node.problem(fmt::format("expected {}, but \"{}\" is {}", kind_name(kind), name,
                           kind_name(found->row->kind)),
               "name another fact");
  return std::nullopt;
}

Words Composer::placeholder(const Node& node, const std::string& name) {
  if (name.starts_with(message_prefix)) return message(node, name.substr(message_prefix.size()));
  const std::optional<Found> found = find(node, name, FactRow::Kind::words);
  return found ? found->facts->words(name) : Words{};
}

Words Composer::message(const Node& node, const std::string& key) {
  if (!is_checking()) return fill(node, messages_->phrase(key));
  note_message(key);
  return plain(key);
}

void Composer::note_message(const std::string& key) {
  std::set<std::string> offered;
  for (const Facts* const facts : scope_) {
    for (const FactRow& row : facts->shape().rows) {
      if (row.kind == FactRow::Kind::words) offered.emplace(row.name);
    }
  }
  const auto [entry, is_first] = said_.try_emplace(key, offered);
  if (is_first) return;
  std::set<std::string> both;
  std::set_intersection(offered.begin(), offered.end(), entry->second.begin(), entry->second.end(),
                        std::inserter(both, both.end()));
  entry->second = std::move(both);
}

Words Composer::fill(const Node& node, const Phrase& phrase) {
  Words words;
  for (const PhrasePart& part : phrase.parts) {
    switch (part.kind) {
      case PhrasePart::Kind::text:
        append(words, part.weight, part.text);
        break;
      case PhrasePart::Kind::line:
        words.parts.emplace_back(Fill{part.least_mm, ""});
        break;
      case PhrasePart::Kind::placeholder:
        append(words, part.weight, placeholder(node, part.text));
        break;
    }
  }
  return words;
}

Words Composer::words(const Node& node) {
  const std::optional<std::string> text = node.text();
  if (!text) return {};
  const Phrase phrase = read_phrase(*text);
  if (!phrase.fault.empty()) node.problem(phrase.fault, phrase.help);
  return trimmed_words(fill(node, phrase));
}

Words Composer::words(const Node& object, std::string_view member) {
  const std::optional<Node> node = object.find(member);
  return node ? words(*node) : Words{};
}

std::string Composer::text(const Node& object, std::string_view member) {
  return text_of(words(object, member));
}

std::optional<double> Composer::number(const Node& object, std::string_view member) {
  const std::optional<Node> node = object.find(member);
  if (!node) return std::nullopt;
  if (!node->is_text()) return node->number();
  const Phrase phrase = read_phrase(*node->text());
  if (phrase.parts.size() != 1 || phrase.parts[0].kind != PhrasePart::Kind::placeholder) {
    node->problem(fmt::format("expected a number or one placeholder, found {}", node->shown()));
    return std::nullopt;
  }
  const std::optional<Found> found = find(*node, phrase.parts[0].text, FactRow::Kind::number);
  return found ? found->facts->number(found->row->name) : std::nullopt;
}

bool Composer::flag(const Node& object, std::string_view member) {
  const std::optional<Node> node = object.find(member);
  if (!node) return false;
  if (!node->is_object()) return node->boolean().value_or(false);
  allow_only(*node, {});
  return node->require("when") && is_wanted(*node);
}

std::vector<Words> Composer::words_list(const Node& object, std::string_view member) {
  std::vector<Words> list;
  items(object, member, [&](const Node& item) {
    if (!item.is_object()) {
      list.push_back(words(item));
      return;
    }
    allow_only(item, text_item_fields);
    if (const auto text = item.require("text")) list.push_back(words(*text));
  });
  return list;
}

// `"give_up": 2`, or `"give_up": {"turn": 2, "when": "is_last"}` for some elements of a list only.
bool Composer::is_given_up(const Node& item) {
  const std::optional<Node> give_up = item.find("give_up");
  if (!give_up) return false;
  std::optional<Node> turn_node = give_up;
  bool is_meant = true;
  if (give_up->is_object()) {
    give_up->allow_only(std::vector<std::string>{"turn", "when"});
    turn_node = give_up->require("turn");
    is_meant = is_fact_present(*give_up);
  }
  if (!turn_node) return false;
  const int turn = turn_node->whole(1, most_turns).value_or(1);
  last_turn_ = std::max(last_turn_, turn);
  return is_meant && turn <= turn_;
}

// `"from_turn": 2`: what stands in for something that the second turn gives up.
bool Composer::is_its_turn(const Node& item) const {
  const std::optional<Node> from = item.find("from_turn");
  return !from || is_checking() || from->whole(1, most_turns).value_or(1) <= turn_;
}

bool Composer::is_wanted(const Node& item) {
  if (is_given_up(item) || !is_its_turn(item)) return false;
  return is_fact_present(item);
}

bool Composer::is_fact_present(const Node& item) const {
  const std::optional<Node> when = item.find("when");
  if (!when) return true;
  const std::optional<std::string> name = when->text();
  if (!name) return false;
  const std::optional<Found> found = find_any(*name);
  if (found) return found->facts->is_present(*name);
  when->problem(fmt::format("no fact here is called \"{}\"", *name),
                suggestion(*name, names_in_scope()));
  return false;
}

void Composer::visit_wanted(const Node& item, const std::function<void(const Node&)>& visit) {
  if (!is_wanted(item)) return;
  if (const std::optional<Node> group = item.find("group")) {
    allow_only(item, {"group"});
    items(*group, visit);
  } else {
    visit(item);
  }
}

void Composer::item(const Node& item, const std::function<void(const Node&)>& visit) {
  const std::optional<Node> each = item.find("each");
  if (!each) {
    visit_wanted(item, visit);
    return;
  }
  const std::optional<std::string> name = each->text();
  const std::optional<Found> found = name ? find(*each, *name, FactRow::Kind::list) : std::nullopt;
  if (!found) return;
  for (const Facts& element : found->facts->list(*name)) {
    scope_.push_back(&element);
    visit_wanted(item, visit);
    scope_.pop_back();
  }
}

void Composer::items(const Node& list, const std::function<void(const Node&)>& visit) {
  for (const Node& node : list.items()) item(node, visit);
}

void Composer::items(const Node& object, std::string_view member,
                     const std::function<void(const Node&)>& visit) {
  if (const std::optional<Node> list = object.find(member)) items(*list, visit);
}

void Composer::allow_only(const Node& object, std::vector<std::string> known) {
  if (!object.is_object()) {
    object.problem(fmt::format("expected an object, found {}", object.shown()));
    return;
  }
  known.insert(known.end(), {"each", "when", "give_up", "from_turn"});
  object.allow_only(known);
}

}  // namespace tub::sheets
