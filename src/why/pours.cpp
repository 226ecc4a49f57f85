#include "why/pours.h"

#include <fmt/format.h>

#include <cmath>

#include "chemistry/measures.h"
#include "planning/goals/sanitizer.h"
#include "why/aims.h"
#include "why/asking.h"
#include "why/equations.h"
#include "why/grounds.h"
#include "why/product_factors.h"

namespace tub::why {
namespace {

const char* unit_of_size(const DosePlace& at) {
  return at.dose->supply->product().form == Form::liquid ? "mL" : "g";
}

std::string pour_pointer(const DosePlace& at, std::size_t pour) {
  return fmt::format("{}/portions/{}/amount_{}", at.prefix, pour,
                     at.dose->supply->product().form == Form::liquid ? "ml" : "g");
}

/// A sequestrant's own dose.
std::string own_dose(Asking& asking, const DosePlace& at) {
  const ShelfItem& item = at.dose->supply->item();
  const bool is_liquid = item.product.form == Form::liquid;
  const double dose = (is_liquid ? item.dose_ml_per_1000_l : item.dose_g_per_1000_l).value_or(0);
  const std::string where = shelf_pointer(asking, item.product.id) + "/dose";
  const std::string node =
      asking.put(Node{"job:" + where,
                      "dose_for_1000_L",
                      0,
                      unit_of_size(at),
                      "given",
                      {},
                      Origin{Ground::job, where, asking.in_job().text(where).value_or("")}},
                 dose);
  const std::string litres = constant(asking, "1000 L", 1000, "L", definition("as the dose says"));
  return asking.put(at.prefix + "#asked", "unrounded_amount", unit_of_size(at), "amount_for",
                    {{"dose", node}, {"volume", asking.volume()}, {"per", litres}});
}

/// What the bank lacks of bromide.
std::string bank_dose(Asking& asking, const DosePlace& at) {
  const std::string from = asking.before(0);
  const std::string bromine =
      asking.put("bromide in the bromine", "bromide_in_the_bromine", "mg/L", "amount_for",
                 {{"total_bromine", reading_of(asking, from, "total_bromine_mg_l")},
                  {"mass_of_Br", molar_mass_of(asking, "Br", Component::bromide)},
                  {"mass_of_Br2", molar_mass_of(asking, "Br2", Component::bromine)}});
  const std::string missing =
      asking.put(at.prefix + "#missing", "bromide_missing", "mg/L", "difference",
                 {{"bank", assumption(asking, asking.data.assumptions.bromide_bank_mg_l)},
                  {"bromide", reading_of(asking, from, "bromide_mg_l")},
                  {"in_bromine", bromine}});
  const std::string dose =
      asking.put(at.prefix + "#mg_l", "unrounded_dose", "mg/L of product", "quotient",
                 {{"missing", missing},
                  {"per_mg", per_product(asking, at.dose->supply->product(), "bromide_mg_l")}});
  return asking.put(at.prefix + "#asked", "unrounded_amount", unit_of_size(at), "amount_for",
                    {{"mg_per_litre", dose},
                     {"volume", asking.volume()},
                     {"mg_per_size", mg_per_size(asking, *at.dose->supply)}},
                    at.dose->pours->asked);
}

}  // namespace

std::string molar_mass_of(Asking& asking, const char* formula, Component component) {
  return constant(asking, std::string("molar mass of ") + formula, grams_per_mole(component),
                  "g/mol", remembered("IUPAC abridged standard atomic weights"));
}

DosePlace dose_at(const Asking& asking, std::size_t move) {
  const Move& done = asking.draft.at(move);
  if (const auto* rounds = std::get_if<RoundsMove>(&done)) {
    return {&rounds->dose, move, asking.step_of(move) + "/steps/0", true};
  }
  return {&std::get<DoseMove>(done), move, asking.step_of(move)};
}

std::string poured_mg_l(Asking& asking, const DosePlace& at, std::size_t pours) {
  if (at.dose->pours->days > 0) {
    return asking.put(at.prefix + "#dissolved_mg_l", "dissolved_per_litre", "mg/L", "amount_for",
                      {{"dissolved", dissolved(asking, at)},
                       {"mg_per_size", mg_per_size(asking, *at.dose->supply)},
                       {"volume", asking.volume()}});
  }
  std::vector<Input> amounts;
  for (std::size_t i = 0; i < pours; ++i) {
    amounts.push_back({fmt::format("pour_{}", i + 1), asking.ask(pour_pointer(at, i))});
  }
  const std::string id = fmt::format("{}/portions/{}#so_far", at.prefix, pours - 1);
  const std::string sum =
      asking.put(id, "poured_so_far", unit_of_size(at), "sum", std::move(amounts));
  return asking.put(id + "_mg_l", "poured_so_far_per_litre", "mg/L", "amount_for",
                    {{"poured", sum},
                     {"mg_per_size", mg_per_size(asking, *at.dose->supply)},
                     {"volume", asking.volume()}});
}

std::string asked_amount(Asking& asking, const DosePlace& at) {
  const std::string id = at.prefix + "#asked";
  if (asking.has(id)) return id;
  const bool is_bank = at.dose->supply->product().can(Purpose::bromide_bank);
  if (!at.dose->goal) return is_bank ? bank_dose(asking, at) : own_dose(asking, at);
  const double asked = at.dose->pours->asked;
  const double mg_l = asking.situation.mg_l(*at.dose->supply, asked);
  const std::string dose = asked_mg_l(asking, at, mg_l);
  return asking.put(id, "unrounded_amount", unit_of_size(at), "amount_for",
                    {{"mg_per_litre", dose},
                     {"volume", asking.volume()},
                     {"mg_per_size", mg_per_size(asking, *at.dose->supply)}},
                    asked);
}

std::string sanitizer_demand_node(Asking& asking) {
  const Resumption* const resumption = asking.situation.resumption();
  if (resumption != nullptr && resumption->demand_is_met) {
    return constant(asking, "demand that is met already", 0, "mg/L",
                    definition("the sanitizer is in, and was tested"));
  }
  const Assumptions& assumed = asking.data.assumptions;
  const std::string fresh = assumption(asking, assumed.fresh_water_demand_mg_l);
  const std::string combined = asking.put(
      "demand of combined chlorine", "demand_of_combined_chlorine", "mg/L as Cl2", "product",
      {{"per_combined", assumption(asking, assumed.chlorine_per_combined)},
       {"combined_chlorine", reading_of(asking, asking.before(0), "combined_chlorine_mg_l")}});
  const std::string sum = asking.put("demand as chlorine", "demand", "mg/L as Cl2", "sum",
                                     {{"fresh_water", fresh}, {"combined_chlorine", combined}});
  if (asking.situation.sanitizer.reading == Reading::free_chlorine) return sum;
  return asking.put("demand as bromine", "demand", "mg/L as Br2", "amount_for",
                    {{"as_chlorine", sum},
                     {"mass_of_Br2", molar_mass_of(asking, "Br2", Component::bromine)},
                     {"mass_of_Cl2", molar_mass_of(asking, "Cl2", Component::chlorine)}});
}

std::string days_in_floater(Asking& asking, const DosePlace& at) {
  return asking.put(
      Node{at.prefix + "#days",
           "days_in_the_floater",
           0,
           "d",
           "tablets",
           {{"asked", asked_amount(asking, at)}, {"g_per_day", g_per_day(asking, at)}}},
      at.dose->pours->days);
}

std::string g_per_day(Asking& asking, const DosePlace& at) {
  const Product& product = at.dose->supply->product();
  return product_row(asking, product, "dissolves", product.dissolves->g_per_day.value, "g/d");
}

std::string dissolved(Asking& asking, const DosePlace& at) {
  const std::string count = at.prefix + "/portions/0/measure/0/count";
  return asking.put(at.prefix + "#dissolved", "dissolved", "g", "product",
                    {{"tablets", asking.ask(count)},
                     {"g_per_day", g_per_day(asking, at)},
                     {"days", days_in_floater(asking, at)}});
}

std::string limit_of_pour(Asking& asking, const DosePlace& at) {
  const Product& product = at.dose->supply->product();
  const std::string row = product_row(asking, product, "single_addition",
                                      product.single_addition_mg_l, "mg/L of product");
  return asking.put(at.prefix + "#limit", "limit_of_one_pour", unit_of_size(at), "amount_for",
                    {{"single_addition", row},
                     {"volume", asking.volume()},
                     {"mg_per_size", mg_per_size(asking, *at.dose->supply)}});
}

}  // namespace tub::why
