// Reading a template is filling it once from a sample of its facts.
#include "sheets/sheet_template.h"

#include <fmt/format.h>

#include <cassert>
#include <nlohmann/json.hpp>
#include <optional>
#include <utility>

#include "base/node.h"
#include "sheets/block_composer.h"
#include "sheets/composer.h"
#include "sheets/plan_facts.h"

namespace tub {
namespace {

const std::vector<std::string> template_fields = {"sheet",  "facts", "title",       "subject",
                                                  "blocks", "foot",  "alternatives"};
const std::vector<std::string> shape_names = {"plan"};

const Shape& shape_named(const std::string& name) {
  assert(name == "plan");
  (void)name;
  return plan_shape();
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
  const std::string shape = facts ? facts->one_of(shape_names).value_or("plan") : "plan";
  sheet.shape = &shape_named(shape);
  const Facts sample = Facts::sample(*sheet.shape);
  Composer composer(sample, nullptr);
  sheet.sheet = compose_document(composer, root).sheet;
  problems.throw_if_any();
  sheet.messages = required_by(composer);
  sheet.tree = std::make_shared<const nlohmann::ordered_json>(root.json());
  return sheet;
}

Document fill_template(const SheetTemplate& sheet, const Facts& facts, const Messages& messages) {
  assert(&facts.shape() == sheet.shape);
  Problems problems;
  const Node root = Node::over(sheet.tree, sheet.file, problems);
  Composer composer(facts, &messages);
  Document document = compose_document(composer, root);
  problems.throw_if_any();
  document.language = messages.language();
  return document;
}

}  // namespace tub
