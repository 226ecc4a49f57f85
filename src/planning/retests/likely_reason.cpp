#include "planning/retests/likely_reason.h"

#include <algorithm>
#include <cmath>

#include "planning/goals/sanitizer.h"

namespace tub::planning {
namespace {

using Kind = TakenForGranted::Kind;

struct Suspect {
  std::size_t source = 0;
  double log_odds = 0;  ///< up to what is the same for all
};

/// A source's own likelihood; one that never goes below 0 has all its chance above.
double log_likelihood_if_wrong(const Evidence& evidence, std::size_t source) {
  const Estimate estimate = evidence.estimate_if_wrong(source);
  double result = estimate.log_likelihood;
  if (evidence.sources()[source].only_more) {
    const double z = estimate.values[source] / estimate.deviation(source);
    result += std::log(2 * normal_share_below(z));
  }
  return result;
}

std::vector<Suspect> suspects_of(const Evidence& evidence) {
  const double nothing_wrong = evidence.estimate().log_likelihood;
  std::vector<Suspect> suspects;
  for (std::size_t i = 0; i < evidence.sources().size(); ++i) {
    const ReasonPrior* const prior = evidence.sources()[i].prior;
    if (prior == nullptr || evidence.is_given_up(i)) continue;
    if (!evidence.has_effect(evidence.sources()[i])) continue;
    const double likelihood = log_likelihood_if_wrong(evidence, i);
    if (likelihood > nothing_wrong) suspects.push_back({i, likelihood + std::log(prior->often)});
  }
  std::stable_sort(suspects.begin(), suspects.end(),
                   [](const Suspect& a, const Suspect& b) { return a.log_odds > b.log_odds; });
  return suspects;
}

bool explains(const Estimate& estimate, std::span<const ComparedReading> compared) {
  return std::all_of(compared.begin(), compared.end(), [&](const ComparedReading& one) {
    return std::abs(one.found - estimate.readings[one.index]) <= said_deviations * one.deviation;
  });
}

bool is_plausible(const TakenForGranted& source, double value, double deviation) {
  const ReasonPrior& prior = *source.prior;
  const double figure = source.kind == Kind::volume ? 1 + value : value;
  if (prior.known_to > 0 && z_90 * deviation > prior.known_to * figure) return false;
  if (source.only_more && deviation > value) return false;  // as likely as not there is no loss
  return prior.plausible.holds(figure);
}

/// Shares stay between none and all.
Reason weak_product(const std::string& product, double loss, double half_width) {
  return {"weak_product",
          {{"product", product},
           {"share", 1 - loss},
           {"low", std::max(0.0, 1 - loss - half_width)},
           {"high", std::min(1.0, 1 - loss + half_width)}}};
}

Reason reason_from(const Situation& situation, const Evidence& evidence, std::size_t source,
                   const Estimate& estimate) {
  const TakenForGranted& one = evidence.sources()[source];
  const double value = estimate.values[source];
  const double half_width = z_90 * estimate.deviation(source);
  if (one.kind == Kind::volume) {
    const double volume = situation.request.tub.volume_l;
    return {"volume",
            {{"volume_l", volume / (1 + value)},
             {"low_l", volume / (1 + value + half_width)},
             {"high_l", volume / (1 + value - half_width)}}};
  }
  if (one.kind == Kind::loss) {
    return weak_product(situation.supplies()[one.index].product().id, value, half_width);
  }
  if (one.kind == Kind::carbon_dioxide) {
    return {"carbon_dioxide_lost",
            {{"share", 1 - std::pow(1 - value, evidence.history().waits(one.index))}}};
  }
  return {"demand", {{"demand_mg_l", sanitizer_demand(situation) + value}}};
}

}  // namespace

bool ComparedReading::is_said() const { return std::abs(deviations()) > said_deviations; }

LikelyReason likely_reason(const Situation& situation, const Evidence& evidence,
                           std::span<const ComparedReading> compared) {
  for (const Suspect& suspect : suspects_of(evidence)) {
    const Estimate estimate = evidence.estimate_if_unknown(suspect.source);
    const double value = estimate.values[suspect.source];
    const TakenForGranted& source = evidence.sources()[suspect.source];
    if (!is_plausible(source, value, estimate.deviation(suspect.source))) continue;
    if (!explains(estimate, compared)) continue;
    return {reason_from(situation, evidence, suspect.source, estimate), suspect.source};
  }
  return {{"test_again", {}}, std::nullopt};
}

}  // namespace tub::planning
