#include "why/asking.h"

#include <fmt/format.h>

#include <array>

#include "base/error.h"
#include "job/plan/plan_format.h"
#include "planning/pours/measured_draft.h"
#include "planning/retests/replan.h"
#include "why/equations.h"
#include "why/rules.h"

namespace tub::why {
namespace {

struct UnitRow {
  std::string_view key;
  std::string_view unit;
};

constexpr std::array units_by_key = {
    UnitRow{"ph", "pH"},
    UnitRow{"ph_half_way", "pH"},
    UnitRow{"ph_at_air", "pH"},
    UnitRow{"total_alkalinity_mg_l", "mg/L as CaCO3"},
    UnitRow{"carbonate_alkalinity_mg_l", "mg/L as CaCO3"},
    UnitRow{"cyanurate_alkalinity_mg_l", "mg/L as CaCO3"},
    UnitRow{"calcium_hardness_mg_l", "mg/L as CaCO3"},
    UnitRow{"magnesium_hardness_mg_l", "mg/L as CaCO3"},
    UnitRow{"free_chlorine_mg_l", "mg/L as Cl2"},
    UnitRow{"combined_chlorine_mg_l", "mg/L as Cl2"},
    UnitRow{"hocl_mg_l", "mg/L as Cl2"},
    UnitRow{"ocl_mg_l", "mg/L as Cl2"},
    UnitRow{"bound_chlorine_mg_l", "mg/L as Cl2"},
    UnitRow{"total_bromine_mg_l", "mg/L as Br2"},
    UnitRow{"hobr_mg_l", "mg/L as Br2"},
    UnitRow{"borate_as_boron_mg_l", "mg/L as B"},
    UnitRow{"peroxymonosulfate_mg_l", "mg/L as HSO5"},
    UnitRow{"saturation_index", "log10"},
    UnitRow{"saturation_index_at_air", "log10"},
    UnitRow{"log10_pco2_atm", "log10 of atm"},
    UnitRow{"to_log10_pco2_atm", "log10 of atm"},
    UnitRow{"ionic_strength_mol_kg", "mol/kg"},
    UnitRow{"buffer_intensity_mmol_kg", "mmol/kg per pH"},
    UnitRow{"inorganic_carbon_mmol_kg", "mmol/kg"},
    UnitRow{"hobr_fraction", "share"},
    UnitRow{"fraction", "share"},
    UnitRow{"share", "share"},
    UnitRow{"volume_give_or_take", "share"},
    UnitRow{"overshoot_chance", "share"},
    UnitRow{"volume_l", "L"},
    UnitRow{"jets_hours", "h"},
    UnitRow{"hours", "h"},
    UnitRow{"hours_apart", "h"},
    UnitRow{"wait_minutes", "min"},
    UnitRow{"adds_g", "g"},
};

std::string_view known_unit(std::string_view key) {
  for (const UnitRow& row : units_by_key) {
    if (row.key == key) return row.unit;
  }
  constexpr std::array<UnitRow, 5> endings = {
      {{"_mg_l", "mg/L"}, {"_g", "g"}, {"_ml", "mL"}, {"_c", "°C"}, {"_hours", "h"}}};
  for (const UnitRow& row : endings) {
    if (key.ends_with(row.key)) return row.unit;
  }
  return "";
}

bool is_number(std::string_view text) {
  return !text.empty() && text.find_first_not_of("0123456789") == std::string_view::npos;
}

Error no_rule(const std::string& what) {
  return Error({fmt::format("nothing explains {}", what),
                "",
                {},
                "please report it with the job that shows it",
                Fault::machine});
}

}  // namespace

std::string unit_of_key(std::string_view key) { return std::string(known_unit(key)); }

std::string unit_of(const Place& place) {
  for (auto part = place.parts.rbegin(); part != place.parts.rend(); ++part) {
    if (*part == "steps") break;
    const std::string_view unit = known_unit(*part);
    if (!unit.empty()) return std::string(unit);
  }
  return "";
}

Asking::Asking(const Job& a_job, const Catalogue& a_catalogue, const Plan& a_plan)
    : job(a_job),
      catalogue(a_catalogue),
      plan(a_plan),
      data(a_catalogue.planning),
      species(a_catalogue.species),
      leg(leg_to_do(job.request, data, species)),
      request(leg->request),
      situation(leg->situation),
      draft(leg->draft),
      solved(solved_draft(situation)),
      in_plan_(plan_json(plan)),
      in_job_(job.whole) {}

struct Asking::Earlier {
  Earlier(Job a_job, const Catalogue& catalogue)
      : job(std::move(a_job)),
        plan(make_plan(job.request, catalogue.planning, catalogue.species)),
        asking(job, catalogue, plan) {}
  const Job job;
  const Plan plan;
  Asking asking;
};

Asking::~Asking() = default;

Asking& Asking::before_retest(std::size_t known) {
  auto& earlier = earlier_[known];
  if (earlier == nullptr) {
    Job before = job;
    before.request.retests.resize(known);
    earlier = std::make_unique<Earlier>(std::move(before), catalogue);
  }
  return earlier->asking;
}

std::string Asking::take_over(const Chain& other, const std::string& id, const std::string& from) {
  Node node = other.at(id);
  node.id = node.origin ? id : from + ": " + id;
  if (chain_.has(node.id)) return node.id;
  for (Input& input : node.inputs) input.node = take_over(other, input.node, from);
  node.beside.clear();
  const double value = node.value;
  return put(std::move(node), value);
}

std::string Asking::ask(const std::string& pointer) {
  if (chain_.has(pointer)) return pointer;
  const auto number = in_plan_.number(pointer);
  const Place where = place(pointer);
  const Rule* rule = rule_for(where);
  if (!number || rule == nullptr || !open_.insert(pointer).second) throw no_rule(pointer);
  Node node = rule->explain(*this, where);
  open_.erase(pointer);
  node.id = pointer;
  if (node.name.empty()) node.name = rule->name.empty() ? where.parts.back() : rule->name;
  if (node.unit.empty()) node.unit = unit_of(where);
  return put(std::move(node), number);
}

std::string Asking::put(Node node, std::optional<double> value) {
  if (chain_.has(node.id)) return node.id;
  const std::string id = node.id;
  node.value = value ? *value : worked_out(node, chain_).value_or(node.value);
  chain_.add(std::move(node));
  return id;
}

std::string Asking::put(const std::string& id, const std::string& name, const std::string& unit,
                        const std::string& equation, std::vector<Input> inputs,
                        std::optional<double> value) {
  return put(Node{id, name, 0, unit, equation, std::move(inputs)}, value);
}

Chain Asking::take(const std::string& root) {
  chain_.start_at(ask(root));
  return std::move(chain_);
}

std::string Asking::slip() const {
  return job.request.water_is_in_tub ? "/tub_water" : "/source_water";
}

const WaterTest& Asking::slip_readings(const std::string& slip) const {
  return slip == "/second_source" ? *job.request.second_source : job.request.water;
}

std::string Asking::step_of(std::size_t move) const {
  return fmt::format("/steps/{}", move + plan.steps.size() - draft.size());
}

std::string Asking::before(std::size_t move) const {
  if (move > 0) return after(move - 1);
  const std::size_t first = plan.steps.size() - draft.size();
  for (std::size_t i = 0; i < first; ++i) {
    if (std::holds_alternative<Replace>(plan.steps[i].what)) {
      return fmt::format("/steps/{}/after", i);
    }
  }
  return "/start";
}

std::string Asking::after(std::size_t move) const { return step_of(move) + "/after"; }

Place Asking::place(const std::string& pointer) const {
  Place place;
  place.pointer = pointer;
  place.parts = steps_of_pointer(pointer);
  place.rest = place.parts;
  const std::vector<Step>* steps = &plan.steps;
  std::size_t first_move = plan.steps.size() - draft.size();
  while (place.rest.size() > 2 && place.rest[0] == "steps" && is_number(place.rest[1])) {
    const std::size_t index = std::stoul(place.rest[1]);
    if (index >= steps->size()) break;
    const bool is_inner = place.step != nullptr;
    place.step = &steps->at(index);
    place.prefix += "/steps/" + place.rest[1];
    if (!is_inner && index >= first_move) place.move = index - first_move;
    place.rest.erase(place.rest.begin(), place.rest.begin() + 2);
    const auto* repeat = std::get_if<Repeat>(&place.step->what);
    if (repeat == nullptr) break;
    steps = &repeat->steps;
  }
  return place;
}

}  // namespace tub::why
