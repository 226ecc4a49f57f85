// What retests tell of a tub: one estimate of everything that a plan took for granted, from all of
// its readings together.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "planning/retests/tub_history.h"
#include "planning/water/normal_equations.h"

namespace tub::planning {

/// Something that a plan takes for granted, and how far it may be off.
struct TakenForGranted {
  enum class Kind { volume, start, strength, loss, carbon_dioxide, demand };
  Kind kind = Kind::volume;
  std::size_t index = 0;   ///< of the start shift, of the supply, or of the stretch between tests
  double deviation = 0;    ///< standard deviation as planned with; 0: certain
  double wrong = 0;        ///< the same where it is altogether wrong; 0: never suspected
  bool only_more = false;  ///< never below 0: a loss
  const ReasonPrior* prior = nullptr;  ///< of the assumptions; null: never suspected
};

/// The likeliest values of everything taken for granted, given the readings.
struct Estimate {
  std::vector<double> values;    ///< by source: 0 is as planned
  SquareMatrix root;             ///< each column: an independent error of all values together
  std::vector<double> readings;  ///< as they come of the values
  double log_likelihood = 0;     ///< up to what is the same for every spread of the sources

  double deviation(std::size_t source) const;
};

/// A reading as it is foretold by what is known before it. Deviations are standard deviations.
struct Forecast {
  double value = 0;
  double deviation_below = 0;
  double deviation_above = 0;
};

/// Readings of one tub since its test slip, and what they say together.
class Evidence {
 public:
  /// REQUIRES: the situation outlives this.
  explicit Evidence(const Situation& situation);

  TubHistory& history() { return history_; }
  const TubHistory& history() const { return history_; }

  /// What is done from here on is between this test and the next.
  void begin_stretch();

  /// What the water should read next, without the test's own error.
  std::vector<Forecast> forecast(std::span<const Reading> readings) const;
  /// A reading is taken here. deviation: of the test
  void found(Reading reading, double value, double deviation);

  /// A total that nothing foretells is measured here. mol/kg; deviation: of the test, standard
  void found_total(Component component, double mol_kg, double deviation);

  std::size_t count() const { return found_.size(); }

  const std::vector<TakenForGranted>& sources() const { return sources_; }
  /// Whether what was done so far lets it matter: a product that was not poured has no strength.
  bool has_effect(const TakenForGranted& source) const;
  /// With the spreads as planned, but for one source that may be anything (`as_wrong`: as wrong as
  /// such things are).
  Estimate estimate() const { return estimated(spreads()); }
  Estimate estimate_if_wrong(std::size_t source) const;
  Estimate estimate_if_unknown(std::size_t source) const;
  /// From here on this source is only what the readings say of it.
  void give_up(std::size_t source);
  bool is_given_up(std::size_t source) const { return given_up_.at(source); }

  Circumstances circumstances(const std::vector<double>& values) const;
  Water water(const std::vector<double>& values) const {
    return history_.outcome(circumstances(values)).water;
  }

 private:
  struct Found {
    double value = 0;
    double deviation = 0;
  };

  void add_sources_of_supplies();
  void add_carbon_dioxide();
  /// Spreads of what can have had an effect; the others are as planned.
  std::vector<double> spreads() const;
  Estimate estimated(const std::vector<double>& spreads) const;
  /// What each of those readings changes by for a source, beside what they are.
  std::vector<double> slope(const std::vector<double>& values, std::size_t source,
                            const TubHistory& history, const std::vector<double>& readings) const;
  SquareMatrix slopes(const std::vector<double>& values, const std::vector<double>& spreads) const;
  double misfit(const std::vector<double>& values, const std::vector<double>& spreads) const;
  std::vector<double> step_from(const std::vector<double>& values,
                                const std::vector<double>& spreads) const;
  Forecast drawn_forecast(double value, const Estimate& known, const TubHistory& next,
                          std::size_t reading, const std::vector<double>& slopes) const;
  double lowest(std::size_t source) const;
  double highest(std::size_t source) const;

  const Situation* situation_;
  TubHistory history_;
  std::vector<TakenForGranted> sources_;
  std::vector<bool> given_up_;
  std::vector<Found> found_;
};

}  // namespace tub::planning
