// Reads the table of hazard statements.
#include <array>
#include <optional>

#include "base/node.h"
#include "base/text.h"
#include "labels/hazards.h"
#include "planning/tables/data_row.h"

namespace tub::labels {
namespace {

const Names table_fields = {"_about",      "sources",    "most_precautions",
                            "supplements", "precedence", "hazards"};
const Names hazard_fields = {"code",       "pictogram",    "signal",          "covers",
                             "irritation", "tactile_mark", "child_resistant", "small_package",
                             "hazcom",     "precautions"};
const Names known_pictograms = {"", "GHS03", "GHS05", "GHS06", "GHS07", "GHS08", "GHS09"};
const Names known_signals = {"", "warning", "danger"};
const Names known_irritations = {"skin_or_eye", "skin_sensitisation"};
const Names known_small = {"trade", "any"};

std::string optional_name(const Node& row, std::string_view field, const Names& known) {
  const auto found = row.find(field);
  return found ? found->one_of(known).value_or("") : "";
}

Product::Signal signal_of(const std::string& name) {
  if (name == "danger") return Product::Signal::danger;
  return name == "warning" ? Product::Signal::warning : Product::Signal::none;
}

LabelHazard::Irritation irritation_of(const std::string& name) {
  if (name == "skin_or_eye") return LabelHazard::Irritation::skin_or_eye;
  return name.empty() ? LabelHazard::Irritation::none : LabelHazard::Irritation::skin_sensitisation;
}

LabelHazard::SmallPackage small_package_of(const std::string& name) {
  if (name == "any") return LabelHazard::SmallPackage::may_leave_out;
  return name == "trade" ? LabelHazard::SmallPackage::trade_may_leave_out
                         : LabelHazard::SmallPackage::needed;
}

LabelHazard read_hazard(const Node& row) {
  row.allow_only(hazard_fields);
  LabelHazard hazard;
  hazard.code = data_row::text(row, "code");
  hazard.pictogram = data_row::name(row, "pictogram", known_pictograms);
  hazard.signal = signal_of(data_row::name(row, "signal", known_signals));
  hazard.covers = data_row::texts(row, "covers");
  hazard.irritation = irritation_of(optional_name(row, "irritation", known_irritations));
  hazard.small_package = small_package_of(optional_name(row, "small_package", known_small));
  hazard.has_tactile_mark = data_row::flag(row, "tactile_mark", false);
  hazard.is_child_resistant = data_row::flag(row, "child_resistant", false);
  hazard.is_in_hazcom = data_row::flag(row, "hazcom", true);
  if (const auto precautions = row.require("precautions")) {
    for (const Node::Member& member : precautions->members()) {
      hazard.precautions[member.name] = member.value.whole(1, 9).value_or(9);
    }
  }
  return hazard;
}

PrecautionPrecedence read_precedence(const Node& row) {
  return {data_row::text(row, "statement"), data_row::texts(row, "drops")};
}

}  // namespace

HazardTable parse_hazards(std::string_view text, const std::string& file) {
  Problems problems;
  HazardTable table;
  const Node root = Node::parse(text, file, problems);
  root.allow_only(table_fields);
  if (const auto most = root.require("most_precautions")) {
    table.most_precautions = most->whole(1, 20).value_or(0);
  }
  table.supplements = data_row::texts(root, "supplements");
  table.precedence = data_row::read_all(data_row::items(root, "precedence"), read_precedence);
  table.hazards = data_row::read_all(data_row::items(root, "hazards"), read_hazard);
  if (const auto sources = root.require("sources")) {
    for (const Node::Member& member : sources->members()) {
      if (auto source = read_provenance(member.value)) table.sources.emplace(member.name, *source);
    }
  }
  problems.throw_if_any();
  return table;
}

}  // namespace tub::labels
