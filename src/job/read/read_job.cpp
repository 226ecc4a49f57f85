// Job and shop file become one job, with every problem of both.
#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "job/job.h"
#include "job/label_code/fingerprint.h"
#include "job/read/overlay.h"
#include "job/shape/job_parts.h"
#include "job/shape/job_shape.h"
#include "job/shape/read_shape.h"
#include "planning/steps/gate.h"

namespace tub::job {
namespace {

using Json = nlohmann::ordered_json;

/// A job and a shop's file as they were read, before anything is made of them.
struct Files {
  const NamedText& job;
  const std::optional<NamedText>& shop;
  // What a shop's file says is read with it and with the job: its problems are counted once.
  Problems shop_problems{};
  Problems problems{};
  std::vector<Origin> origins{};

  std::vector<Diagnostic> at_their_places(const std::vector<Diagnostic>& found) const {
    std::vector<Diagnostic> result;
    const auto moved = shop ? relocated(found, job.file, shop->file, origins) : found;
    for (const Diagnostic& diagnostic : moved) add_once(diagnostic, result);
    return result;
  }

  std::vector<Diagnostic> all_problems() const {
    std::vector<Diagnostic> found = shop_problems.found();
    found.insert(found.end(), problems.found().begin(), problems.found().end());
    return at_their_places(found);
  }

 private:
  static void add_once(const Diagnostic& diagnostic, std::vector<Diagnostic>& result) {
    const auto same = std::find_if(result.begin(), result.end(), [&](Diagnostic other) {
      other.more_like_it = diagnostic.more_like_it;
      return other == diagnostic;
    });
    if (same == result.end()) {
      result.push_back(diagnostic);
    } else {
      same->more_like_it = std::max(same->more_like_it, diagnostic.more_like_it);
    }
  }
};

// The text's tree; a problem, and nothing, if it is no JSON.
std::optional<Node> parsed(const NamedText& text, Problems& problems) {
  try {
    return Node::parse(text.text, text.file, problems);
  } catch (const Error& error) {
    for (const Diagnostic& diagnostic : error.diagnostics()) problems.add(diagnostic);
    return std::nullopt;
  }
}

void place_texts(std::vector<PlacedText>& texts, const Files& files) {
  for (PlacedText& text : texts) {
    text.where = files.at_their_places({{"", text.where, {}, ""}}).front().where;
  }
}

// Tells a logo where it was named, so that its path can start there.
void place_logo(std::optional<LogoFile>& logo, const Files& files) {
  if (!logo) return;
  logo->where = files.at_their_places({{"", logo->where, {}, ""}}).front().where;
  const bool is_shops = files.shop && logo->where.starts_with(files.shop->file + ": ");
  logo->base = is_shops ? files.shop->file : files.job.file;
}

void throw_if_any(const Files& files) {
  const std::vector<Diagnostic> found = files.all_problems();
  if (!found.empty()) throw Error(found);
}

// The text of a member, noted with its place.
std::string placed_text(const Value& object, std::string_view name, Job& result) {
  const Value* const member = object.find(name);
  if (member == nullptr || !member->is_text()) return "";
  result.texts.push_back({*member->text(), member->node().where()});
  return *member->text();
}

void read_poison_centre(const Value& shop, Heading& heading, Job& result) {
  const Value* const centre = shop.find("poison_centre");
  if (centre == nullptr) return;
  heading.poison_centre_name = placed_text(*centre, "name", result);
  heading.poison_centre_phone = placed_text(*centre, "phone", result);
}

Heading read_heading(const Value& job, const Catalogue& catalogue, Job& result) {
  Heading heading;
  for (const Country& country : catalogue.countries) {
    if (job.text("country") == country.id) heading.country = country;
  }
  if (const Value* const value = job.find("heading")) {
    if (const auto date = value->text("date")) heading.date = date_from(*date);
    heading.prepared_for = placed_text(*value, "prepared_for", result);
    if (const Value* const shop = value->find("prepared_by")) {
      heading.shop_name = placed_text(*shop, "name", result);
      heading.shop_phone = placed_text(*shop, "phone", result);
      heading.shop_address = placed_text(*shop, "address", result);
      read_poison_centre(*shop, heading, result);
      if (const Value* const logo = shop->find("logo")) {
        result.logo = LogoFile{*logo->text(), "", logo->node().where()};
      }
    }
  }
  if (const Value* const vessel = job.find("vessel")) {
    heading.vessel_name = placed_text(*vessel, "name", result);
    heading.shell = vessel->text("shell").value_or("");
  }
  return heading;
}

bool is_in_us_gallons(const Value& job) {
  const Value* const vessel = job.find("vessel");
  const Value* volume = vessel == nullptr ? nullptr : vessel->find("volume");
  if (volume != nullptr && volume->is_object()) volume = volume->find("value");
  if (volume == nullptr || !volume->is_read()) return false;
  const std::string text = volume->node().text().value_or("");
  const bool is_us = text.find("US") != std::string::npos || text.find("us") != std::string::npos;
  return is_us && text.find("gal") != std::string::npos;
}

// A sheet is in the units that the person weighs and measures in.
void set_units(const Value& job, const MeasureSystem& measure, Heading& heading) {
  const bool weighs_in_ounces = measure.mass_unit == "oz";
  heading.weighs_in = weighs_in_ounces ? UnitSystem::us : UnitSystem::metric;
  heading.measures_in =
      weighs_in_ounces || is_in_us_gallons(job) ? UnitSystem::us : UnitSystem::metric;
}

void read_waters(const Value& job, PlanRequest& request, const JobReading& reading) {
  const Value* const source = job.find("source_water");
  const Value* const tub = job.find("tub_water");
  const bool has_source = job.node().find("source_water").has_value();
  const bool has_tub = job.node().find("tub_water").has_value();
  if (has_source && has_tub) {
    job.problem("the plan can start from source_water or from tub_water, not from both",
                "keep tub_water for a full tub; water to replace with is second_source");
  } else if (!has_source && !has_tub) {
    job.problem("there is no water to start from",
                "add \"source_water\" for a fresh fill, or \"tub_water\" for a full tub");
  }
  if (source != nullptr) request.water = read_slip(*source, reading);
  if (tub != nullptr) {
    request.water = read_slip(*tub, reading);
    request.water_is_in_tub = true;
  }
  if (const Value* const second = job.find("second_source")) {
    request.second_source = read_slip(*second, reading);
  }
}

// A sanitizer that hands over needs something to hand over to, later.
void warn_of_no_heir(const Value& sanitizer, const PlanRequest& request,
                     const JobReading& reading) {
  const SanitizerRow* const row =
      row_named(reading.catalogue.planning.sanitizers, std::optional(request.sanitizer.kind));
  if (row == nullptr || row->then.empty()) return;
  const bool has_heir =
      std::any_of(request.shelf.begin(), request.shelf.end(), [&](const ShelfItem& item) {
        return std::find(row->then.begin(), row->then.end(), item.product.id) != row->then.end();
      });
  if (has_heir) return;
  reading.warn(sanitizer, "nothing on the shelf takes over when cyanuric acid is at its limit",
               fmt::format("it will take {}", fmt::join(row->then, " or ")));
}

// What dichlor leaves behind decides whether more of it may be poured, and who may bathe.
void warn_of_untested_stabiliser(const Value& tub_water, const PlanRequest& request,
                                 const JobReading& reading) {
  const PlanningData& planning = reading.catalogue.planning;
  const SanitizerRow* const row =
      row_named(planning.sanitizers, std::optional(request.sanitizer.kind));
  const std::string key(key_of(Reading::cyanuric_acid));
  if (row == nullptr || !brings_stabiliser(*row, planning.products)) return;
  const bool is_tested =
      request.water.value(key) ||
      std::any_of(request.retests.begin(), request.retests.end(),
                  [&](const RetestReport& one) { return one.readings.contains(key); });
  if (is_tested) return;
  reading.warn(
      tub_water,
      fmt::format("cyanuric acid was not tested, and {} brings it", request.sanitizer.kind),
      "test it and add \"cyanuric_acid\": too much of it keeps people out");
}

PlanRequest read_request(const Value& job, const Heading& heading, const JobReading& reading) {
  PlanRequest request;
  const std::string method = job.text("retest_with").value_or("strip");
  if (const Value* const vessel = job.find("vessel")) {
    request.tub = read_vessel(*vessel, method, reading);
  }
  read_waters(job, request, reading);
  if (const Value* const sanitizer = job.find("sanitizer")) {
    request.sanitizer = read_sanitizer(*sanitizer);
  }
  request.targets = read_targets(job, request.tub, request.sanitizer, reading);
  if (const Value* const shelf = job.find("shelf")) {
    request.shelf = read_shelf(*shelf, request.tub, heading.date, reading, request.assumed);
  }
  if (const Value* const sanitizer = job.find("sanitizer")) {
    warn_of_no_heir(*sanitizer, request, reading);
  }
  const PlanningData& planning = reading.catalogue.planning;
  if (const auto* const row = row_named(planning.measures, job.text("measure"))) {
    request.measure = *row;
  }
  if (const auto* const row = row_named(planning.test_methods, std::optional(method))) {
    request.retest_with = *row;
  }
  if (const Value* const readings = job.find("readings")) {
    request.retests = read_retests(*readings, method, reading);
  }
  if (const Value* const tub_water = job.find("tub_water")) {
    warn_of_untested_stabiliser(*tub_water, request, reading);
  }
  return request;
}

void read_settings(const Value& shop, Job& job) {
  job.language = shop.text("language");
  if (const Value* const stocks = shop.find("stocks")) {
    for (const auto& member : stocks->node().members()) {
      const Value* const stock = stocks->find(member.name);
      const auto request = stock == nullptr ? std::nullopt : read_stock(*stock);
      if (request) job.stocks[member.name] = *request;
    }
  }
  job.printers = read_printers(shop);
}

}  // namespace

Outcome<Job> read_job(const NamedText& job_text, const std::optional<NamedText>& shop_text,
                      const Catalogue& catalogue) {
  Files files{job_text, shop_text};
  Outcome<Job> outcome;
  const JobReading reading{catalogue, outcome.warnings};
  const std::optional<Node> shop =
      shop_text ? parsed(*shop_text, files.shop_problems) : std::optional<Node>();
  const std::optional<Node> own = parsed(job_text, files.problems);
  if (shop) read_settings(read_shape(*shop, shop_shape(catalogue), catalogue), outcome.value);
  if (!own) throw_if_any(files);

  auto merged = std::make_shared<Json>(own->json());
  if (shop) files.origins = lay_over(*merged, shop->json());
  const Node whole = Node::over(merged, job_text.file, files.problems);
  const Value value = read_shape(whole, job_shape(catalogue), catalogue);
  if (!value.is_object()) throw_if_any(files);
  outcome.value.heading = read_heading(value, catalogue, outcome.value);
  outcome.value.request = read_request(value, outcome.value.heading, reading);
  set_units(value, outcome.value.request.measure, outcome.value.heading);
  outcome.value.packages = read_packages(value, outcome.value.request.shelf, reading);
  outcome.value.sheets = read_sheets(value);
  outcome.value.rules = value.text("rules").value_or("");
  throw_if_any(files);

  outcome.value.whole = merged->dump();
  outcome.value.request.fingerprint = fingerprint(*merged);
  outcome.value.text = merged->dump();
  place_texts(outcome.value.texts, files);
  place_logo(outcome.value.logo, files);
  outcome.warnings = files.at_their_places(outcome.warnings);
  return outcome;
}

}  // namespace tub::job
