// Every table that labels and hazard sheets are made with.
#pragma once

#include <vector>

#include "labels/classified_substances.h"
#include "labels/hazards.h"
#include "labels/rules.h"
#include "labels/statements.h"

namespace tub::labels {

struct LabelTables {
  std::vector<LabelRules> rules;
  HazardTable hazards;
  LabelStatements statements;
  std::vector<ClassifiedSubstance> substances;
};

}  // namespace tub::labels
