#include "planning/remedies/remedies.h"

#include <algorithm>
#include <array>
#include <optional>
#include <utility>

#include "planning/goals/sanitizer.h"
#include "planning/pours/measured_draft.h"
#include "planning/remedies/water_remedies.h"

namespace tub::planning {
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
std::vector<Product> lacking(const Situation& situation) {
  std::vector<std::string> wanted = sanitizer_lacks(situation);
  for (const Basic& basic : basics) {
    if (situation.mildest(basic.purpose) == nullptr) wanted.emplace_back(basic.product);
  }
  std::vector<Product> products;
  for (const Product& product : situation.data.products) {
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

/// What buying leads to: a plan with the products on the shelf, from the same water.
class Bought {
 public:
  Bought(const Situation& situation, std::vector<Product> products)
      : products_(std::move(products)),
        request_(stocked(situation.request, products_)),
        situation_(request_, situation.data, situation.bench.species(), situation.start,
                   situation.refill),
        draft_(measured_draft(situation_)),
        final_(situation_.final_state(draft_)) {}

  bool meets(Reading reading) const {
    const Goal* goal = situation_.goal(reading);
    return goal != nullptr && !is_outside(reading, goal->band, value_of(reading, final_));
  }

  /// The products that the plan takes, the one that is asked for first.
  std::vector<Remedy> taken(const Unmet& unmet) const {
    std::vector<Remedy> all;
    for (const Product& product : products_) {
      const double grams = grams_of(situation_, draft_, product.id);
      if (grams <= 0) continue;
      Remedy remedy;
      remedy.kind = "buy";
      remedy.product = product.id;
      if (product.form == Form::liquid) {
        remedy.amount_ml = grams / product.density_g_ml.value_or(1);
      } else {
        remedy.amount_g = grams;
      }
      const bool is_asked_for = buys(unmet) && unmet.remedy->product == product.id;
      all.insert(is_asked_for ? all.begin() : all.end(), remedy);
    }
    return all;
  }

 private:
  static PlanRequest stocked(PlanRequest request, const std::vector<Product>& products) {
    for (const Product& product : products) request.shelf.push_back({product, {}, {}});
    return request;
  }

  const std::vector<Product> products_;
  const PlanRequest request_;
  const Situation situation_;
  const Draft draft_;
  const WaterState final_;
};

/// What the shelf lacks, and what comes of buying all of it, or one of it alone.
class Shopping {
 public:
  explicit Shopping(const Situation& situation)
      : situation_(situation), products_(lacking(situation)) {
    if (!products_.empty()) all_.emplace(situation, products_);
  }

  bool mends(const Unmet& unmet) const {
    return all_ && all_->meets(unmet.reading) && !all_->taken(unmet).empty();
  }

  /// The product that mends it alone; else the one asked for, of those that do it together.
  std::optional<Remedy> to_buy(const Unmet& unmet) const {
    const std::vector<Remedy> taken = all_ ? all_->taken(unmet) : std::vector<Remedy>();
    if (taken.empty() || !sells(unmet)) return std::nullopt;
    for (const Remedy& one : taken) {
      if (taken.size() == 1 || !mends(unmet)) break;
      const Bought alone(situation_, {product(one.product)});
      const std::vector<Remedy> amounts = alone.taken(unmet);
      if (alone.meets(unmet.reading) && !amounts.empty()) return amounts.front();
    }
    return taken.front();
  }

 private:
  /// What is asked for is among what is thought of, if something is asked for.
  bool sells(const Unmet& unmet) const {
    return !buys(unmet) || std::any_of(products_.begin(), products_.end(), [&](const Product& one) {
      return one.id == unmet.remedy->product;
    });
  }

  const Product& product(const std::string& id) const {
    return *std::find_if(products_.begin(), products_.end(),
                         [&](const Product& one) { return one.id == id; });
  }

  const Situation& situation_;
  const std::vector<Product> products_;
  std::optional<Bought> all_;
};

/// Softer water holds less of it than is wanted.
bool softer_water_lacks_it(const Situation& situation, const Unmet& unmet) {
  const auto& softer = situation.assumptions.softer_water;
  const auto found = softer.find(unmet.reading);
  const bool is_total = unmet.reading != Reading::ph && found != softer.end();
  return is_total && unmet.low && unmet.reached < *unmet.low && found->second.value < *unmet.low;
}

bool other_water_may_mend(const Situation& situation, const Unmet& unmet) {
  if (softer_water_lacks_it(situation, unmet)) return false;
  // Sanitizer that is too high falls by itself; what makes it is bought.
  const bool is_sanitizer = unmet.reading == situation.sanitizer.reading;
  const bool is_waited_for = unmet.remedy && unmet.remedy->kind == "wait";
  return situation.goal(unmet.reading) != nullptr && !is_waited_for &&
         !(is_sanitizer && unmet.remedy);
}

}  // namespace

void add_remedies(const Situation& situation, std::vector<Unmet>& unmet) {
  if (unmet.empty()) return;
  const Shopping shopping(situation);
  for (Unmet& one : unmet) {
    if (one.reason.code == "aim_outside_gate") continue;      // only its owner can mend it
    if (one.reason.code == "pour_would_overshoot") continue;  // a finer test does
    const bool is_mended_by_buying = shopping.mends(one);
    std::optional<Remedy> water;
    if (!is_mended_by_buying && other_water_may_mend(situation, one)) {
      water = dilution(situation, one);
      if (!water) water = water_remedy(situation, one);
    }
    if (water) {
      one.remedy = water;
    } else if (is_mended_by_buying || buys(one)) {
      if (const auto to_buy = shopping.to_buy(one)) one.remedy = to_buy;
    }
  }
}

}  // namespace tub::planning
