// Tablets in a floater that keep up the bromine which another product has made.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "planning/plan.h"
#include "planning/situation.h"

namespace tub::planning {

/// The whole tablets that put back what is used of the bromine that the water holds after these
/// moves; nothing where no tablets are on the shelf, or they are in the floater already.
std::optional<FloaterMove> floater_after(const Situation& situation, std::span<const Move> moves);

/// The step of that move, its number and the water after it left open: what dissolves is used, so
/// that nothing is added, and the next test is that of the gate.
Step floater_step(const Situation& situation, const FloaterMove& move);

/// What its number of tablets rests on.
std::vector<Reason> assumed_by_floater(const Situation& situation, const FloaterMove& move);

/// How fast a tablet dissolves.
Reason dissolving_reason(const Product::Dissolving& tablet);

}  // namespace tub::planning
