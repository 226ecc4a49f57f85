// Target sets: what a reading should be, who says so, and what the set forbids.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "planning/reading.h"
#include "planning/tables/provenance.h"

namespace tub::planning {

/// A reading's band between uses and its gate for bathing; nothing where the source is silent.
struct Target {
  std::optional<double> low;  ///< kept between uses
  std::optional<double> ideal;
  std::optional<double> high;
  std::optional<double> bathe_low;     ///< the gate: below it, do not bathe
  std::optional<double> stop;          ///< the gate: above it, do not bathe
  bool stop_is_assumed = false;        ///< the source names no maximum; 10 mg/L is ours
  bool band_is_own = false;            ///< low, ideal or high are the job's, not the set's
  bool gate_is_own = false;            ///< bathe_low or stop are
  std::optional<Provenance> source{};  ///< where it is another than the set's own

  friend bool operator==(const Target&, const Target&) = default;
};

struct TargetSet {
  std::string id;         ///< "common_practice"
  std::string authority;  ///< who says so; empty for common practice
  std::string source;     ///< where the figures stand
  bool from_memory = false;
  ByReading<Target> readings;                ///< a reading that the set is silent on is not here
  std::vector<std::string> forbids;          ///< product groups: "stabilised_chlorine", …
  std::vector<std::string> advises_against;  ///< the same, but only advice
  std::vector<std::string> uses;  ///< the uses it may serve: "private", "rented", "public"
  double temperature_max_c = 40;
};

/// The most of a reading that anybody may bathe in, whatever set is followed.
struct Ceiling {
  double stop = 0;  ///< mg/L
  Provenance source;
};

/// What public-health authorities ask for before anyone bathes: the one gate of a private tub whose
/// set would let people in at less, and ceilings where a set is silent.
struct Gate {
  ByReading<Range> readings;
  Provenance source;
  ByReading<Ceiling> ceilings;
};

/// Every set of `planning/data/targets.json`. Throws: Error with every fault of the text.
std::vector<TargetSet> parse_target_sets(std::string_view text, const std::string& file);
/// The gate of the same file. Throws: the same.
Gate parse_gate(std::string_view text, const std::string& file);

}  // namespace tub::planning
