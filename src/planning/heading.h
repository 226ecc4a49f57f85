// What a sheet prints of people and places: plain values, never looked at by the planner.
#pragma once

#include <optional>
#include <string>

#include "planning/tables/country.h"

namespace tub::planning {

struct CalendarDate {
  int year = 2000;
  int month = 1;
  int day = 1;
  friend bool operator==(const CalendarDate&, const CalendarDate&) = default;
};

/// A shop's picture, as it stands in its file.
struct Logo {
  std::string png;  ///< bytes
  int width_px = 0;
  int height_px = 0;
};

/// The units that a sheet is in.
enum class UnitSystem { metric, us };

struct Heading {
  std::optional<CalendarDate> date;  ///< none: a writing line on the sheet
  std::string prepared_for;
  std::string shop_name;
  std::string shop_phone;
  std::string shop_address;
  std::string poison_centre_name;   ///< empty: the words of the sheet's language
  std::string poison_centre_phone;  ///< empty: a writing line
  std::optional<Country> country;   ///< none: a writing line for the emergency number
  std::optional<Logo> logo;
  std::string vessel_name;
  std::string shell;                            ///< identifier
  UnitSystem weighs_in = UnitSystem::metric;    ///< grams and millilitres, or ounces
  UnitSystem measures_in = UnitSystem::metric;  ///< litres and °C, or US gallons and °F
};

}  // namespace tub::planning
