// The computed answer: numbers and codes, never sentences. Its shape is that of `plan --json`.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "chemistry/readings.h"
#include "planning/reading.h"
#include "planning/reason.h"
#include "planning/tables/hazard.h"
#include "planning/tables/measure.h"
#include "planning/tables/targets.h"

namespace tub::planning {

/// A band that may be open at an end: hardness at least 200, alkalinity at most 150.
struct Limits {
  std::optional<double> low;
  std::optional<double> high;
  bool holds(double value) const { return !(low && value < *low) && !(high && value > *high); }
  friend bool operator==(const Limits&, const Limits&) = default;
};

/// "If it reads below 110": a reading against one edge.
struct Condition {
  enum class Side { below, above };
  Reading reading = Reading::ph;
  Side side = Side::below;
  double edge = 0;
};

/// One pour: what to measure out now, how long to wait, what the retest should show.
struct Portion {
  std::optional<double> amount_g;
  std::optional<double> amount_ml;   ///< liquids
  std::optional<Condition> only_if;  ///< second pours
  std::vector<Measure> measure;      ///< the same amount in the owner's own measure
  double wait_minutes = 20;
  ByReading<Interval> expect;  ///< in the retest's divisions, rounded outward
};

/// What to do with what the test shows after a pour.
struct TestOutcome {
  enum class When { inside, over, under, over_after_all, under_after_all };
  enum class Action { skip_rest, stop_and_call, wait_and_test };
  Reading reading = Reading::ph;
  bool is_clarity = false;  ///< the test is a look: clear, or not
  When when = When::inside;
  Action action = Action::skip_rest;
  std::optional<double> hours;  ///< wait_and_test
};

struct Step;

struct FillVessel {};

struct Heat {
  double to_c = 27;
};

/// Put a product in, in one or two pours.
struct Addition {
  std::string product;
  std::optional<Reading> reading;  ///< what it is for
  std::optional<double> amount_g;  ///< sum of the portions
  std::optional<double> amount_ml;
  std::map<std::string, double> adds_g;  ///< pure compounds, by formula; {} for a sequestrant
  std::vector<Portion> portions;
  std::optional<double> overshoot_chance;
  std::map<std::string, double> spends;  ///< "free_chlorine_mg_l": the demand it meets
};

/// Jets drive carbon dioxide out; alkalinity stays, pH rises.
struct ReleaseCarbonDioxide {
  double to_log10_pco2_atm = -3.4;
  Interval jets_hours;
};

/// Do the steps, test, and again while the reading has not passed the edge.
struct Repeat {
  int times = 1;  ///< expected
  int at_most = 1;
  Condition until;
  std::vector<Step> steps;
};

/// Drain a share and refill.
struct Replace {
  double fraction = 0;
  std::string with = "source_water";  ///< or "second_source"
};

struct Step {
  std::variant<FillVessel, Heat, Addition, ReleaseCarbonDioxide, Repeat, Replace> what;
  int number = 0;                 ///< the rung's
  std::optional<Reading> test{};  ///< the retest after it
  bool test_is_clarity = false;
  /// No division lies in `accept`, or the retest lacks the reading: have it tested.
  bool test_too_coarse = false;
  /// The target carried back through all later steps to this step's own water and temperature, in
  /// the retest's divisions, rounded inward; not rounded where `test_too_coarse`.
  ByReading<Limits> accept{};
  std::vector<TestOutcome> outcomes{};
  std::optional<WaterState> after{};  ///< closed to the air unless carbon dioxide is released
  std::vector<Reason> notes{};        ///< such as "later_step_takes_back"
};

/// "kind" of a step in the plan's JSON: "fill", "heat", "add", "release_carbon_dioxide", …
std::string_view kind_of(const Step& step);

/// What would mend an unmet target.
struct Remedy {
  std::string kind;  ///< "replace", "drain", "blend", "soften", "buy", "wait"
  std::optional<double> fraction;
  std::string with;     ///< "softer_water", "source_water", "second_source"
  std::string product;  ///< to buy
  std::optional<double> amount_g;
  std::optional<double> hours;
  std::optional<double> amount_ml{};  ///< of a liquid, in place of the grams
};

struct Unmet {
  Reading reading = Reading::ph;
  std::optional<double> low;
  std::optional<double> high;
  double reached = 0;
  Reason reason;
  std::optional<Remedy> remedy;
  bool closes_gate = false;  ///< nobody may bathe while it is so
};

/// What pH does by itself as carbon dioxide leaves, at bathing temperature with the chlorine spent.
struct Drift {
  double ph_half_way = 0;
  double ph_at_air = 0;
  double saturation_index_at_air = 0;
  std::string acid;  ///< the shelf's mildest, which answers it; empty: there is none
};

/// How much of the final water's sanitizer kills germs at once, and what the rest is: 90 %, what is
/// not known of the equilibrium constants included.
struct ActiveSanitizer {
  Reading of = Reading::free_chlorine;          ///< or total_bromine
  std::optional<Interval> hocl_mg_l;            ///< as Cl2; of chlorine
  std::optional<Interval> ocl_mg_l;             ///< as Cl2; of chlorine
  std::optional<Interval> bound_chlorine_mg_l;  ///< as Cl2, held by cyanurate; of chlorine
  std::optional<Interval> hobr_mg_l;            ///< as Br2; of bromine
  Interval share;                               ///< HOCl or HOBr, of the whole reading
};

/// When the stabiliser that dichlor leaves behind has reached its limit, another chlorine goes on.
struct HandOver {
  std::string to;                 ///< the product that takes over
  double cyanuric_acid_mg_l = 0;  ///< at which
  double dichlor_g = 0;           ///< in all, from this water on; 0: at once
};

/// Where a figure of the plan is from.
struct Citation {
  std::string id;  ///< what it backs: "targets", "gate", "products/dry_acid", …
  std::string text;
  bool from_memory = false;
};

/// A reading that was taken in the tub, beside what was expected of it.
struct FoundReading {
  std::optional<int> after_step;  ///< none: a later visit
  std::optional<int> after_pour;  ///< as the job gives it
  std::optional<int> after_round;
  std::string date;
  Reading reading = Reading::ph;
  double found = 0;
  std::string tested_with;
  std::optional<Interval> expected;  ///< 90 %, the test's own error included; none: not foretold
  std::optional<double> deviations;  ///< standard deviations from it, by the side it is on
  std::optional<Reason> likely;      ///< where they are more than two
};

/// REQUIRES nothing; made by make_plan, read by the sheets and the JSON writer.
struct Plan {
  std::string fingerprint;
  std::string sanitizer;
  bool mineral_cartridge = false;
  double volume_l = 0;
  double volume_give_or_take = 0;
  std::string use;
  TargetSet targets;                      ///< as followed
  ByReading<Range> gate;                  ///< the one gate for bathing, printed on every sheet
  std::vector<std::string> gate_sources;  ///< the sanitizer's first; that of pH, where another
  /// What keeps the gate closed to this plan's own prediction, worst first; nothing: it opens.
  std::optional<Reason> gate_closed;
  /// What an owner has to know or do before anything is poured.
  std::vector<Reason> cautions;
  std::string retest_with;  ///< identifier of the test method at the tub
  WaterState start;         ///< every key, what was assumed included
  std::optional<WaterState> second_source;
  std::vector<std::string> measured;  ///< keys of start that a test gave
  ByReading<double> held;             ///< metals kept dissolved by a sequestrant, mg/L
  std::vector<Step> steps;
  std::vector<Step> done;           ///< before `steps`, where retests or visits are in the job
  std::vector<FoundReading> found;  ///< by them, in order
  WaterState final;
  std::map<std::string, Range> final_range;         ///< 90 %, by key
  std::optional<ActiveSanitizer> active_sanitizer;  ///< nothing: there is none in the final water
  std::optional<HandOver> hand_over;                ///< dichlor_then_hypochlorite
  Drift drift;
  std::vector<Unmet> unmet;
  std::vector<HazardPair> hazards;
  std::vector<Reason> assumed;
  std::vector<Citation> sources;
};

}  // namespace tub::planning
