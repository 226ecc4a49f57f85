// Where a figure comes from.
#pragma once

#include <optional>
#include <string>

#include "base/node.h"

namespace tub::planning {

/// How far a figure may be trusted, and whose it is.
struct Provenance {
  enum class Kind {
    published,    ///< stood in the text of the named source
    from_memory,  ///< general knowledge, typical, not verified
    assumption,   ///< ours: nothing was found that states it
    definition,   ///< exact, or arithmetic from stated inputs
  };
  Kind kind = Kind::assumption;
  std::string text;

  bool is_from_memory() const { return kind == Kind::from_memory; }
  bool is_assumption() const { return kind == Kind::assumption; }
  friend bool operator==(const Provenance&, const Provenance&) = default;
};

/// "published", "from_memory", "assumption" or "definition".
std::string name_of(Provenance::Kind kind);

/// Reads `{ "published": "WHO 2006, table 5.2" }`: one member, named by the kind. A problem, and
/// nothing, if it is something else or its text is empty.
std::optional<Provenance> read_provenance(const Node& node);

}  // namespace tub::planning
