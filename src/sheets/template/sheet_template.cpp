// Reading a template is filling it once from a sample of its facts.
#include "sheets/template/sheet_template.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <nlohmann/json.hpp>
#include <optional>
#include <utility>

#include "base/node.h"
#include "sheets/card/plan_facts.h"
#include "sheets/template/block_composer.h"
#include "sheets/template/composer.h"
#include "sheets/template/fact_kinds.h"

namespace tub::sheets {
namespace {

const std::vector<std::string> template_fields = {"sheet",    "facts",       "style",
                                                  "stock",    "one_page",    "give_up",
                                                  "split_at", "sizes_mm",    "short_word_sizes_mm",
                                                  "title",    "subject",     "blocks",
                                                  "foot",     "alternatives"};

const Shape& shape_named(const std::string& name) {
  for (const FactKind& kind : fact_kinds()) {
    if (kind.name == name) return *kind.shape;
  }
  return plan_shape();
}

std::vector<std::string> shape_names() {
  std::vector<std::string> names;
  for (const FactKind& kind : fact_kinds()) names.emplace_back(kind.name);
  return names;
}

std::vector<LeastSize> read_sizes(const Node& root, std::string_view field) {
  constexpr double least = 20;
  constexpr double most = 1200;
  std::vector<LeastSize> sizes;
  const auto list = root.find(field);
  if (!list) return sizes;
  for (const Node& pair : list->items()) {
    const std::vector<Node> sides = pair.items();
    if (sides.size() != 2) {
      pair.problem("expected a width and a height in mm", "write it so: [74, 52]");
      continue;
    }
    sizes.push_back(
        {sides[0].number(least, most).value_or(0), sides[1].number(least, most).value_or(0)});
  }
  return sizes;
}

void read_choices(const Node& root, SheetTemplate& sheet) {
  if (const auto style = root.find("style")) sheet.style = style->text().value_or(sheet.style);
  if (const auto stock = root.find("stock")) sheet.stock = stock->text().value_or(sheet.stock);
  if (const auto split = root.find("split_at")) sheet.split_at = split->whole(1, 20).value_or(0);
  sheet.sizes = read_sizes(root, "sizes_mm");
  sheet.short_word_sizes = read_sizes(root, "short_word_sizes_mm");
  if (const auto given_up = root.find("give_up")) {
    for (const Node& words : given_up->items()) {
      sheet.given_up.push_back(words.text().value_or(""));
    }
  }
}

// Whoever reads a warning is told what each turn left out.
void check_turns(const Node& root, const SheetTemplate& sheet, int last_turn) {
  if (static_cast<int>(sheet.given_up.size()) == last_turn) return;
  root.problem(fmt::format("what is given up has {} turns, and give_up names {}", last_turn,
                           sheet.given_up.size()),
               "name at the head of the template what each turn leaves out");
}

Foot compose_foot(Composer& composer, const Node& node) {
  Composer::allow_only(node, {"left", "right", "page_of"});
  return {composer.text(node, "left"), composer.text(node, "right"),
          composer.text(node, "page_of")};
}

Alternatives compose_alternatives(Composer& composer, const Node& node) {
  Composer::allow_only(node, {"tick", "triangle", "fill", "arrow"});
  return {composer.text(node, "tick"), composer.text(node, "triangle"), composer.text(node, "fill"),
          composer.text(node, "arrow")};
}

Document compose_document(Composer& composer, const Node& root) {
  root.allow_only(template_fields);
  Document document;
  if (const auto sheet = root.require("sheet")) document.sheet = sheet->text().value_or("");
  document.is_one_page = composer.flag(root, "one_page");
  if (const auto title = root.require("title")) document.title = text_of(composer.words(*title));
  if (const auto blocks = root.require("blocks")) {
    document.blocks = compose_blocks(composer, *blocks);
  }
  if (const auto foot = root.require("foot")) document.foot = compose_foot(composer, *foot);
  if (const auto node = root.require("alternatives")) {
    document.alternatives = compose_alternatives(composer, *node);
  }
  document.properties.subject = composer.text(root, "subject");
  return document;
}

std::vector<RequiredMessage> required_by(const Composer& composer) {
  std::vector<RequiredMessage> messages;
  for (const auto& [key, names] : composer.said()) {
    messages.push_back({key, {names.begin(), names.end()}});
  }
  return messages;
}

}  // namespace

SheetTemplate parse_sheet_template(std::string_view text, const std::string& file) {
  Problems problems;
  const Node root = Node::parse(text, file, problems);
  SheetTemplate sheet;
  sheet.file = file;
  const std::optional<Node> facts = root.require("facts");
  sheet.facts = facts ? facts->one_of(shape_names()).value_or("plan") : "plan";
  sheet.shape = &shape_named(sheet.facts);
  read_choices(root, sheet);
  const Facts sample = Facts::sample(*sheet.shape);
  Composer composer(sample, nullptr);
  sheet.sheet = compose_document(composer, root).sheet;
  check_turns(root, sheet, std::max(composer.last_turn(), sheet.split_at));
  problems.throw_if_any();
  sheet.messages = required_by(composer);
  sheet.tree = std::make_shared<const nlohmann::ordered_json>(root.json());
  return sheet;
}

Document fill_template(const SheetTemplate& sheet, const Facts& facts, const Messages& messages,
                       int turn) {
  assert(&facts.shape() == sheet.shape);
  Problems problems;
  const Node root = Node::over(sheet.tree, sheet.file, problems);
  Composer composer(facts, &messages, turn);
  Document document = compose_document(composer, root);
  problems.throw_if_any();
  document.language = messages.language();
  return document;
}

}  // namespace tub::sheets
