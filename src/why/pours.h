// Doses of the draft and their pours, as nodes.
#pragma once

#include <cstddef>
#include <string>

#include "planning/water/draft.h"
#include "why/chain.h"

namespace tub::why {

class Asking;
struct Place;

/// A dose of the draft and the step that pours it: in a repeat, the inner one.
struct DosePlace {
  const DoseMove* dose = nullptr;
  std::size_t move = 0;
  std::string prefix;  ///< "/steps/3" or "/steps/3/steps/0"
  bool is_in_rounds = false;
};

/// REQUIRES: a move that doses.
DosePlace dose_at(const Asking& asking, std::size_t move);

/// mg of product per kg of water in the first so many pours.
std::string poured_mg_l(Asking& asking, const DosePlace& at, std::size_t pours);
/// The dose before it was split and rounded, as it is measured (g or mL).
std::string asked_amount(Asking& asking, const DosePlace& at);
/// What fresh water takes of the first sanitizer, mg/L.
std::string sanitizer_demand_node(Asking& asking);
/// Tablets: grams a day of one, days until enough has dissolved, grams of all by then.
std::string g_per_day(Asking& asking, const DosePlace& at);
std::string days_in_floater(Asking& asking, const DosePlace& at);
std::string dissolved(Asking& asking, const DosePlace& at);
/// What a mole of a component weighs in the unit of its reading.
std::string molar_mass_of(Asking& asking, const char* formula, Component component);
/// The most of one pour by its product's row, as it is measured.
std::string limit_of_pour(Asking& asking, const DosePlace& at);

}  // namespace tub::why
