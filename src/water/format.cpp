#include "water/format.h"

#include <fmt/format.h>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "base/error.h"
#include "base/node.h"
#include "base/text.h"
#include "water/extras.h"
#include "water/steps.h"

namespace tub::water {
namespace {

using Json = nlohmann::ordered_json;

// What a terminal would obey is written as its escape, which JSON reads back as the same.
std::string as_json(const Json& value) {
  const std::string text = value.dump(-1, ' ', false, Json::error_handler_t::replace);
  if (visible(text) == text) return text;
  return value.dump(-1, ' ', true, Json::error_handler_t::replace);
}

std::string one_line(const Diagnostic& diagnostic) {
  // A line has one line: its column is enough.
  const std::string where = replaced(diagnostic.where, ": line 1, column", ", column");
  std::string text = where.empty() ? "" : where + ": ";
  text += diagnostic.message;
  if (!diagnostic.help.empty()) text += " (" + diagnostic.help + ")";
  return visible(text);
}

// The fields that make an answer an error.
std::string error_fields(std::size_t line_number, const std::vector<Diagnostic>& diagnostics) {
  std::string text;
  for (const Diagnostic& diagnostic : diagnostics)
    text += (text.empty() ? "" : "; ") + one_line(diagnostic);
  return fmt::format(R"("line":{},"error":{})", line_number, as_json(text));
}

// Everything that a line asks for, valid in form.
struct Request {
  WaterReading reading;
  Readings start;
  std::vector<WaterStep> steps;
  std::vector<const WaterExtra*> also;
};

bool has_spread(const Request& request) {
  return std::any_of(request.also.begin(), request.also.end(),
                     [](const WaterExtra* extra) { return extra->name == "spread"; });
}

void write_state(std::string& out, const StepOutcome& outcome, const Request& request,
                 const WaterTables& tables) {
  const Speciation speciation = speciate(outcome.water, tables.species);
  const WaterState state = read(outcome.water, speciation, tables.species);
  const ReadWater water = {outcome.water, speciation, state};
  out += '{';
  const char* separator = "";
  const auto write = [&](std::string_view name, const std::string& value) {
    out += fmt::format("{}\"{}\":{}", separator, name, value);
    separator = ",";
  };
  for (const auto& key : reading_keys) write(key.name, json_number(state.*key.member));
  for (const auto& key : derived_keys) write(key.name, json_number(state.*key.member));
  for (const WaterExtra* extra : request.also) write(extra->name, extra->as_json(water, tables));
  if (needs_spread(state) && !has_spread(request)) write("spread", spread_as_json(water, tables));
  for (const auto& [name, value] : outcome.also) write(name, value);
  out += '}';
}

Activities read_activities(const Node& root) {
  const auto node = root.find("activities");
  if (!node) return Activities::extended_debye_hueckel;
  const auto name = node->one_of(std::vector<std::string>{"extended_debye_hueckel", "ideal"});
  return name == "ideal" ? Activities::ideal : Activities::extended_debye_hueckel;
}

std::vector<const WaterExtra*> read_also(const Node& list) {
  std::vector<std::string> names;
  for (const WaterExtra& extra : water_extras()) names.push_back(extra.name);
  std::vector<const WaterExtra*> also;
  for (const Node& item : list.items())
    if (const auto name = item.one_of(names))
      for (const WaterExtra& extra : water_extras())
        if (extra.name == *name) also.push_back(&extra);
  return also;
}

Request read_request(const Node& root, const SpeciesTable& table) {
  Request request{{table, Balance::sodium, Activities::extended_debye_hueckel}, {}, {}, {}};
  const auto start = read_start(root, {"id", "steps", "balance", "activities", "also"});
  if (root.is_object()) {
    request.reading.balance = read_balance(root, Balance::sodium);
    request.reading.activities = read_activities(root);
  }
  if (const auto also = root.find("also")) request.also = read_also(*also);
  if (const auto steps = root.find("steps"))
    for (const Node& node : steps->items())
      if (auto step = read_step(node, request.reading)) request.steps.push_back(std::move(*step));
  root.problems().throw_if_any();
  request.start = *start;
  return request;
}

// All states as JSON, and what is at fault although there are states.
struct States {
  std::string text;
  std::vector<Diagnostic> faults;
};

// Runs the steps; a problem that only the chemistry finds gets the place of its step.
States states_of(const Request& request, const WaterTables& tables) {
  std::string place = "the start state";
  try {
    States states{"[", {}};
    StepOutcome now{water_from_readings(request.start, request.reading.balance, tables.species,
                                        request.reading.activities),
                    {},
                    ""};
    write_state(states.text, now, request, tables);
    for (std::size_t i = 0; i < request.steps.size(); ++i) {
      place = fmt::format("/steps/{}", i);
      now = request.steps[i](now.water);
      states.text += ',';
      write_state(states.text, now, request, tables);
      if (!now.fault.empty()) states.faults.push_back({now.fault, place, {}, ""});
    }
    states.text += ']';
    return states;
  } catch (const Error& error) {
    std::vector<Diagnostic> diagnostics = error.diagnostics();
    for (Diagnostic& diagnostic : diagnostics)
      if (diagnostic.where.empty()) diagnostic.where = place;
    throw Error(diagnostics);
  }
}

}  // namespace

WaterAnswer answer_water_line(std::string_view line, std::size_t line_number,
                              const WaterTables& tables) {
  std::string id = "null";
  try {
    Problems problems;
    const Node root = Node::parse(line, fmt::format("line {}", line_number), problems);
    if (const auto given = root.find("id")) id = as_json(given->json());
    const Request request = read_request(root, tables.species);
    const States states = states_of(request, tables);
    if (states.faults.empty())
      return {fmt::format(R"({{"id":{},"states":{}}})", id, states.text), false};
    return {fmt::format(R"({{"id":{},{},"states":{}}})", id,
                        error_fields(line_number, states.faults), states.text),
            true};
  } catch (const Error& error) {
    return {fmt::format(R"({{"id":{},{}}})", id, error_fields(line_number, error.diagnostics())),
            true};
  }
}

}  // namespace tub::water
