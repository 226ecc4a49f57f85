// Every table that labels and hazard sheets are made with.
#pragma once

#include <vector>

#include "sheets/classified_substances.h"
#include "sheets/label_hazards.h"
#include "sheets/label_rules.h"
#include "sheets/label_statements.h"

namespace tub {

struct LabelTables {
  std::vector<LabelRules> rules;
  HazardTable hazards;
  LabelStatements statements;
  std::vector<ClassifiedSubstance> substances;
};

}  // namespace tub
