// The volume, down to the lengths, the hose or the dilution that it was found by.
#include <fmt/format.h>

#include <array>
#include <numbers>

#include "chemistry/operations.h"
#include "job/read/slip.h"
#include "why/asking.h"
#include "why/equations.h"
#include "why/grounds.h"
#include "why/judged_rules.h"
#include "why/product_factors.h"
#include "why/rules.h"

namespace tub::why {
namespace {

/// How the job gives the volume, each way by itself.
class Vessel {
 public:
  explicit Vessel(Asking& asking) : asking_(asking) {}

  std::string stated() {
    return job_quantity(asking_, "/vessel/volume", QuantityKind::volume, "volume");
  }

  std::string by_dimensions() {
    const auto shape = asking_.in_job().text(at("shape"));
    const std::string depth = length(at("water_depth"), "water_depth");
    if (!shape || depth.empty()) return "";
    const bool is_round = *shape == "round";
    const std::string across = length(at(is_round ? "diameter" : "length"), "length");
    const std::string width = is_round ? across : length(at("width"), "width");
    if (across.empty() || width.empty()) return "";
    std::vector<Input> sides = {{"length", across}, {"width", width}, {"water_depth", depth}};
    if (*shape != "rectangle") {
      sides.push_back({"quarter_of_pi", constant(asking_, "a quarter of pi", std::numbers::pi / 4,
                                                 "", definition("circle or ellipse in its box"))});
    }
    const std::string box = put("dimensions#box", "box", "m3", "product", std::move(sides));
    const std::string water =
        put("dimensions#water", "water", "m3", "difference", less_benches(box));
    return put("dimensions", "volume_by_its_dimensions", "L", "product",
               {{"water", water}, {"litres", litres_in_cubic_metre()}});
  }

  std::string by_fill() {
    const std::string time = job_quantity(asking_, "/vessel/fill/time", QuantityKind::time, "time");
    const std::string flow = job_quantity(asking_, "/vessel/fill/flow", QuantityKind::flow, "flow");
    if (time.empty() || flow.empty()) return "";
    const std::string minute =
        constant(asking_, "seconds in a minute", 60, "s/min", definition("SI"));
    return put("fill", "volume_by_its_fill", "L", "amount_for",
               {{"time", time}, {"flow", flow}, {"seconds_in_a_minute", minute}});
  }

  std::string by_dilution() {
    const std::string rise = dilution_rise();
    const Product* product = dilution_product();
    const auto reading = dilution_reading();
    if (rise.empty() || product == nullptr || !reading) return "";
    const std::string amount =
        job_quantity(asking_, "/vessel/dilution/amount", QuantityKind::mass, "amount");
    if (amount.empty()) return "";
    const std::string milli = constant(asking_, "mg per g", 1000, "mg/g", definition("SI"));
    const std::string brought =
        put("dilution#brought", "brought_in", "mg as the reading counts", "product",
            {{"amount", amount},
             {"mg_per_g", milli},
             {"per_mg", per_product(asking_, *product, std::string(key_of(*reading)))}});
    return put("dilution", "volume_by_dilution", "L", "quotient",
               {{"brought_in", brought}, {"rise", rise}});
  }

  /// The 90 % half-width of a dilution: strength and both readings.
  std::string dilution_error() {
    const Product* product = dilution_product();
    const std::string rise = dilution_rise();
    const auto reading = dilution_reading();
    if (product == nullptr || rise.empty() || !reading) return "";
    std::vector<Input> errors = {{"strength", product_row(asking_, *product, "strength_half_width",
                                                          product->strength_half_width, "share")}};
    for (const char* which : {"before", "after"}) {
      const std::string read = dilution_end(which);
      const std::string error = half_width(*reading, asking_.value(read));
      if (error.empty()) continue;
      errors.push_back({which, put(fmt::format("dilution#error_{}", which), "error_of_reading",
                                   "share", "quotient", {{"half_width", error}, {"rise", rise}})});
    }
    return put("dilution#give_or_take", "give_or_take", "share", "root_sum_of_squares",
               std::move(errors));
  }

 private:
  static std::string at(const char* field) { return std::string("/vessel/dimensions/") + field; }
  std::string length(const std::string& pointer, const char* name) {
    return job_quantity(asking_, pointer, QuantityKind::length, name);
  }
  std::string put(const std::string& id, const char* name, const char* unit, const char* equation,
                  std::vector<Input> inputs) {
    return asking_.put("volume by " + id, name, unit, equation, std::move(inputs));
  }
  std::string litres_in_cubic_metre() {
    return constant(asking_, "litres in a cubic metre", 1000, "L/m3", definition("SI"));
  }

  std::vector<Input> less_benches(const std::string& box) {
    std::vector<Input> parts = {{"box", box}};
    for (std::size_t i = 0; asking_.in_job().has(fmt::format("{}/{}", at("benches"), i)); ++i) {
      const std::string bench = fmt::format("{}/{}", at("benches"), i);
      std::vector<Input> sides;
      for (const char* side : {"length", "width", "height"}) {
        const std::string node = length(bench + "/" + side, side);
        if (!node.empty()) sides.push_back({side, node});
      }
      parts.push_back(
          {fmt::format("bench_{}", i + 1),
           put(fmt::format("dimensions#bench_{}", i), "bench", "m3", "product", std::move(sides))});
    }
    return parts;
  }

  /// Both readings were taken with it.
  const TestMethod& dilution_method() const {
    const auto own = asking_.in_job().text("/vessel/dilution/tested_with");
    for (const TestMethod& method : asking_.data.test_methods) {
      if (own && method.id == *own) return method;
    }
    return asking_.request.retest_with;
  }
  const Product* dilution_product() const {
    const auto id = asking_.in_job().text("/vessel/dilution/product");
    for (const Product& product : asking_.data.products) {
      if (id && product.id == *id) return &product;
    }
    return nullptr;
  }
  std::optional<Reading> dilution_reading() const {
    const auto name = asking_.in_job().text("/vessel/dilution/reading");
    return name ? reading_named(*name) : std::nullopt;
  }
  std::string dilution_end(const char* which) {
    const auto reading = dilution_reading();
    const SlipField* slip = reading ? slip_field_of(*reading) : nullptr;
    if (slip == nullptr) return "";
    return job_quantity(asking_, std::string("/vessel/dilution/") + which, slip->kind, which);
  }
  std::string dilution_rise() {
    const std::string before = dilution_end("before");
    const std::string after = dilution_end("after");
    if (before.empty() || after.empty()) return "";
    return put("dilution#rise", "rise", "mg/L", "difference",
               {{"after", after}, {"before", before}});
  }
  std::string half_width(Reading reading, double value) {
    const TestMethod& method = dilution_method();
    const auto row = method.rows.find(reading);
    if (row == method.rows.end()) return "";
    return data_row(
        asking_, fmt::format("test_methods.json: {}/{} at {}", method.id, name_of(reading), value),
        "half_width", row->second.half_width_at(value), unit_of_key(key_of(reading)),
        row->second.source);
  }

  Asking& asking_;
};

struct Way {
  std::string (Vessel::*find)();
  double share;  // of error where nobody stated one; 0: it is worked out
  const char* why;
};

constexpr std::array ways = {
    Way{&Vessel::stated, 0.05, "an owner's manual"},
    Way{&Vessel::by_dimensions, 0.10, "a tape measure"},
    Way{&Vessel::by_fill, 0.10, "a fill time"},
    Way{&Vessel::by_dilution, 0, ""},
};

/// The way whose litres the plan took.
const Way* way_taken(Asking& asking, std::string& node) {
  Vessel vessel(asking);
  for (const Way& way : ways) {
    node = (vessel.*way.find)();
    if (!node.empty() && agrees(asking.value(node), asking.plan.volume_l)) return &way;
  }
  node.clear();
  for (const Way& way : ways) {
    if (node.empty()) node = (vessel.*way.find)();
  }
  return nullptr;
}

/// The half-width as the job gives it or lets it be worked out.
std::string stated_error(Asking& asking, double stated) {
  const std::string own =
      job_quantity(asking, "/vessel/volume/give_or_take", QuantityKind::share, "give_or_take");
  if (!own.empty() && agrees(asking.value(own), stated)) return own;
  std::string node;
  const Way* way = way_taken(asking, node);
  if (way == nullptr || way->share == 0) {
    const std::string error = Vessel(asking).dilution_error();
    if (!error.empty() && agrees(asking.value(error), stated)) return error;
  }
  const bool is_known = way != nullptr && way->share > 0;
  const std::string why = is_known ? way->why : "as the vessel was given";
  return constant(asking, "volume error: " + why, stated, "share",
                  assumed_by_us(why + ", give or take so much"));
}

}  // namespace

Node explain_volume(Asking& asking, const Place& place) {
  static_cast<void>(place);
  std::string node;
  if (way_taken(asking, node) != nullptr) return same_as(asking, node);
  const double stated = asking.job.request.tub.volume_l;
  if (node.empty()) {
    node = asking.put(
        Node{"job:/vessel", "volume", 0, "L", "given", {}, Origin{Ground::job, "/vessel"}}, stated);
  }
  return asking.plan.volume_l == stated ? same_as(asking, node) : judged_value(asking, node);
}

Node explain_volume_error(Asking& asking, const Place& place) {
  static_cast<void>(place);
  const double stated = asking.job.request.tub.volume_give_or_take;
  const std::string node = stated_error(asking, stated);
  return asking.plan.volume_give_or_take == stated ? same_as(asking, node)
                                                   : judged_value(asking, node);
}

}  // namespace tub::why
