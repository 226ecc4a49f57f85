// Every range, expectation, band and chance of a plan is one that its quantity can take, over jobs
// drawn at random: the usual ones and wide ones.
#include <catch2/catch.hpp>
#include <functional>

#include "base/error.h"
#include "planning/make_plan.h"
#include "possible_plan.h"
#include "random_job.h"
#include "sample_job.h"
#include "wide_job.h"

namespace tub::planning {
namespace {

void check_jobs(const std::function<PlanRequest(std::uint64_t)>& request_of, std::uint64_t few) {
  const std::uint64_t count = law_jobs(few);
  for (std::uint64_t seed = 0; seed < count; ++seed) {
    CAPTURE(seed);
    try {
      check_possible(planned(request_of(seed)));
    } catch (const Error& error) {
      FAIL_CHECK("no plan: " << error.diagnostics().front().message);
    }
  }
}

}  // namespace

TEST_CASE("every range, band and chance of a plan is one that its quantity can take", "[laws]") {
  check_jobs(random_request, 150);
}

TEST_CASE("so it is where a job is as wide as a job may be", "[laws]") {
  check_jobs(wide_request, 150);
}

}  // namespace tub::planning
