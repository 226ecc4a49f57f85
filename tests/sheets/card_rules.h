// Rules that every startup card keeps, whatever its plan.
#pragma once

#include <string>
#include <vector>

#include "document/document.h"
#include "planning/plan.h"

namespace tub::sheets::test {

/// Readings that a rung's test can show and that none of its lines answers, each as a sentence.
std::vector<std::string> unanswered_readings(const Document& card);

/// Faults of typography in the words of a card, each with the words around it.
std::vector<std::string> typographic_faults(const Document& card);

/// Sums of two pours that stand on the card although only each pour may.
std::vector<std::string> printed_sums(const Document& card, const Plan& plan);

/// The card's ladder. Throws if it has none.
const Ladder& ladder_of(const Document& card);
const Ladder& ladder_of(const Document&& card) = delete;

}  // namespace tub::sheets::test
