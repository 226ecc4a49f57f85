// What sheets are made from.
#pragma once

#include <span>
#include <string>

#include "labels/tables.h"
#include "planning/heading.h"
#include "planning/package.h"
#include "planning/plan.h"
#include "planning/pours/top_up.h"
#include "planning/tables/product.h"

namespace tub::sheets {

/// REQUIRES: rows for every product of the plan; what is referred to outlives this.
struct SheetSources {
  const Plan& plan;
  const Heading& heading;
  std::span<const Product> products;
  std::string version;  ///< of the program: "0.1.0"

  // For labels only; a card needs none of it.
  std::span<const ShelfItem> shelf = {};
  std::span<const TopUpReading> top_ups = {};
  std::string code = {};                   ///< the job as a label's square holds it
  std::span<const Package> packages = {};  ///< containers that are labelled
  std::string rules = {};                  ///< "clp" or "hazcom"
  const LabelTables* labels = nullptr;
};

}  // namespace tub::sheets
