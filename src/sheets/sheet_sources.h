// What a sheet of a plan is made from.
#pragma once

#include <span>
#include <string>

#include "planning/heading.h"
#include "planning/plan.h"
#include "planning/product.h"

namespace tub {

/// REQUIRES: rows for every product of the plan; what is referred to outlives this.
struct SheetSources {
  const Plan& plan;
  const Heading& heading;
  std::span<const Product> products;
  std::string version;  ///< of the program: "0.1.0"
};

}  // namespace tub
