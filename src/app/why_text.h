// The chain behind one number of a plan, for a terminal.
#pragma once

#include <string>

#include "app/plan_text.h"
#include "why/chain.h"

namespace tub::app {

/// Numbered entries, nearest first: a value, its equation, its inputs with the entries that explain
/// them; what nothing is computed from says where it stands.
std::string why_text(const why::Chain& chain, const TextStyle& style);

}  // namespace tub::app
