// From hazard statements to what a label shows: pictograms, signal word, precautionary statements.
#pragma once

#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "labels/rules.h"
#include "planning/tables/product.h"

namespace tub::labels {

/// A hazard statement, and what follows from it.
struct LabelHazard {
  enum class Irritation { none, skin_or_eye, skin_sensitisation };
  enum class SmallPackage { needed, trade_may_leave_out, may_leave_out };

  std::string code;       ///< "H314"
  std::string pictogram;  ///< "GHS05"; empty: none
  Product::Signal signal = Product::Signal::none;
  std::vector<std::string> covers;  ///< codes that it makes unnecessary
  Irritation irritation = Irritation::none;
  SmallPackage small_package = SmallPackage::needed;
  bool has_tactile_mark = false;    ///< a package for the public must carry one
  bool is_child_resistant = false;  ///< a package for the public must close so
  bool is_in_hazcom = true;
  std::map<std::string, int> precautions;  ///< by how much they matter; 1: always printed
};

/// A precautionary statement that makes others unnecessary.
struct PrecautionPrecedence {
  std::string statement;
  std::vector<std::string> drops;
};

/// `labels/data/label_hazards.json`, whole.
struct HazardTable {
  int most_precautions = 6;
  std::vector<std::string> supplements;  ///< EUH codes that are printed as they are
  std::vector<PrecautionPrecedence> precedence;
  std::vector<LabelHazard> hazards;  ///< in the order of a label
  std::map<std::string, Provenance> sources;

  const LabelHazard* find(std::string_view code) const;  ///< null: not in the table
};

/// Throws: Error with every fault of the text
HazardTable parse_hazards(std::string_view text, const std::string& file);

/// What a label says about hazards, as codes.
struct LabelElements {
  std::vector<std::string> pictograms;  ///< GHS codes
  Product::Signal signal = Product::Signal::none;
  std::vector<std::string> hazards;      ///< H codes
  std::vector<std::string> supplements;  ///< EUH codes
  std::vector<std::string> precautions;  ///< P codes, rising
};

/// The elements for a product with these statements, by the rules of precedence.
///
/// codes:                   H and EUH codes, as a safety data sheet lists them
/// active_chlorine_percent: by weight; 0: no chlorine product
/// Throws: Error naming each code that the table lacks, with the nearest ones it has
LabelElements label_elements(std::span<const std::string> codes, const HazardTable& table,
                             const LabelRules& rules, double active_chlorine_percent);

/// How a package must close before it may be handed to the public.
struct ClosureNeeds {
  bool tactile_mark = false;
  bool child_resistant = false;
  friend bool operator==(const ClosureNeeds&, const ClosureNeeds&) = default;
};

ClosureNeeds closure_needs(std::span<const std::string> codes, const HazardTable& table);

/// Hazard statements that a small package in the trade may leave out; none if it is not small.
std::vector<std::string> may_be_left_out(std::span<const std::string> codes,
                                         const HazardTable& table, const LabelRules& rules,
                                         double litres);

}  // namespace tub::labels
