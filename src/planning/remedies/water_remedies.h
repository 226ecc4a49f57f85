// Another water as the remedy for what no product mends: blended, softened, replaced, or all
// drained.
#pragma once

#include <optional>

#include "planning/plan.h"
#include "planning/situation.h"

namespace tub::planning {

/// What soft water is thought to be like where the job names none. Source: rows of assumptions.json
WaterTest softer_water(const Assumptions& assumptions);

/// Water of which a share has been through a softener: calcium and magnesium of that share are
/// sodium, but for what a softener leaves. Each slip error is that of one water, softened.
StartWater partly_softened(const StartWater& water, double fraction, const Assumptions& assumptions,
                           const SpeciesTable& species);

/// The share of a water to drain, in the steps of a refill, until a reading of `found` that is
/// diluted by one of `other` is below `most`, mg/L; 1 where it is not worth keeping any.
double share_to_drain(const Assumptions& assumptions, double found, double other, double most);

/// For what a full tub has too much of and any fresh water has none of, stabiliser and combined
/// chlorine: the share of it to drain. Nothing for other readings, and at a fill.
std::optional<Remedy> dilution(const Situation& situation, const Unmet& unmet);

/// The least share of another water, in steps that can be measured, with which the plan brings the
/// reading inside and no other out; surely, where that can be had. Nothing if no share does.
///
/// For a fresh fill "soften" (hardness) or "blend"; for a full tub "replace", or "drain" where it
/// takes more than is worth replacing.
std::optional<Remedy> water_remedy(const Situation& situation, const Unmet& unmet);

}  // namespace tub::planning
