#include "labels/classified_substances.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/node.h"
#include "base/text.h"
#include "planning/tables/data_row.h"

namespace tub::labels {
namespace {

const Names substance_fields = {"id",          "product",  "name",        "cas",
                                "ec",          "index_no", "index_name",  "classification",
                                "supplements", "limits",   "m_factors",   "notes",
                                "form",        "grade",    "read_across", "source"};
const Names substance_forms = {"solution"};

std::string optional_text(const Node& row, std::string_view field) {
  const auto found = row.find(field);
  return found ? found->text().value_or("") : "";
}

std::vector<Node> optional_items(const Node& row, std::string_view field) {
  const auto found = row.find(field);
  return found ? found->items() : std::vector<Node>{};
}

HarmonisedClass read_class(const Node& row) {
  return {data_row::text(row, "class"), data_row::text(row, "code")};
}

ConcentrationLimit read_limit(const Node& row) {
  return {data_row::text(row, "code"), optional_text(row, "class"),
          data_row::number(row, "from", 0, 100), data_row::optional_number(row, "below", 0, 100)};
}

void read_entry(const Node& row, ClassifiedSubstance& substance) {
  substance.index_no = optional_text(row, "index_no");
  substance.index_name = optional_text(row, "index_name");
  for (const Node& item : optional_items(row, "classification")) {
    substance.classification.push_back(read_class(item));
  }
  substance.supplements = data_row::texts(row, "supplements");
  for (const Node& item : optional_items(row, "limits")) {
    substance.limits.push_back(read_limit(item));
  }
  for (const Node& item : optional_items(row, "m_factors")) {
    substance.m_factors.push_back(item.whole(1, 1000000).value_or(1));
  }
  substance.notes = data_row::texts(row, "notes");
}

ClassifiedSubstance read_substance(const Node& row) {
  row.allow_only(substance_fields);
  ClassifiedSubstance substance;
  substance.id = data_row::text(row, "id");
  substance.product = optional_text(row, "product");
  substance.name = data_row::text(row, "name");
  substance.cas = data_row::text(row, "cas");
  substance.ec = data_row::text(row, "ec");
  read_entry(row, substance);
  if (const auto form = row.find("form"))
    substance.is_solution = form->one_of(substance_forms).has_value();
  if (const auto grade = row.find("grade")) {
    substance.grade_percent = data_row::number(*grade, "from", 0, 100);
    substance.grade_basis = data_row::text(*grade, "basis");
  }
  substance.read_across = optional_text(row, "read_across");
  if (const auto source = row.require("source")) {
    substance.source = read_provenance(*source).value_or(Provenance{});
  }
  return substance;
}

[[noreturn]] void ask_for_codes(std::string message) {
  throw Error(Diagnostic{
      .message = std::move(message),
      .where = {},
      .trace = {"looking up hazard statements for a container label"},
      .help =
          "write \"hazard_statements\" beside the product, as section 2 of the package's safety "
          "data sheet lists them"});
}

const ClassifiedSubstance& entry_of(const std::vector<ClassifiedSubstance>& substances,
                                    std::string_view product) {
  const auto row = [&](auto claim) {
    return std::find_if(substances.begin(), substances.end(), claim);
  };
  auto found = row([&](const auto& substance) { return substance.product == product; });
  if (found != substances.end() && !found->read_across.empty()) {
    const std::string other = found->read_across;
    found = row([&](const auto& substance) { return substance.id == other; });
  }
  if (found == substances.end() || found->index_no.empty()) {
    ask_for_codes(
        fmt::format("{} has no harmonised classification, so its hazards depend on the "
                    "maker's product",
                    product));
  }
  return *found;
}

Names codes_of_class(const ClassifiedSubstance& substance) {
  Names codes;
  for (const HarmonisedClass& row : substance.classification) codes.push_back(row.code);
  codes.insert(codes.end(), substance.supplements.begin(), substance.supplements.end());
  return codes;
}

bool has_limit(const ClassifiedSubstance& substance, std::string_view code) {
  return std::any_of(substance.limits.begin(), substance.limits.end(),
                     [code](const ConcentrationLimit& limit) { return limit.code == code; });
}

/// What a solution's limits say of a strength; every class of the entry must have a limit.
Names codes_of_solution(const ClassifiedSubstance& substance, double percent) {
  for (const HarmonisedClass& row : substance.classification) {
    if (has_limit(substance, row.code)) continue;
    ask_for_codes(
        fmt::format("the harmonised entry of {} does not say from which strength {} "
                    "holds",
                    substance.name, row.code));
  }
  Names codes;
  for (const ConcentrationLimit& limit : substance.limits) {
    const bool is_below = !limit.below_percent || percent < *limit.below_percent;
    if (percent >= limit.from_percent && is_below) codes.push_back(limit.code);
  }
  if (codes.empty()) {
    ask_for_codes(fmt::format("the harmonised entry of {} says nothing of {} %", substance.name,
                              shortest(percent)));
  }
  return codes;
}

/// Below it, a package without a grade of its own is a mixture. Source: an assumption of ours
constexpr double least_grade_percent = 90;

void require_grade(const ClassifiedSubstance& entry, const PackageStrength& strength) {
  const bool has_grade = entry.grade_percent && strength.basis == entry.grade_basis;
  const double found = has_grade ? strength.percent : strength.mass_percent_active;
  const double least = has_grade ? *entry.grade_percent : least_grade_percent;
  if (found >= least) return;
  ask_for_codes(
      fmt::format("{} of {} {} is a mixture, and its harmonised entry speaks of the "
                  "substance itself",
                  entry.name, shortest(strength.percent), strength.basis));
}

}  // namespace

std::vector<ClassifiedSubstance> parse_substances(std::string_view text, const std::string& file) {
  Problems problems;
  const Node root = Node::parse(text, file, problems);
  const std::vector<Node> rows = data_row::items(root, "substances");
  data_row::report_duplicate_ids(rows);
  std::vector<ClassifiedSubstance> substances = data_row::read_all(rows, read_substance);
  problems.throw_if_any();
  return substances;
}

std::vector<std::string> harmonised_codes(const std::vector<ClassifiedSubstance>& substances,
                                          std::string_view product,
                                          const std::optional<PackageStrength>& strength) {
  const ClassifiedSubstance& entry = entry_of(substances, product);
  if (entry.is_solution) {
    if (!strength)
      ask_for_codes(fmt::format("{} is a solution, and its strength is not given", product));
    return codes_of_solution(entry, strength->mass_percent_active);
  }
  if (strength) require_grade(entry, *strength);
  return codes_of_class(entry);
}

}  // namespace tub::labels
