// One addition on its rung: title, purpose, hazard, pours, outcomes.
#pragma once

#include "sheets/template/facts.h"
#include "sheets/template/wording.h"

namespace tub::sheets {

/// Title, what it does, how, hazard and signs of a product that is added for a reading.
void set_product(Facts& rung, const Wording& wording, const Step& step, const Addition& addition);

/// Whether a product's danger gets a line of its own: acids, sanitizers, oxidisers, and what its
/// label's signal word calls a danger.
bool is_grave(const Product& product);

/// How long after an earlier product this rung's may go in at the earliest.
void add_waiting(Facts& rung, const Wording& wording, int number);

/// A row for each portion, the second set in behind its condition.
void add_pours(Facts& rung, const Wording& wording, const Step& step, const Addition& addition);

/// How the outcomes of a step's test are said.
struct OutcomeStyle {
  std::size_t pours = 1;  ///< with two, "after both" says which test is meant
  bool names_it = false;  ///< "pH under 7.2:" where a rung tests more than one reading
  enum class Waiting { cover_off, airing, floater_out };
  Waiting waiting = Waiting::cover_off;  ///< how what is over comes down
};

/// A line for each outcome of the step's test.
void add_outcomes(Facts& rung, const Wording& wording, const Step& step, OutcomeStyle style);

/// One line: a reading and what to do then.
void add_outcome(Facts& rung, Words reads, Words then);

/// Lines for those notes of a step that are not about what it does.
void add_notes(Facts& rung, const Wording& wording, const Step& step);

/// "alkalinity", "look", "have us test": what the test column says.
Words test_words(const Wording& wording, const Step& step);

/// The target chip of a step's test; nothing where it has none.
Words target_words(const Wording& wording, const Step& step);

/// A list's element with nothing but words.
Facts text_facts(Words words);

}  // namespace tub::sheets
