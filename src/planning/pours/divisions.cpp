#include "planning/pours/divisions.h"

#include <cmath>

namespace tub::planning {
namespace {

// A count within this of a whole number is that number: readings have at most four digits.
constexpr double slack = 1e-9;

}  // namespace

double divisions(double count, double division) { return std::round(count * division * 1e6) / 1e6; }

double division_down(double value, double division) {
  return divisions(std::floor(value / division + slack), division);
}

double division_up(double value, double division) {
  return divisions(std::ceil(value / division - slack), division);
}

double division_nearest(double value, double division) {
  return divisions(std::floor(value / division + 0.5 + slack), division);
}

}  // namespace tub::planning
