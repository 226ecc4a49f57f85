// Everything that explanations of one plan look at, and the chain that they build.
#pragma once

#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "job/job.h"
#include "job/shape/catalogue.h"
#include "planning/plan.h"
#include "planning/retests/leg.h"
#include "why/chain.h"
#include "why/flat.h"
#include "why/waters.h"

namespace tub::why {

/// What the pieces of a plan's pointer mean.
struct Place {
  std::string pointer;
  std::vector<std::string> parts;  ///< of the whole pointer
  // Of a number inside a step:
  const Step* step = nullptr;     ///< the innermost
  std::string prefix;             ///< its pointer: "/steps/3", "/steps/3/steps/0"
  std::size_t move = 0;           ///< of the draft
  std::vector<std::string> rest;  ///< the parts after the prefix
};

/// Explains numbers of one plan; each node is made once, when it is first asked for.
class Asking {
 public:
  /// REQUIRES: plan is that of the job; all outlive this.
  Asking(const Job& job, const Catalogue& catalogue, const Plan& plan);
  ~Asking();
  Asking(const Asking&) = delete;
  Asking& operator=(const Asking&) = delete;

  /// The node of a number of the plan. Throws: Error (of ours) if no rule explains it
  std::string ask(const std::string& pointer);
  /// Adds a node; its value is worked out from the inputs where it has a ground or model's none.
  std::string put(Node node, std::optional<double> value = {});
  /// The same in one line. Returns: id
  std::string put(const std::string& id, const std::string& name, const std::string& unit,
                  const std::string& equation, std::vector<Input> inputs,
                  std::optional<double> value = {});
  bool has(const std::string& id) const { return chain_.has(id); }
  double value(const std::string& id) const { return chain_.at(id).value; }
  /// An input, named as its node is.
  Input input(const std::string& node) const { return {chain_.at(node).name, node}; }
  const Chain& chain() const { return chain_; }
  Chain take(const std::string& root);

  /// What the plan states at a place; 0 where it states no number.
  double stated(const Place& place) const { return in_plan().number(place.pointer).value_or(0); }
  /// What stands at a pointer of the plan or the job.
  const Flat& in_plan() const { return in_plan_; }
  const Flat& in_job() const { return in_job_; }
  /// "/source_water" or "/tub_water".
  std::string slip() const;
  const WaterTest& slip_readings(const std::string& slip) const;
  /// The plan before the last retests, of which only so many are known; kept once it is made.
  Asking& before_retest(std::size_t known);
  /// Takes over a node of another plan's chain and all that it rests on, named by where it is from.
  std::string take_over(const Chain& other, const std::string& id, const std::string& from);

  std::string volume() { return ask("/vessel/volume_l"); }
  /// Where the water stands before and after a move of the draft.
  std::string before(std::size_t move) const;
  std::string after(std::size_t move) const;
  /// The pointer of the step that a move is.
  std::string step_of(std::size_t move) const;
  Place place(const std::string& pointer) const;

  const Job& job;
  const Catalogue& catalogue;
  const Plan& plan;
  const PlanningData& data;
  const SpeciesTable& species;
  const std::shared_ptr<const Leg> leg;
  const PlanRequest& request;  ///< as judged to be after retests
  const Situation& situation;
  const Draft& draft;  ///< as measured out
  const Draft solved;  ///< before it was measured out
  Waters waters;

 private:
  Flat in_plan_;
  Flat in_job_;
  Chain chain_;
  struct Earlier;
  std::map<std::size_t, std::unique_ptr<Earlier>> earlier_;
  std::set<std::string> open_;  // being explained: a circle would be ours
};

/// The unit of a number by its key: "mg/L as CaCO3", "g", "pH", …
std::string unit_of(const Place& place);
std::string unit_of_key(std::string_view key);

}  // namespace tub::why
