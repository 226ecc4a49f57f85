// The vessel: its volume as stated or worked out, its shell and use.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/text.h"
#include "chemistry/operations.h"
#include "job/read/read_quantity.h"
#include "job/read/slip.h"
#include "job/read/vessel_volume.h"
#include "job/shape/job_parts.h"

namespace tub::job {
namespace {

// How far off a volume may be that nobody stated, as 90 % half-widths. Source: assumptions
// (an owner's manual 5 %, a tape measure 10 %, a fill time 10 %).
constexpr double manual_give_or_take = 0.05;
constexpr double tape_give_or_take = 0.10;
constexpr double fill_give_or_take = 0.10;

std::optional<FoundVolume> stated_volume(const Value& vessel) {
  const Value* const volume = vessel.find("volume");
  if (volume == nullptr) return std::nullopt;
  const auto litres = volume->is_object() ? volume->number("value") : volume->number();
  if (!litres) return std::nullopt;
  const auto share = volume->is_object() ? volume->number("give_or_take") : std::nullopt;
  return FoundVolume{"volume", *litres, share.value_or(manual_give_or_take), !share};
}

constexpr std::array<std::string_view, 3> shape_names = {"rectangle", "round", "oval"};

// The sides of the basin's shape; a problem for each that is missing, or is another shape's.
bool read_sides(const Value& dimensions, Basin& basin) {
  const auto shape = dimensions.text("shape");
  if (!shape) return false;
  const auto* const name = std::find(shape_names.begin(), shape_names.end(), *shape);
  basin.shape = static_cast<Basin::Shape>(name - shape_names.begin());
  const bool is_round = basin.shape == Basin::Shape::round;
  for (const char* side : {"length", "width", "diameter"}) {
    const bool is_its = is_round == (std::string_view(side) == "diameter");
    const bool is_there = dimensions.node().find(side).has_value();
    if (is_there == is_its) continue;
    const char* const what = is_its ? "needs a" : "has no";
    dimensions.problem(fmt::format("the shape {} {} {}", *shape, what, side),
                       is_its ? fmt::format("add \"{}\"", side)
                              : fmt::format("remove \"{}\", or name another shape", side));
  }
  const auto across = dimensions.number(is_round ? "diameter" : "length");
  const auto width = is_round ? across : dimensions.number("width");
  const auto depth = dimensions.number("water_depth");
  if (!across || !width || !depth) return false;
  basin.length_m = *across;
  basin.width_m = *width;
  basin.water_depth_m = *depth;
  return true;
}

// A bench that this water cannot hold is a problem.
bool read_bench(const Value& value, Basin& basin) {
  const SeatBench bench{value.number("length").value_or(0), value.number("width").value_or(0),
                        value.number("height").value_or(0)};
  const bool is_too_large = bench.area_m2() >= basin.area_m2();
  const bool is_too_high = bench.height_m > basin.water_depth_m;
  if (is_too_large) {
    value.problem(fmt::format("the bench covers {} m2, the whole vessel {} m2",
                              fixed(bench.area_m2(), 2), fixed(basin.area_m2(), 2)),
                  "write its length along the wall, and its width across the seat");
  }
  if (is_too_high) {
    value.problem(fmt::format("the bench is {} m high, the water {} m deep",
                              shortest(bench.height_m), shortest(basin.water_depth_m)),
                  "write its height up to the water's surface");
  }
  basin.benches.push_back(bench);
  return !is_too_large && !is_too_high;
}

bool read_benches(const Value& dimensions, Basin& basin) {
  const Value* const benches = dimensions.find("benches");
  if (benches == nullptr) return true;
  bool all_fit = true;
  for (const Value& bench : benches->items()) all_fit = read_bench(bench, basin) && all_fit;
  if (!all_fit || basin.litres() > 0) return all_fit;
  benches->problem(fmt::format("the benches take {} L, the whole vessel holds {} L",
                               fixed(basin.benches_l(), 0), fixed(basin.empty_l(), 0)),
                   "measure the benches again; where two meet, count the corner once");
  return false;
}

std::optional<FoundVolume> measured_volume(const Value& vessel) {
  const Value* const dimensions = vessel.find("dimensions");
  if (dimensions == nullptr) return std::nullopt;
  Basin basin;
  if (!read_sides(*dimensions, basin) || !read_benches(*dimensions, basin)) return std::nullopt;
  return FoundVolume{"dimensions", basin.litres(), tape_give_or_take, true};
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

// Products of the table that raise a reading: "sodium_bicarbonate or soda_ash".
std::string raising(Reading reading, const JobReading& job) {
  const Purpose purpose =
      reading == Reading::calcium_hardness ? Purpose::raise_calcium : Purpose::raise_alkalinity;
  std::vector<std::string> names;
  for (const Product& product : job.catalogue.planning.products) {
    if (product.can(purpose)) names.push_back(product.id);
  }
  return fmt::format("{}", fmt::join(names, " or "));
}

// The product's share of a dilution; a problem if it does not raise the reading.
std::optional<Dilution> dilution_with(const Value& value, const Product& product, Reading reading,
                                      const JobReading& job) {
  Dilution dilution;
  dilution.rise_per_gram_per_litre =
      rise_per_gram_per_litre(product, reading, job.catalogue.species);
  dilution.strength_half_width = product.strength_half_width;
  if (dilution.rise_per_gram_per_litre <= 0) {
    value.find("product")->problem(
        fmt::format("{} does not raise the {}", product.id, name_of(reading)),
        fmt::format("dissolve {}", raising(reading, job)));
    return std::nullopt;
  }
  const auto amount = value.measured("amount");
  if (!amount) return std::nullopt;
  require_solid(value.find("amount")->node(), *amount, product.form == Form::liquid);
  const auto grams = grams_of(*amount, product);
  if (!grams) {
    value.find("amount")->problem("the amount of a product must be weighed here", "write it in g");
    return std::nullopt;
  }
  dilution.grams = *grams;
  return dilution;
}

// The readings of a dilution and what the test is right to; a problem if they did not rise.
bool read_rise(const Value& value, Reading reading, const TestMethod* test, Dilution& dilution) {
  const auto before = reading_in(value, "before", reading);
  const auto after = reading_in(value, "after", reading);
  if (!before || !after) return false;
  dilution.before = *before;
  dilution.after = *after;
  if (test != nullptr && test->rows.contains(reading)) {
    const TestRow& row = test->rows.at(reading);
    dilution.half_width_before = row.half_width_at(*before);
    dilution.half_width_after = row.half_width_at(*after);
  }
  if (dilution.rise() > 0) return true;
  const bool fell = dilution.rise() < 0;
  value.problem(fmt::format("the {} {} mg/L before and {} mg/L after", name_of(reading),
                            fell ? fmt::format("fell: {}", shortest(*before))
                                 : fmt::format("did not change: {}", shortest(*before)),
                            shortest(*after)),
                fell ? "check which of the two was before"
                     : "dissolve more, wait until the jets have mixed it in, and test again");
  return false;
}

// The volume is told no better than this: nothing can be planned by it.
constexpr double most_give_or_take = 0.5;

bool is_told(const Value& value, const Dilution& dilution, const std::string& method) {
  if (dilution.give_or_take() <= most_give_or_take) return true;
  const double test = std::hypot(dilution.half_width_before, dilution.half_width_after);
  value.problem(
      fmt::format("a rise of {} mg/L is too small for a {}: the volume may be off by {} %",
                  shortest(dilution.rise()), method, fixed(100 * dilution.give_or_take(), 0)),
      fmt::format("dissolve so much that it rises by at least {} mg/L, or use a finer test",
                  fixed(std::ceil(4 * test), 0)));
  return false;
}

std::optional<FoundVolume> diluted_volume(const Value& vessel, const std::string& method,
                                          const JobReading& job) {
  const Value* const value = vessel.find("dilution");
  if (value == nullptr) return std::nullopt;
  const Product* const product = row_named(job.catalogue.planning.products, value->text("product"));
  const auto name = value->text("reading");
  if (product == nullptr || !name) return std::nullopt;
  const Reading reading = *reading_named(*name);
  const auto own = value->text("tested_with");
  const std::string& id = own ? *own : method;
  const TestMethod* const test = row_named(job.catalogue.planning.test_methods, std::optional(id));
  auto dilution = dilution_with(*value, *product, reading, job);
  Dilution unread;
  const bool rose = read_rise(*value, reading, test, dilution ? *dilution : unread);
  if (!dilution || !rose || !is_told(*value, *dilution, id)) return std::nullopt;
  return FoundVolume{"dilution", dilution->litres(), dilution->give_or_take(), false};
}

std::string shown(const FoundVolume& volume) {
  return fmt::format("{} L ±{} %", fixed(volume.litres, 0), fixed(100 * volume.give_or_take, 0));
}

void require_agreement(const Value& vessel, const std::vector<FoundVolume>& found) {
  for (std::size_t i = 0; i < found.size(); ++i) {
    for (std::size_t j = i + 1; j < found.size(); ++j) {
      if (agree(found[i], found[j])) continue;
      vessel.problem(fmt::format("by its {} the vessel holds {}, by its {} {}", found[i].how,
                                 shown(found[i]), found[j].how, shown(found[j])),
                     "measure again, and remove the one that was wrong; or say with "
                     "\"give_or_take\" how far off the volume may be");
    }
  }
}

// Several that agree: which one counts is said.
void tell_which_counts(const Value& vessel, const std::vector<FoundVolume>& found,
                       const JobReading& job) {
  if (found.size() < 2) return;
  const FoundVolume& best = most_certain(found);
  for (const FoundVolume& other : found) {
    if (&other == &best || !agree(best, other)) continue;
    job.warn(vessel,
             fmt::format("the plan is for {} by the vessel's {}; its {} agrees with {}",
                         shown(best), best.how, other.how, shown(other)),
             "nothing needs to be done; the more certain one counts");
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
  tell_which_counts(vessel, found, reading);
  return found.empty() ? std::nullopt : std::optional<FoundVolume>(most_certain(found));
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

}  // namespace tub::job
