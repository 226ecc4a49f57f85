// Container labels: what a package of the trade or the workplace must say, by a set of rules.
#pragma once

#include "sheets/template/fact_kinds.h"

namespace tub::sheets {

const Shape& container_shape();        ///< `"facts": "container"`
const Shape& container_voice_shape();  ///< of its languages

/// A label for each package of the shelf.
///
/// The warnings are what is checked before a container leaves the shop: closure, tactile mark,
/// vented cap, UFI.
/// Throws: Error with everything that keeps a label from being printed: no rules, no package, a
///         sanitizer for an owner, a supplier's line that lacks a part, a strength without codes, a
///         language that the rules do not allow by itself
FactSets container_facts(const SheetSources& sources, const Messages& messages,
                         const FactRequest& request);

}  // namespace tub::sheets
