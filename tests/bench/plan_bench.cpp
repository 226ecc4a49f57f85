// Times of plans over seeded random jobs. Usage: plan_bench [count [first seed]]
#include <sys/resource.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <ctime>
#include <map>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "base/error.h"
#include "planning/make_plan.h"
#include "random_job.h"
#include "sample_job.h"

namespace {

using namespace tub;

struct Timed {
  std::uint64_t seed = 0;
  double milliseconds = 0;
  bool is_met = false;
  bool has_choice = false;  ///< of a second source: one plan for each share of it that is tried
  std::string sanitizer;
};

/// Of this thread on the processor: other programs on the machine do not count.
double processor_milliseconds() {
  timespec now{};
  clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) * 1e3 + static_cast<double>(now.tv_nsec) * 1e-6;
}

Timed timed(std::uint64_t seed) {
  const PlanRequest request = random_request(seed);
  const double begin = processor_milliseconds();
  const Plan plan = make_plan(request, planning_data(), species_table());
  return {seed, processor_milliseconds() - begin, plan.unmet.empty(),
          request.second_source.has_value(), request.sanitizer.kind};
}

/// The time that a share of the plans stays within. REQUIRES: in order, not empty
const Timed& at_share(const std::vector<Timed>& all, double share) {
  const auto place = static_cast<std::size_t>(share * static_cast<double>(all.size()));
  return all[std::min(place, all.size() - 1)];
}

void print(const std::string& name, std::vector<Timed> all) {
  if (all.empty()) return;
  std::sort(all.begin(), all.end(),
            [](const Timed& a, const Timed& b) { return a.milliseconds < b.milliseconds; });
  fmt::print("{:<26} {:>6} plans: median {:6.2f} ms, 99 % {:6.2f}, worst {:6.2f} (seed {})\n", name,
             all.size(), at_share(all, 0.5).milliseconds, at_share(all, 0.99).milliseconds,
             all.back().milliseconds, all.back().seed);
}

void print_all(const std::vector<Timed>& all) {
  std::map<std::string, std::vector<Timed>> groups;
  for (const Timed& one : all) {
    groups[one.sanitizer].push_back(one);
    groups[one.has_choice ? "(two sources)" : "(one source)"].push_back(one);
    groups[one.is_met ? "(everything met)" : "(something unmet)"].push_back(one);
  }
  for (const auto& [name, some] : groups) print(name, some);
  print("all", all);
  rusage used{};
  getrusage(RUSAGE_SELF, &used);
  fmt::print("peak memory {} KiB\n", used.ru_maxrss);
}

}  // namespace

int main(int count, char** words) {
  try {
    const auto wanted = static_cast<std::uint64_t>(count > 1 ? std::atol(words[1]) : 5000);
    const auto first = static_cast<std::uint64_t>(count > 2 ? std::atol(words[2]) : 0);
    timed(first);  // reads the data, and warms up
    std::vector<Timed> all;
    for (std::uint64_t seed = first; seed < first + wanted; ++seed) all.push_back(timed(seed));
    print_all(all);
    return 0;
  } catch (const Error& error) {
    fmt::print("{}", error.what());
    return 3;
  }
}
