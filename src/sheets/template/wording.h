// Quantities, readings and reasons in the words of one language.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "document/words.h"
#include "planning/plan.h"
#include "planning/reading.h"
#include "sheets/template/messages.h"
#include "sheets/template/sheet_sources.h"

namespace tub::sheets {

/// Says the parts of one plan in one language. What it refers to outlives it.
class Wording {
 public:
  Wording(const SheetSources& sources, const Messages& messages);

  const Messages& messages() const { return *messages_; }
  const Plan& plan() const { return sources_->plan; }
  const SheetSources& sources() const { return *sources_; }
  const Product& product(const std::string& id) const;

  std::string product_name(const std::string& id) const;     ///< "Dry acid"
  std::string product_in_text(const std::string& id) const;  ///< "dry acid"
  std::string reading_name(Reading reading) const;           ///< "Alkalinity"
  std::string short_reading_name(Reading reading) const;     ///< "Alkalinity", for small tags
  std::string reading_in_text(Reading reading) const;        ///< "alkalinity"
  std::string reading_unit(Reading reading) const;           ///< "mg/L CaCO₃"; empty for pH
  /// The country's emergency number, or the commonest two with a line to write on.
  Words emergency() const;

  std::string value(Reading reading, double value) const;     ///< "7.4", no unit
  std::string measured(Reading reading, double value) const;  ///< as the owner's test showed it
  std::string range(Reading reading, Range range) const;      ///< "7.4–7.6"
  std::string limits(Reading reading, const Limits& limits) const;  ///< "7.4–7.6", "150 or less"
  /// The predicted range, its ends rounded away from each other.
  Range printed_range(Reading reading, Range range) const;

  /// What a portion measures out: "90 g" and "6 level tablespoons".
  Amount amount(const Portion& portion, const std::string& product) const;
  /// The same with the spoons' short names, which labels and set-in pours have room for.
  Amount label_amount(const Portion& portion, const std::string& product) const;
  bool has_spoons(const Portion& portion) const;

  std::string volume(double litres) const;          ///< "1340 L" or "354 US gal"
  std::string other_volume(double litres) const;    ///< in the other of the two units
  std::string rounded_volume(double litres) const;  ///< to two figures, tens from 100 on
  std::string temperature(double celsius) const;
  std::string duration(double minutes) const;  ///< "20 min", "2 h", "1½ h"
  /// Rounded up to half hours, from 12 hours on to hours, from 48 on to days: "1½ h".
  std::string about(double hours) const;
  std::string at_least(double hours) const;        ///< rounded down to half hours, one at least
  std::string hours(const Interval& hours) const;  ///< "½–4 h"
  std::string percent(double share) const;
  std::string rounded_percent(double share) const;    ///< whole percents
  std::string percents(Range shares) const;           ///< "13–25 %", "0.4–1.6 %"
  std::string grams(double grams) const;              ///< in the plan's own unit
  std::string millilitres(double millilitres) const;  ///< the same
  std::string count(double number) const;
  /// A code's words, its parameters said by what their names end in.
  Words reason(const Reason& reason, std::string_view group) const;
  /// One parameter of a reason, in the words and units of the sheet.
  std::string parameter(const std::string& name, const Reason::Parameter& value) const;

 private:
  std::string named(const std::string& text) const;
  std::string number_with_unit(const std::string& name, double value) const;
  std::string in_unit(const std::string& unit, double value) const;
  std::string days(double days) const;
  std::string measure(const Measure& measure, std::string_view form) const;
  Amount amount(const Portion& portion, const std::string& product, std::string_view where) const;
  bool weighs_in_ounces() const;
  bool is_in_us_units() const;
  std::string with_unit(std::string_view unit, double value, Decimals decimals) const;

  const SheetSources* sources_;
  const Messages* messages_;
};

/// A name or phone number as people type it, with real apostrophes.
std::string typeset(std::string_view text);
/// The same, with no place for a line to break.
std::string unbroken(std::string_view text);

}  // namespace tub::sheets
