// Why a retest shows something else than was expected: the likeliest reason, with its figure.
#pragma once

#include <optional>
#include <span>

#include "planning/reason.h"
#include "planning/retests/evidence.h"

namespace tub::planning {

/// More standard deviations than this from what was expected are said.
inline constexpr double said_deviations = 2;

/// A reading beside what was expected of it.
struct ComparedReading {
  std::size_t index = 0;  ///< among all readings of the evidence
  double found = 0;
  double expected = 0;
  double deviation = 0;  ///< standard deviation on that side, the test's included
  double deviations() const { return (found - expected) / deviation; }
  bool is_said() const;
};

struct LikelyReason {
  Reason reason;                      ///< "volume", "weak_product", …; "test_again"
  std::optional<std::size_t> source;  ///< of the evidence: what is to be given up
};

/// The likeliest reason: how often such a thing is wrong at all (`Assumptions::reasons`), times how
/// likely the readings are when it is as wrong as such things are. Its figure is the one that
/// explains the readings by itself.
///
/// Codes: volume { volume_l, low_l, high_l }, weak_product { product, share, low, high } (of its
/// label's strength), carbon_dioxide_lost { share } (of the surplus over air), demand
/// { demand_mg_l }; test_again if none explains them.
/// compared: the readings of this retest; the evidence holds them already
LikelyReason likely_reason(const Situation& situation, const Evidence& evidence,
                           std::span<const ComparedReading> compared);

}  // namespace tub::planning
