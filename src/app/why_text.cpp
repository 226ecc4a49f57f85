#include "app/why_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "app/paragraph.h"
#include "app/terminal.h"
#include "base/text.h"
#include "why/equations.h"

namespace tub::app {
namespace {

using why::Chain;
using why::Ground;
using why::Input;
using why::Node;
using why::Origin;

std::string spoken(const std::string& name) { return replaced(name, "_", " "); }

std::string short_number(double value) { return fmt::format("{:.6g}", value); }

std::string with_unit(const std::string& number, const std::string& unit) {
  return unit.empty() ? number : number + " " + unit;
}

std::string source_words(const Provenance& source) {
  switch (source.kind) {
    case Provenance::Kind::published:
      return source.text;
    case Provenance::Kind::from_memory:
      return "from memory: " + source.text;
    case Provenance::Kind::assumption:
      return source.text.starts_with("assum") ? source.text : "assumption: " + source.text;
    default:
      return "by definition: " + source.text;
  }
}

std::string method_words(const Origin& origin) {
  if (origin.method.empty()) return "";
  std::string text = ", tested with " + spoken(origin.method);
  if (origin.division) text += ", in steps of " + short_number(*origin.division);
  if (origin.half_width)
    text += ", ±" + with_unit(short_number(*origin.half_width), origin.test_unit);
  return text;
}

/// Where a number that nothing is computed from stands.
std::string ground_words(const Node& node) {
  const Origin& origin = *node.origin;
  std::string text;
  if (origin.ground == Ground::test_slip) text = "test slip, " + origin.where;
  if (origin.ground == Ground::job) text = "job, " + origin.where;
  if (origin.ground == Ground::data_row) text = origin.where;
  if (!origin.as_written.empty()) text += fmt::format(", \"{}\"", origin.as_written);
  text += method_words(origin);
  if (!origin.source) return text;
  return text + (text.empty() ? "" : "; ") + source_words(*origin.source);
}

class WhyWriter {
 public:
  WhyWriter(const Chain& chain, const TextStyle& style) : chain_(chain), style_(style) {
    for (const std::string& id : chain.in_order()) {
      if (is_entry(chain.at(id))) numbers_.emplace(id, numbers_.size() + 1);
    }
  }

  std::string all() {
    std::string text;
    for (const std::string& id : chain_.in_order()) {
      if (numbers_.contains(id)) text += (text.empty() ? "" : "\n") + entry(chain_.at(id));
    }
    return text;
  }

 private:
  /// Grounds are told where they are used.
  bool is_entry(const Node& node) const { return !node.origin || &node == &chain_.root(); }

  /// A pointer of the plan as it is; of others their name, and what they are part of.
  static std::string heading(const Node& node) {
    const std::size_t cut = node.id.find('#');
    const std::string whole = node.id.substr(0, cut);
    if (cut == std::string::npos) return node.id.starts_with('/') ? node.id : spoken(node.id);
    return fmt::format(
        "{} ({})", spoken(node.name),
        whole.find('/') == std::string::npos ? spoken(whole) : replaced(whole, "job:", "job, "));
  }

  std::string entry(const Node& node) {
    const bool is_root = &node == &chain_.root();
    const std::string number = is_root ? shortest(node.value) : short_number(node.value);
    std::string text = paragraph(
        padded(fmt::format("[{}]", numbers_.at(node.id)), 5),
        fmt::format("{} = {}", heading(node), with_unit(number, node.unit)), style_.width);
    const std::size_t end = text.find('\n');
    text = bold(text.substr(0, end), style_.with_colour) + text.substr(end);
    text += paragraph("     ", "= " + why::formula(node), style_.width);
    if (node.origin) text += paragraph("       ", ground_words(node), style_.width);
    for (const Input& input : node.inputs) text += row(input);
    return text + beside(node);
  }

  std::string row(const Input& input) {
    const Node& from = chain_.at(input.node);
    std::string value = with_unit(short_number(from.value), from.unit);
    if (input.share) value += fmt::format(", {:.0f} %", 100 * *input.share);
    const auto number = numbers_.find(input.node);
    const bool is_entry = number != numbers_.end();
    const bool is_known = !is_entry && !told_.insert(input.node).second;
    const std::string where = is_entry   ? fmt::format("  [{}]", number->second)
                              : is_known ? "  (above)"
                                         : "";
    const std::string text = paragraph(
        "       ", fmt::format("{}: {}{}", spoken(input.name), value, where), style_.width);
    if (is_entry || is_known) return text;
    return text + paragraph("           ", ground_words(from), style_.width);
  }

  std::string beside(const Node& node) const {
    if (node.beside.empty()) return "";
    std::string names;
    for (const std::string& id : node.beside) {
      names += (names.empty() ? "" : ", ") + id.substr(id.rfind('/') + 1);
    }
    return paragraph("       ", "by less than 1 % each: " + names, style_.width);
  }

  const Chain& chain_;
  const TextStyle& style_;
  std::map<std::string, std::size_t> numbers_;
  std::set<std::string> told_;
};

}  // namespace

std::string why_text(const Chain& chain, const TextStyle& style) {
  return WhyWriter(chain, style).all();
}

}  // namespace tub::app
