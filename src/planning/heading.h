// What a sheet prints of people and places: plain values, never looked at by the planner.
#pragma once

#include <optional>
#include <string>

namespace tub {

struct CalendarDate {
  int year = 2000;
  int month = 1;
  int day = 1;
  friend bool operator==(const CalendarDate&, const CalendarDate&) = default;
};

struct Heading {
  std::optional<CalendarDate> date;  ///< none: a writing line on the sheet
  std::string prepared_for;
  std::string shop_name;
  std::string shop_phone;
  std::string shop_address;
  std::string logo_png;  ///< bytes; empty: none
  std::string vessel_name;
  std::string shell;  ///< identifier
};

}  // namespace tub
