// The part of the final water's sanitizer that kills germs at once.
#pragma once

#include <optional>

#include "planning/plan.h"
#include "planning/situation.h"

namespace tub::planning {

/// HOCl, OCl- and what cyanurate holds, or HOBr, with their 90 % ranges; nothing where the final
/// water has none of the sanitizer.
///
/// Amounts are spread as factors, shares as odds, so that no end leaves what can be. The constants
/// count as one more source, at this water's own pH and alkalinity.
/// outcomes: of the moves that lead to `final`
/// Source:   the species table's constants and their spreads; docs/chemistry.md eq. 23
std::optional<ActiveSanitizer> active_sanitizer(const Situation& situation, const Water& final,
                                                const Outcomes& outcomes);

}  // namespace tub::planning
