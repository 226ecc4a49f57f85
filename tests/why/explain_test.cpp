#include "why/explain.h"

#include <fmt/format.h>

#include <algorithm>
#include <catch2/catch.hpp>

#include "../planning/random_job.h"
#include "../planning/sample_job.h"
#include "base/error.h"
#include "why/asking.h"
#include "why/equations.h"

namespace tub::why {
namespace {

const Catalogue& catalogue() {
  static const Catalogue all = {planning_data(), species_table(), {}, {}, {}, {}};
  return all;
}

/// A job that was never a file: the slip's and the vessel's figures stand for themselves.
Job job_of(const PlanRequest& request) {
  Job job;
  job.request = request;
  job.whole = "{}";
  return job;
}

Plan plan_for(const Job& job) { return make_plan(job.request, planning_data(), species_table()); }

/// What is wrong with a node: an equation that gives another value, no ground to stand on.
std::optional<std::string> fault_of(const Node& node, const Chain& chain) {
  const auto found = worked_out(node, chain);
  if (found && !agrees(node.value, *found)) {
    return fmt::format("{} states {}, {} of its inputs gives {}", node.id, node.value,
                       node.equation, *found);
  }
  if (node.inputs.empty() && !node.origin) return node.id + " rests on nothing: " + node.equation;
  if (node.origin && !node.inputs.empty()) return node.id + " is a ground with inputs";
  return node.name.empty() ? std::optional(node.id + " has no name") : std::nullopt;
}

/// Every number of a plan, each with its whole chain.
std::vector<std::string> faults_of_all(const Job& job, std::size_t& numbers) {
  const Plan plan = plan_for(job);
  Asking asking(job, catalogue(), plan);
  std::vector<std::string> faults;
  for (const std::string& pointer : asking.in_plan().numbers()) {
    ++numbers;
    try {
      asking.ask(pointer);
    } catch (const Error& error) {
      faults.push_back(error.what());
      continue;
    }
    if (asking.value(pointer) != *asking.in_plan().number(pointer)) {
      faults.push_back(pointer + " has another value");
    }
  }
  for (const auto& [id, node] : asking.chain().nodes()) {
    if (const auto fault = fault_of(node, asking.chain())) faults.push_back(*fault);
  }
  return faults;
}

}  // namespace

TEST_CASE("every number of the sample plan is explained down to its grounds") {
  std::size_t numbers = 0;
  const auto faults = faults_of_all(job_of(sample_request()), numbers);
  CHECK(numbers > 300);
  for (const std::string& fault : faults) FAIL_CHECK(fault);
}

TEST_CASE("every number of plans for random jobs is explained down to its grounds") {
  std::size_t numbers = 0;
  for (std::uint64_t seed = 1; seed <= 80; ++seed) {
    for (const std::string& fault : faults_of_all(job_of(random_request(seed)), numbers)) {
      FAIL_CHECK("seed " << seed << ": " << fault);
    }
  }
  CHECK(numbers > 20000);
}

TEST_CASE("every number of a plan that goes on after retests is explained") {
  PlanRequest request = sample_request();
  RetestReport alkalinity;
  alkalinity.after_step = 3;
  alkalinity.after_pour = 1;
  alkalinity.readings["total_alkalinity_mg_l"] = {130, "drop_kit"};
  alkalinity.where = "job.json: /readings/0";
  RetestReport ph;
  ph.after_step = 4;
  ph.readings["ph"] = {7.9, "photometer"};
  ph.where = "job.json: /readings/1";
  request.retests = {alkalinity, ph};
  std::size_t numbers = 0;
  for (const std::string& fault : faults_of_all(job_of(request), numbers)) FAIL_CHECK(fault);
  CHECK(numbers > 300);
}

TEST_CASE("how sure combined chlorine is rests on the row of the test that read it") {
  PlanRequest request = sample_request();
  request.water.readings["total_chlorine_mg_l"] = {2.5, "strip"};
  const auto rests_on = [&](const std::string& ground) {
    const Job job = job_of(request);
    const Plan plan = plan_for(job);
    Asking asking(job, catalogue(), plan);
    asking.ask("/final_range/combined_chlorine_mg_l/high");
    const auto& nodes = asking.chain().nodes();
    return std::any_of(nodes.begin(), nodes.end(), [&](const auto& node) {
      return node.first.find(ground) != std::string::npos;
    });
  };
  CHECK(rests_on("test_methods.json: strip/free_chlorine at 2.5"));
  request.water.readings["free_chlorine_mg_l"] = {1, "strip"};
  CHECK(rests_on("test_methods.json: strip/combined_chlorine at 2.5"));
}

TEST_CASE("a pointer to nothing names the nearest numbers") {
  const Job job = job_of(sample_request());
  const Plan plan = plan_for(job);
  try {
    explain("/steps/3/amount_gg", job, catalogue(), plan);
    FAIL("nothing was thrown");
  } catch (const Error& error) {
    CHECK(error.fault() == Fault::command_line);
    CHECK(error.diagnostics().front().help.find("/steps/3/amount_g") != std::string::npos);
  }
}

}  // namespace tub::why
