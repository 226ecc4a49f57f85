// Substances with their harmonised classification, and the hazard statements of a package.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "planning/tables/provenance.h"

namespace tub::labels {

/// From and below which percentage by weight a hazard statement holds.
struct ConcentrationLimit {
  std::string code;
  std::string hazard_class;  ///< "Skin Corr. 1B"; empty for EUH codes
  double from_percent = 0;
  std::optional<double> below_percent;
};

struct HarmonisedClass {
  std::string hazard_class;  ///< "Acute Tox. 4 *": the star is the entry's, a minimum
  std::string code;          ///< "H302"
};

/// A row of `labels/data/classified_substances.json`.
struct ClassifiedSubstance {
  std::string id;
  std::string product;  ///< of `planning/data/products.json`; empty: none there
  std::string name;
  std::string cas;
  std::string ec;
  std::string index_no;  ///< of CLP Annex VI; empty: no entry of its own
  std::string index_name;
  std::vector<HarmonisedClass> classification;
  std::vector<std::string> supplements;
  std::vector<ConcentrationLimit> limits;
  std::vector<int> m_factors;
  std::vector<std::string> notes;
  bool is_solution = false;             ///< the entry speaks through its limits only
  std::optional<double> grade_percent;  ///< the strength from which a package is the substance
  std::string grade_basis;              ///< "% w/w as Cl2"
  std::string read_across;              ///< the row whose classification it shares
  Provenance source;
};

/// Throws: Error with every fault of the text
std::vector<ClassifiedSubstance> parse_substances(std::string_view text, const std::string& file);

/// The strength of a package, as its label gives it.
struct PackageStrength {
  double percent = 0;
  std::string basis;               ///< "% w/w as HCl"
  double mass_percent_active = 0;  ///< grams of the pure substance in 100 g
};

/// The H and EUH codes of a product by its harmonised entry.
///
/// product:  identifier
/// strength: absent: the usual commercial grade; a solution's must be given. Below the row's grade,
///           or 90 % of the substance where it has none (an assumption), a package is a mixture
/// Throws: Error, never a guess, if there is no entry, or it says nothing of that strength: the
///         codes of the package's safety data sheet are asked for
std::vector<std::string> harmonised_codes(const std::vector<ClassifiedSubstance>& substances,
                                          std::string_view product,
                                          const std::optional<PackageStrength>& strength);

}  // namespace tub::labels
