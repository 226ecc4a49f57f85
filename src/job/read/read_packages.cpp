// What a container label says of a package: its contents, where it stays, whose line stands on it.
#include <algorithm>
#include <cmath>

#include "job/shape/job_parts.h"
#include "job/shape/read_shape.h"

namespace tub::job {
namespace {

/// A granular product whose poured density nobody gave fills about a litre a kilogram. Assumption:
/// between the bulk densities of `planning/data/products.json`
constexpr double usual_density_g_ml = 1;

std::optional<CalendarDate> date_of(const Value& object, std::string_view name) {
  const auto text = object.text(name);
  return text ? date_from(*text) : std::nullopt;
}

void read_contents(const Value& given, const Product& product, Package& package) {
  const Value* const contents = given.is_object() ? given.find("contents") : &given;
  const auto amount = contents == nullptr ? std::nullopt : contents->measured();
  if (!amount) return;
  const bool is_volume = amount->unit == "mL";
  (is_volume ? package.contents_ml : package.contents_g) = amount->value;
  const double density = product.form == Form::liquid
                             ? product.density_g_ml.value_or(usual_density_g_ml)
                             : product.bulk_density_g_ml.value_or(usual_density_g_ml);
  const double volume_ml = std::round(is_volume ? amount->value : amount->value / density);
  constexpr double ml_a_litre = 1000;
  package.capacity_ml =
      given.is_object() ? given.number("capacity").value_or(0) * ml_a_litre : volume_ml;
  if (package.capacity_ml <= 0) package.capacity_ml = volume_ml;
}

void put_line(const Value& given, Package& package) {
  package.supplier_where = given.node().where();
  if (const auto name = given.text()) {
    package.supplier["name"] = *name;
    return;
  }
  for (const char* const part : {"name", "address", "phone"}) {
    if (const auto text = given.text(part)) package.supplier[part] = *text;
  }
  package.emergency_phone = given.text("emergency_phone").value_or("");
}

/// The shop's own line, where the package names no supplier.
void put_shop(const Value& job, Package& package) {
  const Value* const heading = job.find("heading");
  const Value* const shop = heading == nullptr ? nullptr : heading->find("prepared_by");
  if (shop != nullptr) {
    put_line(*shop, package);
  } else {
    package.supplier_where = (heading == nullptr ? job : *heading).node().where();
  }
}

Package::Stays stays_of(const Value& item) {
  const auto place = item.text("stays_in");
  if (!place) return Package::Stays::with_owner;
  return *place == "trade" ? Package::Stays::in_trade : Package::Stays::in_workplace;
}

Package package_of(const Value& job, const Value& item, const Value& given,
                   const Product& product) {
  Package package;
  package.product = product.id;
  read_contents(given, product, package);
  package.maker_label_name = item.text("maker_label_name").value_or("");
  const Value* const supplier = item.find("supplier");
  if (supplier != nullptr) {
    put_line(*supplier, package);
  } else {
    put_shop(job, package);
  }
  package.lot = item.text("lot").value_or("");
  package.made_on = date_of(item, "made_on");
  package.use_by = date_of(item, "use_by");
  package.ufi = item.text("ufi").value_or("");
  package.authorisation = item.text("authorisation").value_or("");
  package.stays = stays_of(item);
  package.has_own_strength = item.find("strength") != nullptr;
  package.has_own_statements = item.find("hazard_statements") != nullptr;
  package.where = item.node().where();
  return package;
}

/// The product at its label's strength, however much of it has been lost since.
Product as_labelled(const Value& item, const std::string& id, const Product& on_shelf,
                    const JobReading& reading) {
  Product product = on_shelf;
  const Product* const row = row_named(reading.catalogue.planning.products, std::optional(id));
  const auto strength = item.measured("strength");
  if (row == nullptr) return product;
  product.strength = row->strength;
  product.parts = row->parts;
  if (!strength) return product;
  try {
    const Product strong = with_strength(*row, strength->value, strength->unit);
    product.strength = strong.strength;
    product.parts = strong.parts;
  } catch (const Error&) {
    return product;  // the shelf's reader has told what is wrong with it
  }
  return product;
}

}  // namespace

std::vector<Package> read_packages(const Value& job, const std::vector<ShelfItem>& shelf,
                                   const JobReading& reading) {
  std::vector<Package> packages;
  const Value* const items = job.find("shelf");
  if (items == nullptr) return packages;
  for (const Value& item : items->items()) {
    const Value* const given = item.is_object() ? item.find("package") : nullptr;
    const auto id = item.is_object() ? item.text("product") : std::nullopt;
    if (given == nullptr || !id) continue;
    const auto row = std::find_if(shelf.begin(), shelf.end(),
                                  [&](const ShelfItem& each) { return each.product.id == *id; });
    if (row == shelf.end()) continue;
    packages.push_back(package_of(job, item, *given, row->product));
    packages.back().as_labelled = as_labelled(item, *id, row->product, reading);
  }
  return packages;
}

}  // namespace tub::job
