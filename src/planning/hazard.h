// Dangerous pairs: what must never meet, and how long apart two may go into one tub.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "planning/product.h"

namespace tub {

/// A rule about two groups of products (or two products, by identifier).
struct HazardRule {
  std::string first;  ///< group or product
  std::string second;
  std::string code;        ///< what happens: "chlorine_gas", "fire", "explosion", "clouds", …
  std::string severity;    ///< "deadly", "harmful", "spoils"
  double hours_apart = 0;  ///< in the tub; 0: one after the other fully dissolved is enough
  std::string source;
  bool from_memory = false;
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

std::vector<HazardRule> parse_hazard_rules(std::string_view text, const std::string& file);

/// Every pair of the shelf that a rule names, the worst first; each pair with each code once.
std::vector<HazardPair> dangerous_pairs(std::span<const ShelfItem> shelf,
                                        std::span<const HazardRule> rules);

}  // namespace tub
