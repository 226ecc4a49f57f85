#include "labels/rules.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/nearest.h"
#include "base/node.h"
#include "base/text.h"
#include "planning/tables/data_row.h"

namespace tub::labels {
namespace {

const Names set_fields = {
    "id",          "sizes",     "line_distance", "contrast",         "red_frame",   "empty_frames",
    "environment", "languages", "supplier",      "small_package_ml", "supplements", "sources"};
const Names size_fields = {
    "to_litres",  "label_mm", "label_if_possible", "pictogram_mm", "pictogram_preferred_mm",
    "x_height_mm"};
const Names supplier_parts = {"name", "address", "phone"};
const Names languages = {"en", "es", "fr", "de"};
constexpr double longest_side_mm = 1000;

/// Half of the smallest length that a printer shows: figures closer than this are equal.
constexpr double tolerance_mm = 0.005;

LabelSize read_size(const Node& row) {
  row.allow_only(size_fields);
  LabelSize size;
  size.to_litres = data_row::optional_number(row, "to_litres", 0.001, 10000);
  const std::optional<Range> sides = data_row::optional_range(row, "label_mm");
  if (!sides) row.problem("expected label_mm as [short side, long side]");
  size.short_side_mm = sides ? sides->low : 0;
  size.long_side_mm = sides ? sides->high : 0;
  size.is_if_possible = data_row::flag(row, "label_if_possible", false);
  size.pictogram_mm = data_row::number(row, "pictogram_mm", 1, longest_side_mm);
  size.pictogram_preferred_mm =
      data_row::optional_number(row, "pictogram_preferred_mm", 1, longest_side_mm);
  size.x_height_mm = data_row::number(row, "x_height_mm", 0.1, 100);
  return size;
}

LabelSupplement read_supplement(const Node& row) {
  return {data_row::text(row, "statement"),
          data_row::number(row, "active_chlorine_above_percent", 0, 100)};
}

void check_order(const Node& row, const std::vector<LabelSize>& sizes) {
  for (std::size_t i = 0; i + 1 < sizes.size(); ++i) {
    const auto& next = sizes[i + 1].to_litres;
    if (!sizes[i].to_litres || (next && *next <= *sizes[i].to_litres)) {
      row.problem("the volumes of the sizes do not rise, or a row before the last has none");
    }
  }
  if (sizes.empty() || sizes.back().to_litres) row.problem("the last size has no end");
}

LabelRules read_set(const Node& row) {
  row.allow_only(set_fields);
  LabelRules rules;
  rules.id = data_row::text(row, "id");
  rules.sizes = data_row::read_all(data_row::items(row, "sizes"), read_size);
  check_order(row, rules.sizes);
  rules.line_distance = data_row::number(row, "line_distance", 1, 3);
  rules.contrast = data_row::number(row, "contrast", 1, 21);
  rules.is_frame_red = data_row::flag(row, "red_frame", true);
  rules.are_empty_frames_allowed = data_row::flag(row, "empty_frames", false);
  rules.has_environment = data_row::flag(row, "environment", true);
  rules.languages = data_row::names(row, "languages", languages);
  rules.supplier = data_row::names(row, "supplier", supplier_parts);
  rules.small_package_ml = data_row::number(row, "small_package_ml", 0, 1000);
  rules.supplements = data_row::read_all(data_row::items(row, "supplements"), read_supplement);
  if (const auto sources = row.require("sources")) {
    for (const Node::Member& member : sources->members()) {
      if (auto source = read_provenance(member.value)) rules.sources.emplace(member.name, *source);
    }
  }
  return rules;
}

std::string size_text(double short_mm, double long_mm) {
  return fmt::format("{} x {} mm", shortest(short_mm), shortest(long_mm));
}

/// "a package of 0.5 L".
std::string package(double litres) { return fmt::format("a package of {} L", shortest(litres)); }

/// Gathers what is found, each with the rule's place and source.
class Findings {
 public:
  Findings(const LabelRules& rules, double litres) : rules_(rules), litres_(litres) {}

  void broken(std::string_view rule, std::string message, std::string help) {
    found_.broken.push_back(diagnostic(rule, std::move(message), std::move(help)));
  }
  void warn(std::string_view rule, std::string message, std::string help) {
    found_.warnings.push_back(diagnostic(rule, std::move(message), std::move(help)));
  }
  LabelFindings take() { return std::move(found_); }

 private:
  Diagnostic diagnostic(std::string_view rule, std::string message, std::string help) const {
    const auto source = rules_.sources.find(std::string(rule));
    std::string where = fmt::format("rules {}: {}", rules_.id, rule);
    if (source != rules_.sources.end() && source->second.is_from_memory())
      where += " (from memory)";
    return {.message = std::move(message),
            .where = std::move(where),
            .trace = {"holding a label for " + package(litres_) + " against the rules"},
            .help = std::move(help)};
  }

  const LabelRules& rules_;
  double litres_;
  LabelFindings found_;
};

void check_size(const LabelMeasures& label, const LabelSize& size, double litres,
                Findings& findings) {
  const auto [low, high] = std::minmax(label.width_mm, label.height_mm);
  if (low + tolerance_mm >= size.short_side_mm && high + tolerance_mm >= size.long_side_mm) return;
  std::string message =
      fmt::format("a label of {} is smaller than the {} that {} needs", size_text(low, high),
                  size_text(size.short_side_mm, size.long_side_mm), package(litres));
  std::string help = "use a label of at least " + size_text(size.short_side_mm, size.long_side_mm);
  if (size.is_if_possible) {
    findings.warn("sizes", message + " if possible", std::move(help));
  } else {
    findings.broken("sizes", std::move(message), std::move(help));
  }
}

void check_pictograms(const LabelMeasures& label, const LabelSize& size, double litres,
                      Findings& findings) {
  for (const double side : label.pictogram_sides_mm) {
    const std::string found =
        fmt::format("a pictogram with a side of {} mm is smaller than the ", fixed(side, 2));
    if (side + tolerance_mm < size.pictogram_mm) {
      findings.broken(
          "sizes",
          found + fmt::format("{} mm that {} needs", shortest(size.pictogram_mm), package(litres)),
          fmt::format("give the pictogram a side of {} mm", shortest(size.pictogram_mm)));
    } else if (size.pictogram_preferred_mm && side + tolerance_mm < *size.pictogram_preferred_mm) {
      findings.warn("sizes",
                    found + fmt::format("{} mm that {} should have if possible",
                                        shortest(*size.pictogram_preferred_mm), package(litres)),
                    "use a larger label");
    }
  }
}

void check_text(const LabelMeasures& label, const LabelRules& rules, const LabelSize& size,
                Findings& findings) {
  if (label.least_x_height_mm + tolerance_mm < size.x_height_mm) {
    findings.broken("x_height",
                    fmt::format("the smallest text has an x-height of {} mm, and {} mm are needed",
                                fixed(label.least_x_height_mm, 2), shortest(size.x_height_mm)),
                    fmt::format("set it {} times as large, or use a larger label",
                                fixed(size.x_height_mm / label.least_x_height_mm, 2)));
  }
  if (label.least_line_distance + 1e-6 < rules.line_distance) {
    findings.broken("line_distance",
                    fmt::format("two lines are {} of the type's size apart, and {} are needed",
                                fixed(label.least_line_distance, 3), shortest(rules.line_distance)),
                    "set the lines further apart");
  }
  if (label.least_contrast < rules.contrast) {
    findings.broken("contrast",
                    fmt::format("a text has a contrast of {}:1, and {}:1 are needed",
                                fixed(label.least_contrast, 1), shortest(rules.contrast)),
                    "print text black on white");
  }
}

}  // namespace

const LabelSize& LabelRules::size_for(double litres) const {
  return *std::find_if(sizes.begin(), sizes.end(), [litres](const LabelSize& size) {
    return !size.to_litres || litres <= *size.to_litres;
  });
}

std::vector<LabelRules> parse_label_rules(std::string_view text, const std::string& file) {
  Problems problems;
  std::vector<LabelRules> sets;
  const Node root = Node::parse(text, file, problems);
  root.allow_only(std::array<std::string, 2>{"_about", "sets"});
  const std::vector<Node> rows = data_row::items(root, "sets");
  data_row::report_duplicate_ids(rows);
  sets = data_row::read_all(rows, read_set);
  problems.throw_if_any();
  return sets;
}

const LabelRules& label_rules_named(const std::vector<LabelRules>& sets, std::string_view id) {
  Names known;
  for (const LabelRules& rules : sets) {
    if (rules.id == id) return rules;
    known.push_back(rules.id);
  }
  throw Error(Diagnostic{
      .message = id.empty() ? "a container label needs a set of rules, and the job names none"
                            : fmt::format("there are no label rules named \"{}\"", id),
      .where = "/rules",
      .trace = {},
      .help = id.empty() ? "write \"rules\": \"clp\" or \"rules\": \"hazcom\" into the job"
                         : suggestion(id, known)});
}

LabelFindings check_label(const LabelMeasures& label, const LabelRules& rules, double litres) {
  const LabelSize& size = rules.size_for(litres);
  Findings findings(rules, litres);
  check_size(label, size, litres, findings);
  check_pictograms(label, size, litres, findings);
  check_text(label, rules, size, findings);
  if (rules.is_frame_red && label.colourless_frames > 0) {
    findings.broken(
        "red_frame", fmt::format("{} of the pictograms have no red frame", label.colourless_frames),
        "print in colour, or on a stock with preprinted red frames, all of them filled");
  }
  return findings.take();
}

std::vector<std::string> missing_of_supplier(const std::map<std::string, std::string>& supplier,
                                             const LabelRules& rules) {
  std::vector<std::string> missing;
  for (const std::string& part : rules.supplier) {
    const auto found = supplier.find(part);
    if (found == supplier.end() || trimmed(found->second).empty()) missing.push_back(part);
  }
  return missing;
}

}  // namespace tub::labels
