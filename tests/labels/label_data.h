// The label tables of the project and the reference tables that they are held against.
#pragma once

#include <string>
#include <vector>

#include "base/text.h"
#include "labels/classified_substances.h"
#include "labels/hazards.h"
#include "labels/rules.h"
#include "labels/statements.h"

namespace tub::labels {

const LabelRules& label_rules(const std::string& id);
const HazardTable& hazard_table();
const LabelStatements& label_statements();
const std::vector<ClassifiedSubstance>& classified_substances();

/// The rows of a table in tests/reference/sheets, without comments and heading.
std::vector<std::vector<std::string>> reference_rows(const std::string& file, char separator);

/// The names in a cell of such a table, with ";" between them.
Names names_in(const std::string& cell);

/// The first message that a call throws; empty if it throws none.
template <class Call>
Diagnostic first_error(const Call& call) {
  try {
    call();
  } catch (const Error& error) {
    return error.diagnostics().front();
  }
  return {};
}

}  // namespace tub::labels
