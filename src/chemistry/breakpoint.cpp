#include "chemistry/breakpoint.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/error.h"

namespace tub::chemistry {

double combined_chlorine_mg_l(double total_chlorine_mg_l, double free_chlorine_mg_l) {
  if (!(free_chlorine_mg_l >= 0 && free_chlorine_mg_l <= total_chlorine_mg_l))
    throw Error(Diagnostic{fmt::format("free chlorine of {} mg/L is not within a total of {} mg/L",
                                       free_chlorine_mg_l, total_chlorine_mg_l),
                           "",
                           {},
                           "test both again"});
  return total_chlorine_mg_l - free_chlorine_mg_l;
}

double ten_times_combined_mg_l(double combined_chlorine_mg_l) {
  return 10 * combined_chlorine_mg_l;
}

double ten_times_combined_less_free_mg_l(double combined_chlorine_mg_l, double free_chlorine_mg_l) {
  return std::max(0.0, 10 * combined_chlorine_mg_l - free_chlorine_mg_l);
}

double stoichiometric_breakpoint_mg_l(double combined_chlorine_mg_l) {
  return 0.5 * combined_chlorine_mg_l;
}

}  // namespace tub::chemistry
