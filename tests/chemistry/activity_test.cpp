// The constants behind activity coefficients, against handbook tables.
#include "chemistry/activity.h"

#include <catch2/catch.hpp>
#include <cmath>
#include <utility>

using namespace tub;
using namespace tub::chemistry;

TEST_CASE("Debye and Hückel's B agrees with Freeze & Cherry") {
  // Freeze & Cherry 1979, Groundwater, appendix IV: B in 1e8 per cm.
  const std::pair<double, double> table[] = {{0, 0.3241},  {5, 0.3249},  {10, 0.3258},
                                             {20, 0.3273}, {25, 0.3281}, {30, 0.3290},
                                             {40, 0.3305}, {50, 0.3321}};
  for (const auto& [at_c, b] : table)
    CHECK(debye_hueckel(celsius(at_c)).b == Approx(b).margin(0.0009));
}

TEST_CASE("Debye and Hückel's A agrees with Standard Methods 2330") {
  // Table of precalculated values (from memory).
  const std::pair<double, double> table[] = {{5, 0.494},  {10, 0.498}, {15, 0.502}, {20, 0.506},
                                             {25, 0.511}, {30, 0.515}, {35, 0.520}, {40, 0.526}};
  for (const auto& [at_c, a] : table)
    CHECK(debye_hueckel(celsius(at_c)).a == Approx(a).margin(0.002));
}

TEST_CASE("water is densest near 4 °C") {
  // 0.99705 kg/L at 25 °C: any handbook.
  CHECK(water_density(celsius(25)) == Approx(0.99705).margin(1e-5));
  CHECK(water_density(celsius(4)) > water_density(celsius(0)));
  CHECK(water_density(celsius(4)) > water_density(celsius(8)));
}

TEST_CASE("the slope of an activity coefficient is its derivative") {
  const DebyeHueckel constants = debye_hueckel(celsius(30));
  const ActivityModel models[] = {{ActivityModel::Kind::ion_size, 5, 0.165},
                                  {ActivityModel::Kind::davies, 0, 0},
                                  {ActivityModel::Kind::neutral, 0, 0.1}};
  for (const ActivityModel& model : models)
    for (const double strength : {0.001, 0.02, 0.1}) {
      const double h = 1e-6;
      const auto at = [&](double i) { return log_gamma(model, 2, medium(constants, i)).value; };
      CHECK(log_gamma(model, 2, medium(constants, strength)).slope ==
            Approx((at(strength + h) - at(strength - h)) / (2 * h)).epsilon(1e-4));
    }
}
