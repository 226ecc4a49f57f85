// Shares and amounts go into the messages as they print; which message, this file chooses.
#include "sheets/card/sanitizer_facts.h"

#include <algorithm>
#include <cmath>
#include <string>

namespace tub::sheets {
namespace {

constexpr double the_whole = 1;

// A share of the whole reading that is worth a word.
constexpr double noticeable = 0.05;

double bound_share(const ActiveSanitizer& active) {
  if (!active.hocl_mg_l || !active.ocl_mg_l || !active.bound_chlorine_mg_l) return 0;
  const double bound = active.bound_chlorine_mg_l->value;
  const double whole = active.hocl_mg_l->value + active.ocl_mg_l->value + bound;
  return whole > 0 ? bound / whole : 0;
}

std::string gate_of(const Wording& wording, Reading reading) {
  const auto gate = wording.plan().gate.find(reading);
  return gate == wording.plan().gate.end() ? "" : wording.range(reading, gate->second);
}

// Nearly all of it is never printed as all of it.
std::string stored(const Wording& wording, double share) {
  constexpr double nearly_all = 0.95;
  constexpr double per_mille = 1000;
  if (share < nearly_all) return wording.rounded_percent(share);
  return wording.percent(std::floor(share * per_mille) / per_mille);
}

// Rounded down to two figures: less of it is the safe side.
double rounded_down(double grams) {
  if (grams <= 0) return 0;
  const double step = std::pow(10, std::floor(std::log10(grams)) - 1);
  return std::floor(grams / step + 1e-9) * step;
}

// What this card pours of what leaves stabiliser behind.
double dichlor_g(const Wording& wording) {
  double grams = 0;
  for (const Step& step : wording.plan().steps) {
    const auto* const addition = std::get_if<Addition>(&step.what);
    if (addition == nullptr || !wording.product(addition->product).in_group("dichlor")) continue;
    for (const Portion& portion : addition->portions) grams += portion.amount_g.value_or(0);
  }
  return grams;
}

}  // namespace

Words active_sanitizer_words(const Wording& wording) {
  const Plan& plan = wording.plan();
  if (!plan.active_sanitizer) return {};
  const ActiveSanitizer& active = *plan.active_sanitizer;
  const std::string range = gate_of(wording, active.of);
  if (range.empty()) return {};
  const Messages& messages = wording.messages();
  const std::string share =
      wording.percents({active.share.low, std::min(active.share.high, the_whole)});
  if (active.of == Reading::total_bromine) {
    return messages.words("active.bromine", {{"share", share}, {"range", range}});
  }
  const double bound = bound_share(active);
  if (bound < noticeable) {
    return messages.words("active.chlorine", {{"share", share}, {"range", range}});
  }
  return messages.words("active.bound_chlorine",
                        {{"share", share}, {"bound", stored(wording, bound)}, {"range", range}});
}

Words hand_over_words(const Wording& wording) {
  const Plan& plan = wording.plan();
  if (!plan.hand_over) return {};
  const HandOver& hand_over = *plan.hand_over;
  const Messages& messages = wording.messages();
  const std::string product = wording.product_in_text(hand_over.to);
  const std::string limit = wording.value(Reading::cyanuric_acid, hand_over.cyanuric_acid_mg_l);
  constexpr double least_said_g = 2;  // nobody keeps count of less
  const double grams = rounded_down(hand_over.dichlor_g);
  const double here = dichlor_g(wording);
  if (hand_over.dichlor_g > 0 && here > 0 && here >= grams) {
    return messages.words("hand_over.with_this_card", {{"product", product}, {"limit", limit}});
  }
  if (grams < least_said_g) {
    return messages.words("hand_over.at_once", {{"product", product}, {"limit", limit}});
  }
  return messages.words("hand_over.later",
                        {{"amount", wording.grams(grams)}, {"limit", limit}, {"product", product}});
}

}  // namespace tub::sheets
