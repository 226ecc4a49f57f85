// The rules for container labels, and what of a finished label breaks them.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.h"
#include "document/label_measures.h"
#include "planning/tables/provenance.h"

namespace tub::labels {

/// What a label must measure on packages up to a volume.
struct LabelSize {
  std::optional<double> to_litres;  ///< absent on the last row
  double short_side_mm = 0;
  double long_side_mm = 0;
  bool is_if_possible = false;  ///< the label's size; a smaller one is warned of
  double pictogram_mm = 0;      ///< least side of the red square
  std::optional<double> pictogram_preferred_mm;
  double x_height_mm = 0;
};

/// A statement that every label of a chlorine product carries above a strength.
struct LabelSupplement {
  std::string statement;
  double active_chlorine_above_percent = 0;
};

/// One set of rules: "clp" or "hazcom".
struct LabelRules {
  std::string id;
  std::vector<LabelSize> sizes;  ///< by rising volume
  double line_distance = 0;      ///< least, in sizes of the type
  double contrast = 0;           ///< least, to 1
  bool is_frame_red = true;
  bool are_empty_frames_allowed = false;
  bool has_environment = true;         ///< hazards to the environment are part of the label
  std::vector<std::string> languages;  ///< that must be on it; empty: any
  std::vector<std::string> supplier;   ///< parts that must be there: "name", "address", "phone"
  double small_package_ml = 0;         ///< up to it, some statements may be left out; 0: never
  std::vector<LabelSupplement> supplements;
  std::map<std::string, Provenance> sources;  ///< by field: "sizes", "x_height", …

  /// The row for a package. REQUIRES: litres above 0
  const LabelSize& size_for(double litres) const;
};

/// Every set of `labels/data/label_rules.json`. Throws: Error with every fault of the text.
std::vector<LabelRules> parse_label_rules(std::string_view text, const std::string& file);

/// The set of that name. Throws: Error with the nearest name if there is none, or none was named
const LabelRules& label_rules_named(const std::vector<LabelRules>& sets, std::string_view id);

/// What is wrong with a label, and what could be better.
struct LabelFindings {
  std::vector<Diagnostic> broken;    ///< rules: with the figure, and the size that would do
  std::vector<Diagnostic> warnings;  ///< rules worded "if possible"
};

/// Holds a finished label against the rules for a package of that volume.
LabelFindings check_label(const LabelMeasures& label, const LabelRules& rules, double litres);

/// What of the supplier's line the rules demand and is empty: "address", say.
std::vector<std::string> missing_of_supplier(const std::map<std::string, std::string>& supplier,
                                             const LabelRules& rules);

}  // namespace tub::labels
