#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "base/text.h"
#include "chemistry/operations.h"
#include "job/job_parts.h"
#include "job/read_quantity.h"
#include "job/slip.h"

namespace tub {
namespace {

// How far off a volume may be that nobody stated, as 90 % half-widths. Source: assumptions
// (an owner's manual 5 %, a tape measure 10 %, a fill time 10 %).
constexpr double manual_give_or_take = 0.05;
constexpr double tape_give_or_take = 0.10;
constexpr double fill_give_or_take = 0.10;

/// A volume and how it was found.
struct FoundVolume {
  std::string how;  // the field
  double litres = 0;
  double give_or_take = 0;
  bool is_assumed = false;  // the give or take
};

std::optional<FoundVolume> stated_volume(const Value& vessel) {
  const Value* const volume = vessel.find("volume");
  if (volume == nullptr) return std::nullopt;
  const auto litres = volume->is_object() ? volume->number("value") : volume->number();
  if (!litres) return std::nullopt;
  const auto share = volume->is_object() ? volume->number("give_or_take") : std::nullopt;
  return FoundVolume{"volume", *litres, share.value_or(manual_give_or_take), !share};
}

// The area of the water's surface, in square metres; a problem if its shape lacks a side.
std::optional<double> surface(const Value& dimensions) {
  const auto shape = dimensions.text("shape");
  if (!shape) return std::nullopt;
  const bool is_round = *shape == "round";
  const auto across = dimensions.number(is_round ? "diameter" : "length");
  const auto width = is_round ? across : dimensions.number("width");
  const auto refuse = [&](const char* name) {
    if (!dimensions.node().find(name)) return;
    dimensions.problem(fmt::format("the shape {} has no {}", *shape, name),
                       fmt::format("remove \"{}\", or name another shape", name));
  };
  const auto require = [&](const char* name) {
    if (dimensions.node().find(name)) return;
    dimensions.problem(fmt::format("the shape {} needs a {}", *shape, name),
                       fmt::format("add \"{}\"", name));
  };
  for (const char* name : {"length", "width", "diameter"}) {
    const bool is_its = is_round == (std::string_view(name) == "diameter");
    is_its ? require(name) : refuse(name);
  }
  if (!across || !width) return std::nullopt;
  const double box = *across * *width;
  return *shape == "rectangle" ? box : box * std::numbers::pi / 4;
}

double bench_volume(const Value& dimensions) {
  const Value* const benches = dimensions.find("benches");
  double sum = 0;
  if (benches == nullptr) return sum;
  for (const Value& bench : benches->items()) {
    sum += bench.number("length").value_or(0) * bench.number("width").value_or(0) *
           bench.number("height").value_or(0);
  }
  return sum;
}

std::optional<FoundVolume> measured_volume(const Value& vessel) {
  const Value* const dimensions = vessel.find("dimensions");
  if (dimensions == nullptr) return std::nullopt;
  const auto area = surface(*dimensions);
  const auto depth = dimensions->number("water_depth");
  if (!area || !depth) return std::nullopt;
  const double litres = 1000 * (*area * *depth - bench_volume(*dimensions));
  return FoundVolume{"dimensions", litres, tape_give_or_take, true};
}

std::optional<FoundVolume> filled_volume(const Value& vessel) {
  const Value* const fill = vessel.find("fill");
  if (fill == nullptr) return std::nullopt;
  const auto seconds = fill->number("time");
  const auto litres_per_minute = fill->number("flow");
  if (!seconds || !litres_per_minute) return std::nullopt;
  return FoundVolume{"fill", *seconds / 60 * *litres_per_minute, fill_give_or_take, true};
}

// What a gram of product in a litre adds to the reading, mg/L as CaCO3.
double rise_per_gram_per_litre(const Product& product, Reading reading,
                               const SpeciesTable& species) {
  double rise = 0;
  for (const Product::Part& part : product.parts) {
    const Compound& compound = species.compound(part.formula);
    const Totals added = compound.adds * (part.mass_fraction / compound.molar_mass);
    rise += reading == Reading::calcium_hardness ? calcium_hardness_mg_l(added)
                                                 : total_alkalinity_mg_l(added);
  }
  return rise;
}

std::optional<double> reading_in(const Value& dilution, std::string_view name, Reading reading) {
  const Value* const value = dilution.find(name);
  if (value == nullptr) return std::nullopt;
  const SlipField& slip = *slip_field_of(reading);
  return read_quantity(value->node(),
                       {slip.kind, slip.low, slip.high, std::string(slip.example), ""});
}

std::optional<double> grams_of(const Measured& amount, const Product& product) {
  if (amount.unit != "mL") return amount.value;
  const auto density =
      product.form == Form::liquid ? product.density_g_ml : product.bulk_density_g_ml;
  return density ? std::optional<double>(amount.value * *density) : std::nullopt;
}

/// A known amount that raised a reading.
struct Dilution {
  double grams = 0;
  double before = 0;
  double after = 0;
  Reading reading = Reading::total_alkalinity;
};

std::optional<Dilution> dilution_from(const Value& dilution, const Product& product) {
  const auto amount = dilution.measured("amount");
  const auto name = dilution.text("reading");
  if (!amount || !name) return std::nullopt;
  const Reading reading = *reading_named(*name);
  const auto before = reading_in(dilution, "before", reading);
  const auto after = reading_in(dilution, "after", reading);
  require_solid(dilution.find("amount")->node(), *amount, product.form == Form::liquid);
  const auto grams = grams_of(*amount, product);
  if (!grams) dilution.problem("the amount of a product must be weighed here", "write it in g");
  if (!before || !after || !grams) return std::nullopt;
  return Dilution{*grams, *before, *after, reading};
}

std::optional<FoundVolume> diluted_volume(const Value& vessel, const std::string& method,
                                          const JobReading& reading) {
  const Value* const value = vessel.find("dilution");
  if (value == nullptr) return std::nullopt;
  const Product* const product =
      row_named(reading.catalogue.planning.products, value->text("product"));
  const auto dilution = product ? dilution_from(*value, *product) : std::nullopt;
  if (!dilution) return std::nullopt;
  const double rise = dilution->after - dilution->before;
  const double per_gram =
      rise_per_gram_per_litre(*product, dilution->reading, reading.catalogue.species);
  if (per_gram <= 0 || rise <= 0) {
    value->problem(fmt::format("{} cannot raise the reading from {} to {} mg/L", product->id,
                               shortest(dilution->before), shortest(dilution->after)),
                   "check the product, and which reading was before and after");
    return std::nullopt;
  }
  const TestMethod* const test = row_named(reading.catalogue.planning.test_methods, method);
  double spread = product->strength_half_width;
  if (test != nullptr && test->rows.contains(dilution->reading)) {
    const TestRow& row = test->rows.at(dilution->reading);
    spread = std::hypot(spread, row.half_width_at(dilution->before) / rise,
                        row.half_width_at(dilution->after) / rise);
  }
  return FoundVolume{"dilution", dilution->grams * per_gram / rise, spread, false};
}

void require_agreement(const Value& vessel, const std::vector<FoundVolume>& found) {
  for (std::size_t i = 1; i < found.size(); ++i) {
    const FoundVolume& one = found.front();
    const FoundVolume& other = found.at(i);
    const double apart = std::abs(one.litres - other.litres);
    if (apart <= one.litres * one.give_or_take + other.litres * other.give_or_take) continue;
    vessel.problem(fmt::format("by its {} the vessel holds {} L, by its {} {} L", one.how,
                               fixed(one.litres, 0), other.how, fixed(other.litres, 0)),
                   "measure again, and remove the one that was wrong");
  }
}

// The most certain of all the volumes that the vessel gives.
std::optional<FoundVolume> volume_of(const Value& vessel, const std::string& method,
                                     const JobReading& reading) {
  std::vector<FoundVolume> found;
  for (const auto& one : {stated_volume(vessel), measured_volume(vessel), filled_volume(vessel),
                          diluted_volume(vessel, method, reading)}) {
    if (one) found.push_back(*one);
  }
  const auto is_given = [&](const char* name) { return vessel.node().find(name).has_value(); };
  if (!is_given("volume") && !is_given("dimensions") && !is_given("fill") &&
      !is_given("dilution")) {
    vessel.problem("the vessel has no volume",
                   "add \"volume\", or \"dimensions\", \"fill\" or \"dilution\" to find it from");
  }
  require_agreement(vessel, found);
  const auto best = std::min_element(
      found.begin(), found.end(),
      [](const FoundVolume& a, const FoundVolume& b) { return a.give_or_take < b.give_or_take; });
  return best == found.end() ? std::nullopt : std::optional<FoundVolume>(*best);
}

void require_sensible(const Value& vessel, const FoundVolume& volume) {
  if (volume.litres >= 100 && volume.litres <= 50000) return;
  vessel.problem(fmt::format("expected from 100 to 50000 L, found {} L by its {}",
                             fixed(volume.litres, 0), volume.how),
                 "measure again");
}

}  // namespace

Tub read_vessel(const Value& vessel, const std::string& method, const JobReading& reading) {
  Tub tub;
  tub.shell = vessel.text("shell").value_or("");
  tub.use = vessel.text("use").value_or("");
  tub.bathers_per_week = vessel.number("bathers_per_week").value_or(0);
  if (const auto volume = volume_of(vessel, method, reading)) {
    if (volume->how != "volume") require_sensible(vessel, *volume);
    tub.volume_l = volume->litres;
    tub.volume_give_or_take = volume->give_or_take;
    if (volume->is_assumed) {
      tub.assumed.push_back({"volume_give_or_take", {{"share", volume->give_or_take}}});
    }
  }
  if (const auto bathing = vessel.number("bathing_temperature")) {
    tub.bathing_temperature_c = *bathing;
  } else {
    tub.bathing_temperature_c = reading.catalogue.planning.assumptions.bathing_temperature_c.value;
    tub.assumed.push_back({"bathing_temperature_c", {{"value", tub.bathing_temperature_c}}});
  }
  return tub;
}

}  // namespace tub
