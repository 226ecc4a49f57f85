// The products at hand, each as its label has it.
#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <set>

#include "base/nearest.h"
#include "job/read/read_quantity.h"
#include "job/shape/job_parts.h"
#include "job/shape/read_shape.h"

namespace tub::job {
namespace {

std::vector<std::string> bases_of(const Product& product) {
  std::vector<std::string> names;
  for (const Product::StrengthBasis& basis : product.strengths) names.push_back(basis.name);
  return names;
}

void put_strength(const Value& item, Product& product) {
  const Value* const strength = item.find("strength");
  if (strength == nullptr) return;
  const Measured given = *strength->measured();
  const std::vector<std::string> bases = bases_of(product);
  if (std::find(bases.begin(), bases.end(), given.unit) == bases.end()) {
    strength->problem(
        fmt::format("the strength of {} is not given in {}", product.id, given.unit),
        bases.empty() ? "remove it" : fmt::format("give it in {}", fmt::join(bases, " or in ")));
    return;
  }
  try {
    product = with_strength(product, given.value, given.unit);
  } catch (const Error& error) {
    for (const Diagnostic& found : error.diagnostics()) {
      strength->problem(found.message, found.help.empty() ? "read the label again" : found.help);
    }
  }
}

void put_density(const Value& item, Product& product) {
  const auto density = item.number("bulk_density");
  if (!density) return;
  (product.form == Form::liquid ? product.density_g_ml : product.bulk_density_g_ml) = *density;
}

bool is_hazard_code(const std::string& text) {
  const std::size_t letters = text.find_first_of("0123456789");
  const std::string head = text.substr(0, letters);
  return (head == "H" || head == "EUH") && text.size() >= letters + 3;
}

void put_hazards(const Value& item, Product& product) {
  const Value* const statements = item.find("hazard_statements");
  if (statements == nullptr) return;
  product.hazard_statements.clear();
  for (const Value& statement : statements->items()) {
    const auto code = statement.text();
    if (!code) continue;
    if (!is_hazard_code(*code)) {
      statement.problem(fmt::format("expected a code as H302, found \"{}\"", *code),
                        "write the code alone, without its words");
    }
    product.hazard_statements.push_back(*code);
  }
}

void put_dose(const Value& item, ShelfItem& shelf_item) {
  const Product& product = shelf_item.product;
  const bool needs_dose = product.can(Purpose::hold_metals);
  const auto dose = item.measured("dose");
  if (needs_dose && !item.node().find("dose")) {
    item.problem(fmt::format("the {} has no dose", product.id),
                 "give its label's: { \"product\": \"sequestrant\", "
                 "\"dose\": \"45 mL per 1000 L\" }");
  }
  if (!dose) return;
  if (!needs_dose) {
    item.find("dose")->problem(
        fmt::format("{} is dosed by the plan, not by a dose of its own", product.id), "remove it");
  }
  (dose->unit == "mL" ? shelf_item.dose_ml_per_1000_l : shelf_item.dose_g_per_1000_l) = dose->value;
}

void check_package(const Value& item, const Product& product) {
  const Value* const package = item.find("package");
  if (package == nullptr) return;
  const Value* const contents = package->is_object() ? package->find("contents") : package;
  if (contents == nullptr) {
    package->problem(fmt::format("the package of {} has a size and no contents", product.id),
                     "say what is in it: { \"contents\": \"500 g\", \"capacity\": \"0.5 L\" }");
    return;
  }
  require_solid(contents->node(), *contents->measured(), product.form == Form::liquid);
}

bool harms(const Product& product, const std::string& shell) {
  const auto& harmed = product.harms_shells;
  return std::find(harmed.begin(), harmed.end(), shell) != harmed.end();
}

// A sanitizer that harms the shell is refused; anything else is left on the shelf by the plan.
void require_harmless(const Value& item, const Product& product, const Tub& tub,
                      const JobReading& reading) {
  if (!harms(product, tub.shell)) return;
  const std::vector<Product>& products = reading.catalogue.planning.products;
  const auto instead = std::find_if(products.begin(), products.end(), [&](const Product& other) {
    return other.can(product.purposes.front()) && !harms(other, tub.shell);
  });
  const std::string way_out =
      instead == products.end() ? "" : fmt::format("; {} does not harm it", instead->id);
  const std::string damage = fmt::format("{} damages a shell of {}: {}", product.id, tub.shell,
                                         product.source_of("harms_shells").text);
  if (product.can(Purpose::sanitize_chlorine) || product.can(Purpose::sanitize_bromine)) {
    item.problem(damage, "take it off the shelf" + way_out);
  } else {
    reading.warn(item, damage, "the plan leaves it on the shelf" + way_out);
  }
}

double days_between(const CalendarDate& from, const CalendarDate& to) {
  const auto day = [](const CalendarDate& date) {
    return std::chrono::sys_days(std::chrono::year(date.year) /
                                 std::chrono::month(static_cast<unsigned>(date.month)) /
                                 std::chrono::day(static_cast<unsigned>(date.day)));
  };
  return static_cast<double>((day(to) - day(from)).count());
}

// A product that weakens is as strong as its age leaves it; without a date of the job, nobody
// knows.
void put_age(const Value& item, Product& product, const std::optional<CalendarDate>& date,
             std::vector<Reason>& assumed) {
  const auto text = item.text("made_on");
  const auto made_on = text ? date_from(*text) : std::nullopt;
  if (!made_on || !product.half_life_days) return;
  if (!date) {
    assumed.push_back({"age_not_known", {{"product", product.id}}});
    return;
  }
  const double days = days_between(*made_on, *date);
  if (days < 0) {
    item.find("made_on")->problem(fmt::format("{} was made after the day of this job", product.id),
                                  "copy the day from the package, or change heading.date");
    return;
  }
  product = aged(product, days);
  assumed.push_back(
      {"weaker_by_age",
       {{"product", product.id}, {"days", days}, {"strength_left_share", product.strength_left}}});
}

}  // namespace

std::vector<ShelfItem> read_shelf(const Value& shelf, const Tub& tub,
                                  const std::optional<CalendarDate>& date,
                                  const JobReading& reading, std::vector<Reason>& assumed) {
  const std::vector<Product>& products = reading.catalogue.planning.products;
  std::vector<ShelfItem> items;
  std::set<std::string> seen;
  for (const Value& item : shelf.items()) {
    const auto id = item.is_object() ? item.text("product") : item.text();
    const Product* const row = row_named(products, id);
    if (row == nullptr) continue;
    if (!seen.insert(row->id).second) {
      item.problem(fmt::format("{} stands on the shelf more than once", row->id),
                   "keep the package that is to be used");
    }
    ShelfItem shelf_item{*row, {}, {}};
    put_strength(item, shelf_item.product);
    put_density(item, shelf_item.product);
    put_hazards(item, shelf_item.product);
    put_dose(item, shelf_item);
    check_package(item, shelf_item.product);
    put_age(item, shelf_item.product, date, assumed);
    require_harmless(item, shelf_item.product, tub, reading);
    items.push_back(std::move(shelf_item));
  }
  return items;
}

}  // namespace tub::job
