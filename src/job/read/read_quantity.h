// Quantities as people write them: a number and its unit in one text.
#pragma once

#include <optional>

#include "base/node.h"
#include "job/shape/shape.h"
#include "job/shape/value.h"

namespace tub::job {

/// The quantity in its kind's own unit; a problem, and nothing, if it is none or absurd.
std::optional<double> read_quantity(const Node& node, const QuantityShape& shape);

/// "12.5 g/100 mL as Cl2" as 12.5 and "g/100 mL as Cl2"; a bare % is a problem.
std::optional<Measured> read_strength(const Node& node);

/// "45 mL per 1000 L" as 45 "mL" or "g", for 1000 L.
std::optional<Measured> read_dose(const Node& node);

/// A mass in "g" or a volume in "mL"; "oz": grams, of an amount in plain ounces.
std::optional<Measured> read_amount(const Node& node);

/// A problem if a liquid's amount was written in plain ounces, which may be a weight or a volume.
void require_solid(const Node& node, const Measured& amount, bool is_liquid);

}  // namespace tub::job
