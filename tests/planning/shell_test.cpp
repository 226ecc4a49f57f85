// What must not touch a shell is not poured into it.
#include <algorithm>
#include <catch2/catch.hpp>

#include "planning/make_plan.h"
#include "sample_job.h"

namespace tub::planning {
namespace {

bool uses(const std::vector<Step>& steps, const std::string& product) {
  return std::any_of(steps.begin(), steps.end(), [&](const Step& step) {
    const auto* addition = std::get_if<Addition>(&step.what);
    const auto* repeat = std::get_if<Repeat>(&step.what);
    return (addition != nullptr && addition->product == product) ||
           (repeat != nullptr && uses(repeat->steps, product));
  });
}

/// Soft, alkaline water and a shelf on which the product is the only one of its kind.
PlanRequest with_only(const Product& product, const std::string& shell) {
  PlanRequest request = request_for_water(8.4, 130, 60);
  std::erase_if(request.shelf, [&](const ShelfItem& item) {
    return std::any_of(product.purposes.begin(), product.purposes.end(),
                       [&](Purpose purpose) { return item.product.can(purpose); });
  });
  request.shelf.push_back({product, {}, {}});
  request.tub.shell = shell;
  return request;
}

}  // namespace

TEST_CASE("no plan pours what must not touch the shell") {
  int pairs = 0;
  for (const Product& product : planning_data().products) {
    for (const std::string& shell : product.harms_shells) {
      CAPTURE(product.id, shell);
      const Plan plan = planned(with_only(product, shell));
      CHECK_FALSE(uses(plan.steps, product.id));
      ++pairs;
    }
  }
  CHECK(pairs >= 5);
}

TEST_CASE("acid that attacks a steel tub is left on the shelf, and pH unmet says why") {
  const auto rows = planning_data().products;
  const auto acid = std::find_if(rows.begin(), rows.end(),
                                 [](const Product& row) { return row.id == "muriatic_acid"; });
  const Plan in_steel = planned(with_only(*acid, "stainless_steel"));
  REQUIRE(in_steel.unmet.size() == 1);
  CHECK(in_steel.unmet.front().reason.code == "product_harms_shell");
  CHECK(in_steel.unmet.front().remedy->product == "dry_acid");
  const Plan in_acrylic = planned(with_only(*acid, "acrylic"));
  CHECK(uses(in_acrylic.steps, "muriatic_acid"));
}

}  // namespace tub::planning
