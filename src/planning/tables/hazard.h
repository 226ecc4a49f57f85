// Dangerous pairs: what must never meet, and how long apart two may go into one tub.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "planning/tables/product.h"
#include "planning/tables/provenance.h"

namespace tub::planning {

/// A rule about two groups of products (or two products, by identifier).
struct HazardRule {
  std::string first;  ///< group or product
  std::string second;
  std::string code;        ///< what happens: one of known_hazard_codes()
  std::string severity;    ///< "deadly", "harmful", "spoils"
  double hours_apart = 0;  ///< in the tub; 0: one after the other fully dissolved is enough
  Provenance source;
  std::optional<Provenance> hours_source;  ///< where `hours_apart` is not 0
};

/// Two products of one shelf that a rule speaks of.
struct HazardPair {
  std::string first;
  std::string second;
  std::string code;
  std::string severity;
  double hours_apart = 0;
  std::string source;
  friend bool operator==(const HazardPair&, const HazardPair&) = default;
};

/// "chlorine_gas", "bromine_gas", "explosion", "fire", "violent_reaction", "spits", "clouds".
std::span<const std::string> known_hazard_codes();

/// Throws: Error with every fault of the text.
std::vector<HazardRule> parse_hazard_rules(std::string_view text, const std::string& file);

/// Every pair of the shelf that a rule names, the worst first; each pair with each code once.
std::vector<HazardPair> dangerous_pairs(std::span<const ShelfItem> shelf,
                                        std::span<const HazardRule> rules);

}  // namespace tub::planning
