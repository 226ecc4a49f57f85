// What the planner calls out of reach, a plain search over the shelf does not reach either.
#include "coarse_search.h"

#include <catch2/catch.hpp>

#include "planning/measured_draft.h"
#include "random_job.h"
#include "sample_job.h"

namespace tub {

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

}  // namespace tub
