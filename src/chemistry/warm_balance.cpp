#include "chemistry/warm_balance.h"

#include "base/error.h"

namespace tub::chemistry {

const MassBalance& WarmBalance::solved(const Water& water, std::span<const Imposed> imposed) {
  try {
    prepare(water, imposed);
    steps_ = solve(*balance_);
  } catch (const Error&) {
    balance_.reset();  // where it stopped is no place to start from
    throw;
  }
  return *balance_;
}

void WarmBalance::prepare(const Water& water, std::span<const Imposed> imposed) {
  if (!balance_) {
    balance_.emplace(water, *table_, imposed);
    balance_->start_from_scratch();
  } else if (!balance_->retake(water)) {
    const Speciation near = balance_->result(0);
    balance_.emplace(water, *table_, imposed);
    balance_->start_near(near);
  }
  for (const Imposed& given : imposed) balance_->log_activity(given.component) = given.log_activity;
}

}  // namespace tub::chemistry
