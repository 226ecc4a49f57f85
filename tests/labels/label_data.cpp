#include "label_data.h"

#include "../planning/data_files.h"
#include "base/text.h"
#include "project_text.h"

namespace tub::labels {

const LabelRules& label_rules(const std::string& id) {
  static const std::vector<LabelRules> sets =
      parse_label_rules(project_text("src/labels/data/label_rules.json"), "label_rules.json");
  return label_rules_named(sets, id);
}

const HazardTable& hazard_table() {
  static const HazardTable table =
      parse_hazards(project_text("src/labels/data/label_hazards.json"), "label_hazards.json");
  return table;
}

const LabelStatements& label_statements() {
  static const LabelStatements table = LabelStatements::parse(
      project_text("src/labels/data/label_statements.json"), "label_statements.json");
  return table;
}

const std::vector<ClassifiedSubstance>& classified_substances() {
  static const std::vector<ClassifiedSubstance> table = parse_substances(
      project_text("src/labels/data/classified_substances.json"), "classified_substances.json");
  return table;
}

std::vector<std::vector<std::string>> reference_rows(const std::string& file, char separator) {
  std::vector<std::vector<std::string>> rows;
  bool is_heading = true;
  for (const std::string& line : split(project_text("tests/reference/sheets/" + file), '\n')) {
    if (line.empty() || line.front() == '#') continue;
    if (!is_heading) rows.push_back(split(line, separator));
    is_heading = false;
  }
  return rows;
}

Names names_in(const std::string& cell) { return cell.empty() ? Names{} : split(cell, ';'); }

}  // namespace tub::labels
