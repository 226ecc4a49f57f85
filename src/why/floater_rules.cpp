#include "why/floater_rules.h"

#include <fmt/format.h>

#include "why/grounds.h"
#include "why/product_factors.h"
#include "why/rules.h"
#include "why/waters.h"

namespace tub::why {
namespace {

std::string rate_of(Asking& asking, const Product& product) {
  return product_row(asking, product, "dissolves", product.dissolves->g_per_day.value, "g/d");
}

std::string count_in(Asking& asking, const std::string& step) {
  return asking.ask(step + "/portions/0/measure/0/count");
}

}  // namespace

const FloaterMove* floater_at(const Asking& asking, const Place& place) {
  return std::get_if<FloaterMove>(&asking.draft.at(place.move));
}

Node count_of_floater(Asking& asking, const Place& place) {
  const std::string key(key_of(asking.situation.sanitizer.reading));
  return {"",
          "",
          0,
          "",
          "tablets_that_keep_up",
          {{"held", reading_of(asking, asking.before(place.move), key)},
           {"half_life", assumption(asking, asking.data.assumptions.sanitizer_half_life_h)},
           {"volume", asking.volume()},
           {"g_per_day", rate_of(asking, floater_at(asking, place)->supply->product())}}};
}

Node weight_of_floater(Asking& asking, const Place& place) {
  const Product& product = floater_at(asking, place)->supply->product();
  const std::string piece =
      data_row(asking, fmt::format("products.json: {}/dissolves/piece_g", product.id), "one_tablet",
               product.dissolves->piece_g, "g", product.source_of("dissolves"));
  return {"", "",        0,
          "", "product", {{"count", count_in(asking, place.prefix)}, {"one_tablet", piece}}};
}

Node note_of_floater(Asking& asking, const Place& place) {
  const std::string count = count_in(asking, place.prefix);
  if (place.parts.back() == "tablets") return same_as(asking, count);
  const Product& product = floater_at(asking, place)->supply->product();
  return {"", "", 0, "", "product", {{"tablets", count}, {"g_per_day", rate_of(asking, product)}}};
}

Node replaced_by_floater(Asking& asking) {
  for (std::size_t i = 0; i < asking.draft.size(); ++i) {
    const auto* floater = std::get_if<FloaterMove>(&asking.draft[i]);
    if (floater == nullptr) continue;
    return {"",
            "",
            0,
            "",
            "bromine_of_tablets",
            {{"tablets", count_in(asking, asking.step_of(i))},
             {"g_per_day", rate_of(asking, floater->supply->product())},
             {"volume", asking.volume()}}};
  }
  return {"", "", 0, "", "counted", {}};
}

}  // namespace tub::why
