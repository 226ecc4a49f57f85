// A container of a product, as a label names it: plain values, never looked at by the planner.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "planning/heading.h"
#include "planning/tables/product.h"

namespace tub::planning {

struct Package {
  /// Where the container goes. An owner's package keeps its maker's label.
  enum class Stays { with_owner, in_trade, in_workplace };

  std::string product;                ///< identifier
  Product as_labelled;                ///< at its label's strength, with its own hazard statements
  std::optional<double> contents_g;   ///< what is in it
  std::optional<double> contents_ml;  ///< liquids
  double capacity_ml = 0;             ///< what it can hold; rules go by it
  std::string maker_label_name;
  std::map<std::string, std::string> supplier;  ///< "name", "address", "phone"; empty: the shop
  std::string supplier_where;  ///< where the supplier's line is given, for messages
  std::string lot;
  std::optional<CalendarDate> made_on;
  std::optional<CalendarDate> use_by;
  std::string ufi;            ///< unique formula identifier
  std::string authorisation;  ///< number of a registration or an authorisation
  std::string emergency_phone;
  Stays stays = Stays::with_owner;
  bool has_own_strength = false;    ///< the job gives it
  bool has_own_statements = false;  ///< the job gives the codes of its safety data sheet
  std::string where;                ///< for messages
};

}  // namespace tub::planning
