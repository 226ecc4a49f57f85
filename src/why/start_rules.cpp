#include "why/start_rules.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "why/asking.h"
#include "why/equations.h"
#include "why/grounds.h"

namespace tub::why {
namespace {

constexpr const char* calcium_key = "calcium_hardness_mg_l";
constexpr const char* magnesium_key = "magnesium_hardness_mg_l";
constexpr const char* free_key = "free_chlorine_mg_l";
constexpr const char* combined_key = "combined_chlorine_mg_l";

/// One water's slip, and what was assumed beside it.
class Start {
 public:
  Start(Asking& asking, const std::string& water, const std::string& slip)
      : asking_(asking),
        water_(water),
        slip_(slip),
        assumed_(start_water(asking.slip_readings(slip), asking.data, asking.species).assumed) {}

  Node reading(const std::string& key) {
    if (key == "temperature_c") return temperature();
    const Reason* closing = reason("charge_balance_closed");
    if (closing != nullptr && closing->text("ion") + "_mg_l" == key) return closed();
    if (key == "sodium_mg_l" || key == "chloride_mg_l") return salt_ion(key);
    return plain(key);
  }

 private:
  const Reason* reason(const std::string& code) const {
    const auto found = std::find_if(assumed_.begin(), assumed_.end(),
                                    [&](const Reason& one) { return one.code == code; });
    return found == assumed_.end() ? nullptr : &*found;
  }

  Node same(const std::string& node) const {
    return {"", "", 0, "", "same", {asking_.input(node)}};
  }
  std::string on_slip(const std::string& key) { return slip_reading(asking_, slip_, key); }

  Node temperature() {
    std::string node =
        job_quantity(asking_, slip_ + "/temperature", QuantityKind::temperature, "temperature");
    const WaterTest& test = asking_.slip_readings(slip_);
    if (node.empty() && test.temperature_is_assumed) {
      node = assumption(asking_, asking_.data.assumptions.source_temperature_c);
    }
    if (node.empty()) {
      node = asking_.put(Node{"job:" + slip_ + "/temperature",
                              "temperature",
                              0,
                              "°C",
                              "given",
                              {},
                              Origin{Ground::test_slip, slip_ + "/temperature"}},
                         test.temperature_c);
    }
    return same(node);
  }

  /// Nothing says that there is any.
  std::string none() {
    return constant(asking_, "not tested, taken as none", 0, "mg/L",
                    assumed_by_us("tap water has little of it, or the slip says it otherwise"));
  }

  /// The reading before ions are closed or salt is put in.
  std::string read_or_assumed(const std::string& key) {
    const std::string node = on_slip(key);
    if (!node.empty()) return node;
    const Assumptions& assumptions = asking_.data.assumptions;
    for (const Assumed* one : {&assumptions.sulfate_mg_l, &assumptions.chloride_mg_l}) {
      if (one->code == key && reason(key) != nullptr) return assumption(asking_, *one);
    }
    return none();
  }

  Node plain(const std::string& key) {
    const std::string node = on_slip(key);
    if (!node.empty()) return same(node);
    if (key == calcium_key) return calcium();
    if (key == magnesium_key) return magnesium();
    if (key == free_key) return free_chlorine();
    if (key == combined_key) return combined_chlorine();
    return same(read_or_assumed(key));
  }

  std::string share() { return assumption(asking_, asking_.data.assumptions.magnesium_share); }
  std::string rest() {
    const std::string one = constant(asking_, "the whole", 1, "share", definition("a share of it"));
    return asking_.put("calcium share", "calcium_share", "share", "difference",
                       {{"whole", one}, {"magnesium_share", share()}});
  }

  /// Of two readings of a slip, one a part of the other: what is left, but not less than nothing.
  Node left_of(const std::string& whole, const std::string& part, const std::string& key) {
    const std::string left =
        asking_.put(fmt::format("{}/{}#left", water_, key), "what_is_left", unit_of_key(key),
                    "difference", {asking_.input(whole), asking_.input(part)});
    const std::string zero = constant(asking_, "nothing", 0, "mg/L", definition("not below zero"));
    return {"", "", 0, "", "largest", {{"what_is_left", left}, {"nothing", zero}}};
  }

  Node calcium() {
    const std::string total = on_slip("total_hardness_mg_l");
    const std::string magnesium = on_slip(magnesium_key);
    if (total.empty()) return same(none());
    if (!magnesium.empty()) return left_of(total, magnesium, calcium_key);
    return {"", "", 0, "", "product", {{"total_hardness", total}, {"calcium_share", rest()}}};
  }

  Node magnesium() {
    const std::string total = on_slip("total_hardness_mg_l");
    const std::string calcium = on_slip(calcium_key);
    if (!total.empty() && !calcium.empty()) return left_of(total, calcium, magnesium_key);
    const std::string ratio =
        asking_.put("magnesium per calcium", "magnesium_per_calcium", "mg/mg", "quotient",
                    {{"magnesium_share", share()}, {"calcium_share", rest()}});
    return {
        "",        "",
        0,         "",
        "product", {{"calcium", reading_of(asking_, water_, calcium_key)}, {"per_calcium", ratio}}};
  }

  Node free_chlorine() {
    const std::string total = on_slip("total_chlorine_mg_l");
    if (total.empty()) {
      return same(assumption(asking_, asking_.data.assumptions.tap_free_chlorine_mg_l));
    }
    // What is not known to be free is taken as combined.
    return same(none());
  }

  Node combined_chlorine() {
    const std::string total = on_slip("total_chlorine_mg_l");
    const std::string free = on_slip(free_key);
    if (total.empty()) {
      return same(assumption(asking_, asking_.data.assumptions.tap_combined_chlorine_mg_l));
    }
    return free.empty() ? same(total) : left_of(total, free, combined_key);
  }

  Node closed() {
    Node node{"", "", 0, "", "charge_balance", {}};
    for (const char* key : {"total_alkalinity_mg_l", calcium_key, magnesium_key, "sodium_mg_l",
                            "potassium_mg_l", "chloride_mg_l", "sulfate_mg_l", "nitrate_mg_l"}) {
      if (reason("charge_balance_closed")->text("ion") + "_mg_l" == key) continue;
      node.inputs.push_back({key, reading_of(asking_, water_, key)});
    }
    return node;
  }

  /// The ion that does not close the balance: what is known of it, and its part of the salt that
  /// makes up the dissolved solids.
  Node salt_ion(const std::string& key) {
    const std::string known = read_or_assumed(key);
    if (reason("dissolved_solids_as_salt") == nullptr) return same(known);
    const bool is_sodium = key == "sodium_mg_l";
    const auto mass = [&](const char* formula, Component component) {
      return constant(asking_, std::string("molar mass of ") + formula,
                      asking_.species.component(component).molar_mass, "g/mol",
                      remembered("IUPAC abridged standard atomic weights"));
    };
    const std::string sodium = mass("Na", Component::sodium);
    const std::string chloride = mass("Cl", Component::chloride);
    const std::string both = asking_.put("molar mass of NaCl", "molar_mass_of_NaCl", "g/mol", "sum",
                                         {{"Na", sodium}, {"Cl", chloride}});
    const std::string part = asking_.put(
        fmt::format("{}/{}#of_salt", water_, key), "of_the_salt", "mg/L", "amount_for",
        {{"salt", salt()}, {"molar_mass", is_sodium ? sodium : chloride}, {"of_NaCl", both}});
    return {"", "", 0, "", "sum", {{"known", known}, {"of_the_salt", part}}};
  }

  std::string salt() {
    if (water_ == "/start") {
      for (std::size_t i = 0; i < asking_.plan.assumed.size(); ++i) {
        const Reason& one = asking_.plan.assumed[i];
        if (one.code != "dissolved_solids_as_salt" || one.parameters.size() > 1) continue;
        return asking_.ask(fmt::format("/assumed/{}/sodium_chloride_mg_l", i));
      }
    }
    Node node = missing_salt(asking_, water_, slip_);
    node.id = water_ + "#salt";
    node.name = "salt";
    node.unit = "mg/L";
    const Reason* salt = reason("dissolved_solids_as_salt");
    return asking_.put(std::move(node), salt->number("sodium_chloride_mg_l").value());
  }

  Asking& asking_;
  std::string water_;
  std::string slip_;
  std::vector<Reason> assumed_;
};

}  // namespace

std::string solids_of_slip(Asking& asking, const std::string& slip) {
  const std::string solids = slip_reading(asking, slip, "dissolved_solids_mg_l");
  if (!solids.empty()) return solids;
  return asking.put(
      slip + "#solids", "dissolved_solids", "mg/L", "product",
      {{"conductivity", slip_reading(asking, slip, "conductivity_us_cm")},
       {"per_conductivity",
        assumption(asking, asking.data.assumptions.dissolved_solids_per_conductivity)}});
}

Node missing_salt(Asking& asking, const std::string& water, const std::string& slip) {
  const std::string wanted = solids_of_slip(asking, slip);
  double salt = 0;
  const auto assumed = start_water(asking.slip_readings(slip), asking.data, asking.species).assumed;
  for (const Reason& one : assumed) {
    if (one.code == "dissolved_solids_as_salt") {
      salt = one.number("sodium_chloride_mg_l").value();
    }
  }
  const std::string ions =
      asking.put(water + "#solids_of_ions", "solids_of_the_tested_ions", "mg/L", "equilibrium",
                 {{"ph", reading_of(asking, water, "ph")},
                  {"alkalinity", reading_of(asking, water, "total_alkalinity_mg_l")},
                  {"calcium", reading_of(asking, water, calcium_key)},
                  {"magnesium", reading_of(asking, water, magnesium_key)},
                  {"sulfate", reading_of(asking, water, "sulfate_mg_l")}},
                 asking.value(wanted) - salt);
  return {"", "", 0, "", "difference", {{"dissolved_solids", wanted}, {"of_tested_ions", ions}}};
}

bool is_read_from_slip(const std::string& key) {
  return std::any_of(reading_keys.begin(), reading_keys.end(),
                     [&](const auto& known) { return known.name == key; });
}

Node start_reading(Asking& asking, const std::string& water, const std::string& slip,
                   const std::string& key) {
  return Start(asking, water, slip).reading(key);
}

Node start_carbon(Asking& asking, const std::string& water) {
  Node node{"", "", 0, "", "carbon_of_ph", {}};
  for (const char* key : {"ph", "total_alkalinity_mg_l", "temperature_c", calcium_key,
                          "cyanuric_acid_mg_l", free_key}) {
    const std::string input = reading_of(asking, water, key);
    if (asking.value(input) != 0) node.inputs.push_back({key, input});
  }
  return node;
}

}  // namespace tub::why
