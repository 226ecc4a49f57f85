// The steps of the `water` format: what each is called, what it may hold, what it does.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "base/node.h"
#include "chemistry/operations.h"

namespace tub::water {

/// What a line says of how its waters are read.
struct WaterReading {
  const SpeciesTable& table;
  Balance balance = Balance::sodium;
  Activities activities = Activities::extended_debye_hueckel;
};

/// A water after a step, and what the step adds to its state: names and JSON texts.
struct StepOutcome {
  Water water;
  std::vector<std::pair<std::string, std::string>> also;
  std::string fault;  ///< what makes the line an error although the step has an outcome
};

using WaterStep = std::function<StepOutcome(const Water&)>;

/// One kind of step: the field that names it, and the others that it may have.
struct StepRule {
  std::string name;
  std::vector<std::string> fields;
  std::optional<WaterStep> (*read)(const Node& step, const WaterReading& reading);
};

/// All kinds of steps.
const std::vector<StepRule>& step_rules();

/// The compound that a node names; a problem, and nothing, if there is none.
const Compound* compound_at(const Node& node, const SpeciesTable& table);

/// Reads one step; a problem at its place for whatever is wrong with it.
std::optional<WaterStep> read_step(const Node& step, const WaterReading& reading);

/// Reads the keys of a start state, `ph` and `temperature_c` required, `also` allowed beside them.
std::optional<Readings> read_start(const Node& node, const std::vector<std::string>& also);

/// "sodium" (the default), "chloride" or "none".
Balance read_balance(const Node& node, Balance otherwise);

/// A number as JSON: the shortest text that reads back the same; null if it is not finite.
std::string json_number(double value);

}  // namespace tub::water
