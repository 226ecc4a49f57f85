// What may lie behind a reading that is far off, and how likely each is before anybody has tested.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/interval.h"
#include "base/node.h"
#include "planning/tables/provenance.h"

namespace tub::planning {

/// A row of "reasons" in `planning/data/assumptions.json`.
struct ReasonPrior {
  std::string reason;                 ///< "volume", "weak_product", "carbon_dioxide_lost", "demand"
  std::vector<std::string> products;  ///< of weak_product: those that the row is about
  double often = 0;                   ///< share of tubs, or of packages, in which it is so
  double how_far = 0;  ///< where it is so, nine in ten are off by less; in `unit`, from as planned
  std::string unit;    ///< "share", "mg/L as Cl2", …
  /// Figures outside are no such reason: of a volume as planned with over judged, else in `unit`.
  Range plausible;
  double known_to = 0;  ///< what is known less closely explains nothing: 90 %, a share; 0: any
  Provenance source;
};

/// Reads the list; what is wrong with it becomes problems of the node.
std::vector<ReasonPrior> read_reason_priors(const Node& table);

/// The row of a reason; of a product where the reason is about one. Null: it is never suspected.
const ReasonPrior* prior_of(std::span<const ReasonPrior> rows, std::string_view reason,
                            std::string_view product = "");

}  // namespace tub::planning
