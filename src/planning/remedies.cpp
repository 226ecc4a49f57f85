#include "planning/remedies.h"

#include <algorithm>
#include <array>

#include "planning/goals/sanitizer.h"
#include "planning/measured_draft.h"

namespace tub {
namespace {

/// What a shelf has for each purpose, if anything.
struct Basic {
  Purpose purpose;
  std::string_view product;
};

constexpr std::array basics = {
    Basic{Purpose::raise_alkalinity, "sodium_bicarbonate"},
    Basic{Purpose::lower_ph, "dry_acid"},
    Basic{Purpose::raise_ph, "soda_ash"},
    Basic{Purpose::raise_calcium, "calcium_chloride_dihydrate"},
};

/// Products that the shelf lacks, for purposes that nothing on it can serve.
std::vector<Product> lacking(const PlanRequest& request, const PlanningData& data,
                             const SpeciesTable& species) {
  const Situation situation(request, data, species);
  std::vector<std::string> wanted = sanitizer_lacks(situation);
  for (const Basic& basic : basics) {
    if (situation.mildest(basic.purpose) == nullptr) wanted.emplace_back(basic.product);
  }
  std::vector<Product> products;
  for (const Product& product : data.products) {
    if (std::find(wanted.begin(), wanted.end(), product.id) != wanted.end()) {
      products.push_back(product);
    }
  }
  return products;
}

/// Grams of a product in a draft.
double grams_of(const Situation& situation, const Draft& draft, std::string_view product) {
  double mg_l = 0;
  for (const Move& move : draft) {
    if (const auto* dose = std::get_if<DoseMove>(&move)) {
      if (dose->supply->product().id == product) mg_l += dose->mg_l;
    }
    if (const auto* rounds = std::get_if<RoundsMove>(&move)) {
      if (rounds->dose.supply->product().id == product) mg_l += rounds->dose.mg_l * rounds->times;
    }
  }
  return mg_l * situation.request.tub.volume_l * 1e-3;
}

bool buys(const Unmet& unmet) { return unmet.remedy && unmet.remedy->kind == "buy"; }

/// The product to name: the one asked for if the plan takes it, else the first that it takes.
std::optional<Remedy> remedy_among(const Unmet& unmet, const std::vector<Product>& bought,
                                   const Situation& situation, const Draft& draft) {
  std::optional<Remedy> remedy;
  for (const Product& product : bought) {
    const double grams = grams_of(situation, draft, product.id);
    const bool is_asked_for = buys(unmet) && unmet.remedy->product == product.id;
    if (grams <= 0 || (remedy && !is_asked_for)) continue;
    remedy = Remedy{};
    remedy->kind = "buy";
    remedy->product = product.id;
    remedy->amount_g = grams;
  }
  return remedy;
}

}  // namespace

void add_what_to_buy(const PlanRequest& request, const PlanningData& data,
                     const SpeciesTable& species, std::vector<Unmet>& unmet) {
  if (unmet.empty()) return;
  const std::vector<Product> bought = lacking(request, data, species);
  if (bought.empty()) return;
  PlanRequest with_all = request;
  for (const Product& product : bought) with_all.shelf.push_back({product, {}, {}});
  const Situation situation(with_all, data, species);
  const Draft draft = measured_draft(situation);
  const WaterState final =
      situation.bench.state(situation.bench.after(situation.start.water, draft));
  for (Unmet& one : unmet) {
    const Goal* goal = situation.goal(one.reading);
    if (goal == nullptr || (one.remedy && !buys(one))) continue;
    const bool is_met =
        distance_outside(one.reading, goal->band, value_of(one.reading, final)) <= 1e-9;
    if (is_met || buys(one)) one.remedy = remedy_among(one, bought, situation, draft);
  }
}

}  // namespace tub
