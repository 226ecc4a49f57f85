// Jobs drawn at random of which version 0.1 said what no water can have.
#include <catch2/catch.hpp>

#include "job_test.h"
#include "planning/make_plan.h"
#include "possible_plan.h"
#include "project_text.h"

using namespace tub;
using namespace tub::job;
using namespace tub::job::test;

namespace {

Plan plan_of(const std::string& name) {
  const Job job = read(project_text("tests/job/odd_jobs/" + name + ".json")).value;
  return make_plan(job.request, catalogue().planning, catalogue().species);
}

}  // namespace

TEST_CASE("plans that said pH 30 and chlorine below nothing say only what can be") {
  for (const char* name :
       {"absurd-range-1352", "accept-low-above-high-5645", "negative-alkalinity-608",
        "negative-chlorine-accept-4178", "negative-expected-1482", "negative-ph-expect-953",
        "negative-ph-range-620", "overshoot-certain-5003", "si-1214-3602"}) {
    INFO(name);
    check_possible(plan_of(name));
  }
}

TEST_CASE("pH that falls where more is poured accepts nothing: the step asks for a finer test") {
  const Plan plan = plan_of("accept-low-above-high-5645");
  bool is_asked = false;
  for (const Step& step : plan.steps) {
    if (!std::holds_alternative<Addition>(step.what) || step.test != Reading::ph) continue;
    is_asked = is_asked || (step.test_too_coarse && !step.accept.contains(Reading::ph));
  }
  CHECK(is_asked);
}

TEST_CASE("a visit without a stabiliser reading leaves pH as far as stabiliser may be") {
  const Plan plan = plan_of("absurd-range-1352");
  const Range& ph = plan.final_range.at("ph");
  CAPTURE(ph.low, ph.high);
  CHECK(ph.high < 9);
  CHECK(ph.high - ph.low < 1.5);
}
