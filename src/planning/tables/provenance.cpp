#include "planning/tables/provenance.h"

#include <fmt/format.h>

#include <array>

#include "base/nearest.h"
#include "base/text.h"

namespace tub::planning {
namespace {

using Kind = Provenance::Kind;

constexpr std::array all_kinds = {Kind::published, Kind::from_memory, Kind::assumption,
                                  Kind::definition};

std::vector<std::string> kind_names() {
  std::vector<std::string> names;
  names.reserve(all_kinds.size());
  for (const Kind kind : all_kinds) names.push_back(name_of(kind));
  return names;
}

}  // namespace

std::string name_of(Provenance::Kind kind) {
  switch (kind) {
    case Kind::published:
      return "published";
    case Kind::from_memory:
      return "from_memory";
    case Kind::assumption:
      return "assumption";
    case Kind::definition:
      return "definition";
  }
  return "";
}

std::optional<Provenance> read_provenance(const Node& node) {
  const std::vector<Node::Member> members = node.members();
  if (members.size() != 1) {
    if (node.is_object()) {
      node.problem(fmt::format("expected one source, found {}", members.size()),
                   "write { \"published\": \"…\" }, or from_memory, assumption, definition");
    }
    return std::nullopt;
  }
  const auto& [name, value] = members.front();
  const std::optional<std::string> text = value.text();
  if (text && trimmed(*text).empty()) value.problem("the source is empty", "name the source");
  for (const Kind kind : all_kinds) {
    if (name_of(kind) == name && text) return Provenance{kind, *text};
  }
  node.allow_only(kind_names());
  return std::nullopt;
}

}  // namespace tub::planning
