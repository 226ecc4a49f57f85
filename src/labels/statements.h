// The words of hazard and precautionary statements in each language.
#pragma once

#include <map>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.h"
#include "planning/tables/product.h"

namespace tub::labels {

/// The law whose words a statement has.
enum class StatementLaw { clp, hazcom };

/// What a statement's words depend on.
struct StatementVoice {
  std::string language = "en";
  StatementLaw law = StatementLaw::clp;
  Form form = Form::granules;  ///< dust of granules and tablets, vapour of liquids
  /// Parts of the protection: "gloves", "clothing", "eyes", "face"; for P280, at least one.
  std::vector<std::string> protection;
};

/// `labels/data/label_statements.json`, whole: no solidus, bracket or ellipsis in any text.
class LabelStatements {
 public:
  /// Throws: Error with every fault of the text, a missing language included
  static LabelStatements parse(std::string_view text, const std::string& file);

  /// The words of a statement.
  ///
  /// Throws: Error if there is no such code or language, with the nearest
  std::string text(std::string_view code, const StatementVoice& voice) const;

  /// "Danger", "Achtung". REQUIRES: a signal that is not none
  std::string signal_word(Product::Signal signal, const std::string& language) const;

  std::vector<std::string> codes() const;  ///< all that `text` knows, P280 included

 private:
  using Texts = std::map<std::string, std::string>;  ///< by language, and "hazcom"
  friend class StatementReader;

  std::string protection_text(const StatementVoice& voice) const;

  std::map<std::string, Texts> statements_;  ///< by code, and by code and form: "P260 dust"
  std::map<std::string, Texts> protection_;
  Texts danger_;
  Texts warning_;
};

/// The parts of a P280 for a product's signs: "gloves" and "acid_gloves" are gloves, "goggles"
/// eyes, "face_shield" face, "apron" clothing.
std::vector<std::string> protection_parts(std::span<const std::string> signs);

}  // namespace tub::labels
