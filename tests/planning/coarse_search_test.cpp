// What the planner calls out of reach, a plain search over the shelf does not reach either.
#include "coarse_search.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "base/error.h"
#include "planning/make_plan.h"
#include "planning/pours/measured_draft.h"
#include "planning/water/start_water.h"
#include "random_job.h"
#include "sample_job.h"

namespace tub::planning {

TEST_CASE("what a plan leaves unmet, no coarse search over the shelf meets") {
  int searched = 0;
  for (std::uint64_t seed = 0; searched < 12; ++seed) {
    const PlanRequest request = random_request(seed);
    const Situation situation(request, planning_data(), species_table());
    const Score planned = score(situation, solved_draft(situation));
    if (planned.unsafe + planned.unmet + planned.unmet_hardness == 0) continue;
    ++searched;
    const CoarseBest best = coarse_best(situation);
    CAPTURE(seed, planned.unsafe, planned.unmet, best.score.unsafe, best.score.unmet);
    CHECK_FALSE(meets_more(best.score, planned));
  }
}

TEST_CASE("water with next to no alkalinity reaches its bands wherever a coarse search does") {
  int reached = 0;
  int left_out = 0;
  for (const char* measure : {"grams", "grams_and_us_spoons", "ounces"}) {
    for (const double alkalinity : {0.0, 0.3, 1.0, 4.0}) {
      for (const double ph : {5.5, 6.5, 7.5, 8.5}) {
        PlanRequest request = request_for_water(ph, alkalinity, 10);
        request.measure = measure_system(measure);
        CAPTURE(measure, alkalinity, ph);
        try {
          start_water(request.water, planning_data(), species_table());
        } catch (const Error&) {
          continue;  // no such water: alkalinity that the pH forbids
        }
        const Situation situation(request, planning_data(), species_table());
        const Score drafted = score(situation, measured_draft(situation));
        if (drafted.unsafe + drafted.unmet == 0) ++reached;
        const Plan plan = planned(request);
        const bool is_left_out = std::any_of(
            plan.unmet.begin(), plan.unmet.end(),
            [](const Unmet& unmet) { return unmet.reason.code == "pour_would_overshoot"; });
        left_out += is_left_out ? 1 : 0;
        // The search does not ask how likely a pour goes too far.
        if (drafted.unsafe + drafted.unmet > 0 && !is_left_out) {
          CHECK_FALSE(meets_more(coarse_best(situation).score, drafted));
        }
      }
    }
  }
  CHECK(reached + left_out >= 40);
  CHECK(left_out < 10);
}

TEST_CASE("water of no alkalinity in a small tub, weighed in ounces, does not end at 35 mg/L") {
  PlanRequest request = request_for_water(7.0, 0, 10);
  request.tub.volume_l = 150;
  request.measure = measure_system("ounces");
  const Plan plan = planned(request);
  CHECK(plan.final.total_alkalinity_mg_l >= 100);
  CHECK(plan.unmet.empty());
}

}  // namespace tub::planning
