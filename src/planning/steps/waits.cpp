#include "planning/steps/waits.h"

#include <algorithm>
#include <string>

namespace tub::planning {
namespace {

double hours_apart(const std::string& a, const std::string& b,
                   const std::vector<HazardPair>& hazards) {
  double hours = 0;
  for (const HazardPair& pair : hazards) {
    if ((pair.first == a && pair.second == b) || (pair.first == b && pair.second == a)) {
      hours = std::max(hours, pair.hours_apart);
    }
  }
  return hours;
}

/// Whichever pour of the step is the last, so long passes at least until the next step.
double least_wait(const Addition& addition) {
  double least = addition.portions.front().wait_minutes;
  for (const Portion& portion : addition.portions) least = std::min(least, portion.wait_minutes);
  return least;
}

/// The additions of a plan in order, those that can be waited on.
std::vector<Step*> additions_in(std::vector<Step>& steps) {
  std::vector<Step*> found;
  for (Step& step : steps) {
    const auto* addition = std::get_if<Addition>(&step.what);
    if (addition != nullptr && !addition->portions.empty()) found.push_back(&step);
  }
  return found;
}

Addition& addition_of(Step* step) { return std::get<Addition>(step->what); }

/// Minutes that are missing between the last pour of `partner` and the first of `later`.
double missing_minutes(const std::vector<Step*>& steps, std::size_t partner, std::size_t later,
                       double hours) {
  double elapsed = least_wait(addition_of(steps[partner]));
  for (std::size_t i = partner + 1; i < later; ++i) {
    elapsed += addition_of(steps[i]).portions.front().wait_minutes;
  }
  return hours * 60 - elapsed;
}

/// Of a step between, the first pour is always made; of the partner itself any pour may be the
/// last.
void lengthen(Step* before, bool is_partner, double minutes) {
  Addition& addition = addition_of(before);
  for (Portion& portion : addition.portions) {
    if (is_partner || &portion == &addition.portions.front()) portion.wait_minutes += minutes;
  }
}

}  // namespace

void wait_for_partners(std::vector<Step>& steps, const std::vector<HazardPair>& hazards) {
  const std::vector<Step*> additions = additions_in(steps);
  for (std::size_t later = 1; later < additions.size(); ++later) {
    const std::string& product = addition_of(additions[later]).product;
    for (std::size_t partner = 0; partner < later; ++partner) {
      const std::string& other = addition_of(additions[partner]).product;
      const double hours = hours_apart(product, other, hazards);
      const double missing = missing_minutes(additions, partner, later, hours);
      if (hours <= 0 || missing <= 0) continue;
      Step* before = additions[later - 1];
      lengthen(before, partner == later - 1, missing);
      before->notes.push_back({"waits_before_next",
                               {{"next_step", static_cast<double>(additions[later]->number)},
                                {"product", product},
                                {"partner", other},
                                {"hours_apart", hours}}});
    }
  }
}

}  // namespace tub::planning
