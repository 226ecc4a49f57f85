#include "why/judged_rules.h"

#include <fmt/format.h>

#include "job/read/slip.h"
#include "why/asking.h"
#include "why/equations.h"
#include "why/grounds.h"
#include "why/rules.h"

namespace tub::why {
namespace {

const FoundReading& found_at(const Asking& asking, const Place& place) {
  return asking.plan.found.at(std::stoul(place.parts.at(1)));
}

/// Where the job has a reading that was found: "/readings/2".
std::string report_pointer(const Asking& asking, const FoundReading& found) {
  const Flat& job = asking.in_job();
  for (std::size_t i = 0; job.has(fmt::format("/readings/{}", i)); ++i) {
    const std::string report = fmt::format("/readings/{}", i);
    const auto step = job.number(report + "/after_step");
    const bool is_there = found.after_step ? step == static_cast<double>(*found.after_step)
                                           : job.text(report + "/date") == found.date;
    if (is_there && job.has(fmt::format("{}/{}", report, name_of(found.reading)))) return report;
  }
  return "/readings";
}

/// The error of the test that found it.
Origin found_origin(Asking& asking, const FoundReading& found) {
  Origin origin{Ground::test_slip, "", "", found.tested_with};
  for (const TestMethod& method : asking.data.test_methods) {
    const auto row = method.rows.find(found.reading);
    if (method.id != found.tested_with || row == method.rows.end()) continue;
    origin.division = row->second.division;
    origin.test_unit = unit_of_key(key_of(found.reading));
    origin.half_width = row->second.half_width_at(found.found);
    origin.source = row->second.source;
  }
  return origin;
}

std::string found_value(Asking& asking, const Place& place) {
  const FoundReading& found = found_at(asking, place);
  Origin origin = found_origin(asking, found);
  const std::string name(name_of(found.reading));
  origin.where = fmt::format("{}/{}", report_pointer(asking, found), name);
  origin.as_written = asking.in_job().text(origin.where).value_or("");
  const std::string id = fmt::format("job:{} (reading {})", origin.where, place.parts.at(1));
  return asking.put(Node{id, name, 0, unit_of_key(key_of(found.reading)), "given", {}, origin},
                    found.found);
}

/// What the readings before this one and the first slip say of it.
Node forecast(Asking& asking, const Place& place) {
  const FoundReading& found = found_at(asking, place);
  const std::string key(key_of(found.reading));
  Node node{"", "", 0, unit_of_key(key), "forecast", {}};
  const std::string first = slip_reading(asking, asking.slip(), key);
  if (!first.empty()) node.inputs.push_back({"first_test", first});
  node.inputs.push_back({"volume", asking.volume()});
  for (std::size_t i = 0; i < std::stoul(place.parts.at(1)); ++i) {
    node.inputs.push_back(
        {fmt::format("reading_{}", i + 1), asking.ask(fmt::format("/readings/{}/found", i))});
  }
  return node;
}

/// The number of a step that is done, in the plan that it was done by.
std::optional<Node> by_earlier_plan(Asking& asking, const Place& place, const Step& done) {
  std::string below;
  for (std::size_t i = 2; i < place.parts.size(); ++i) below += "/" + place.parts[i];
  for (std::size_t known = asking.job.request.retests.size(); known-- > 0;) {
    Asking& earlier = asking.before_retest(known);
    for (std::size_t i = 0; i < earlier.plan.steps.size(); ++i) {
      const std::string pointer = fmt::format("/steps/{}{}", i, below);
      const bool is_it = earlier.plan.steps[i].number == done.number &&
                         earlier.plan.steps[i].what.index() == done.what.index();
      if (!is_it || earlier.in_plan().number(pointer) != asking.stated(place)) continue;
      const std::string node = asking.take_over(earlier.chain(), earlier.ask(pointer),
                                                fmt::format("plan before reading {}", known + 1));
      return Node{"", "", 0, "", "same", {{"as_planned", node}}};
    }
  }
  return std::nullopt;
}

}  // namespace

std::vector<Input> found_readings(Asking& asking) {
  std::vector<Input> inputs;
  for (std::size_t i = 0; i < asking.plan.found.size(); ++i) {
    inputs.push_back({fmt::format("found_{}", name_of(asking.plan.found[i].reading)),
                      asking.ask(fmt::format("/readings/{}/found", i))});
  }
  return inputs;
}

Node judged_reading(Asking& asking, const std::string& key) {
  Node node{"", "", 0, "", "judged", found_readings(asking)};
  const std::string first = slip_reading(asking, asking.slip(), key);
  if (!first.empty()) node.inputs.insert(node.inputs.begin(), {"first_test", first});
  return node;
}

Node judged_value(Asking& asking, const std::string& stated) {
  Node node{"", "", 0, "", "judged", found_readings(asking)};
  node.inputs.insert(node.inputs.begin(), {"stated", stated});
  return node;
}

Node explain_found(Asking& asking, const Place& place) {
  const std::string& field = place.parts.at(2);
  if (field == "found") return same_as(asking, found_value(asking, place));
  if (field == "expected") return forecast(asking, place);
  const std::string prefix = "/readings/" + place.parts.at(1);
  if (field == "deviations" || field == "likely") {
    Node node{"",
              "",
              0,
              field == "deviations" ? "standard deviations" : "",
              field == "deviations" ? "deviations" : "judged",
              {}};
    node.inputs.push_back({"found", asking.ask(prefix + "/found")});
    for (const char* end : {"low", "value", "high"}) {
      const std::string pointer = fmt::format("{}/expected/{}", prefix, end);
      if (asking.in_plan().number(pointer)) {
        node.inputs.push_back({std::string("expected_") + end, asking.ask(pointer)});
      }
    }
    return node;
  }
  const std::string where = report_pointer(asking, found_at(asking, place)) + "/" + field;
  const std::string id = fmt::format("job:{} (reading {})", where, place.parts.at(1));
  return same_as(asking, asking.put(Node{id, field, 0, "", "given", {}, Origin{Ground::job, where}},
                                    asking.stated(place)));
}

Node explain_done(Asking& asking, const Place& place) {
  const Step& done = asking.plan.done.at(std::stoul(place.parts.at(1)));
  if (auto node = by_earlier_plan(asking, place, done)) return std::move(*node);
  return {"", "", 0, "", "judged", found_readings(asking)};
}

}  // namespace tub::why
