#include "job/shape/job_format.h"

#include <fmt/format.h>

#include <filesystem>
#include <nlohmann/json.hpp>

#include "job/read/overlay.h"
#include "job/shape/job_shape.h"
#include "job/shape/json_text.h"
#include "job/shape/read_shape.h"
#include "job/shape/schema_parts.h"
#include "job/shape/shape_schema.h"

namespace tub::job {
namespace {

using Json = nlohmann::ordered_json;

Json bare_job(const CalendarDate& date) {
  return {
      {"tubwright", 1},
      {"heading", {{"date", fmt::format("{:04}-{:02}-{:02}", date.year, date.month, date.day)}}},
      {"vessel", {{"volume", nullptr}, {"shell", "acrylic"}, {"use", "private"}}},
      {"source_water",
       {{"tested_with", "strip"},
        {"ph", nullptr},
        {"total_alkalinity", nullptr},
        {"total_hardness", nullptr}}},
      {"retest_with", "strip"},
      {"sanitizer", "dichlor"},
      {"targets", "common_practice"},
      {"shelf", Json::array({"sodium_bicarbonate", "dry_acid", "soda_ash", "dichlor_dihydrate",
                             "calcium_chloride_dihydrate"})},
      {"measure", "grams_and_us_spoons"},
      {"sheets", Json::array({"startup_card"})}};
}

std::string example_of(const FieldShape& shape) {
  if (const auto* const either = std::get_if<EitherShape>(&shape.form)) {
    return example_of(*either->plain);
  }
  if (const auto* const quantity = std::get_if<QuantityShape>(&shape.form)) {
    return "\"" + quantity->example + "\"";
  }
  if (std::holds_alternative<NumberShape>(shape.form)) return "7.9";
  if (const auto* const name = std::get_if<NameShape>(&shape.form)) {
    return fmt::format("{}", fmt::join(name->usable, ", "));
  }
  return "";
}

std::string comment_on(const Field& field, const Json& value) {
  std::string text = field.about;
  const std::string example = example_of(field.shape);
  if (value.is_null())
    text = fmt::format("FILL IN, as {}{}", example, text.empty() ? "" : "; " + text);
  const bool is_choice = !value.is_null() && example.find('"') == std::string::npos;
  if (is_choice && !example.empty()) text += fmt::format("; one of: {}", example);
  return text;
}

const ObjectShape* object_of(const FieldShape& shape) {
  return std::get_if<ObjectShape>(&shape.form);
}

// The job with a comment before each field, and at the end of each object what else it may hold.
Json with_comments(const Json& job, const ObjectShape& shape) {
  Json result = Json::object();
  std::vector<std::string> others;
  for (const Field& field : shape.fields) {
    if (!job.contains(field.name)) {
      others.push_back(field.name);
      continue;
    }
    const Json& value = job[field.name];
    const ObjectShape* const object = value.is_object() ? object_of(field.shape) : nullptr;
    const std::string comment = comment_on(field, value);
    if (!comment.empty()) result["// " + field.name] = comment;
    result[field.name] = object == nullptr ? value : with_comments(value, *object);
  }
  if (!others.empty()) result["// also"] = fmt::format("{}", fmt::join(others, ", "));
  return result;
}

// A job may lie elsewhere than the shop's file, from where a logo's path starts.
void start_logo_from(const std::string& file, Json& job) {
  const Json::json_pointer place("/heading/prepared_by/logo");
  if (!job.contains(place)) return;
  const std::filesystem::path folder = std::filesystem::path(file).parent_path();
  job[place] = (folder / job[place].get<std::string>()).string();
}

// The shop's settings in place of ours.
Json with_settings(Json job, const NamedText& shop, const Catalogue& catalogue) {
  Problems problems;
  const Node node = Node::parse(shop.text, shop.file, problems);
  static_cast<void>(read_shape(node, shop_shape(catalogue), catalogue));
  problems.throw_if_any();
  for (const auto& [name, value] : node.json().items()) {
    if (job.contains(name) && name != "heading") job.erase(name);
  }
  lay_over(job, node.json());
  start_logo_from(shop.file, job);
  return job;
}

}  // namespace

std::string job_schema(const Catalogue& catalogue) {
  Json schema = schema::head("tubwright job", "One vessel, its water, its shelf, and the sheets.");
  schema.update(shape_schema(job_shape(catalogue)));
  return to_text(schema);
}

std::string starter_job(const CalendarDate& date, const std::optional<NamedText>& shop,
                        const Catalogue& catalogue) {
  Json job = bare_job(date);
  if (shop) job = with_settings(std::move(job), *shop, catalogue);
  const FieldShape shape = job_shape(catalogue);
  return with_comments(job, *object_of(shape)).dump(2) + "\n";
}

}  // namespace tub::job
