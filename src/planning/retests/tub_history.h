// What has been done to the water of one tub since its test slip, and what would come of it if the
// tub were otherwise than planned with.
#pragma once

#include <optional>
#include <variant>
#include <vector>

#include "planning/situation.h"

namespace tub::planning {

/// How one tub differs from what is planned with. As it stands: not at all.
struct Circumstances {
  double dose_factor = 1;                  ///< stated over true volume
  std::vector<double> start_shifts{};      ///< in the order of TubHistory::starts; absent: 0
  std::vector<double> strength_factors{};  ///< in the order of the supplies; absent: 1
  /// Share of the surplus over air lost in each wait, by stretch between tests; absent: none.
  std::vector<double> carbon_dioxide_lost{};
  double extra_demand_mg_l = 0;  ///< of the sanitizer, beyond what its dose allows for
};

/// A way in which the first water, or a total that was measured later, may be otherwise.
struct StartShift {
  ErrorShape shape;        ///< of the totals, by the shift
  double deviation = 1;    ///< standard deviation of the shift
  bool only_more = false;  ///< never below 0
};

/// Moves and waits in order, in grams of the products as they were measured out.
class TubHistory {
 public:
  /// REQUIRES: the situation outlives this.
  explicit TubHistory(const Situation& situation);

  /// From here on waits belong to the next stretch: air valves are not left open for ever.
  void begin_stretch() { ++stretch_; }
  std::size_t stretch() const { return stretch_; }
  /// A pour of a supply: the dose's mg/L are at the stated volume. Then a wait.
  void pour(std::size_t supply, DoseMove dose);
  /// Anything else, as a plan has it.
  void pass(const Move& move);
  /// A share of another water in its place.
  void mix(const Water& other, double fraction);
  /// A total that was measured and that nothing predicts: metals. mol/kg
  /// deviation: of the test, standard; gives the start shift that stands for its error
  std::size_t set_total(Component component, double mol_kg, double deviation);
  /// A reading is taken here.
  void read(Reading reading);

  struct Outcome {
    std::vector<double> readings;  ///< in the order of `read`
    Water water;
  };
  Outcome outcome(const Circumstances& circumstances) const;

  const std::vector<StartShift>& starts() const { return starts_; }
  /// Supplies that were poured, each once, in the order of the shelf's rows.
  std::vector<std::size_t> poured() const;
  /// Waits of a stretch: one after every pour.
  int waits(std::size_t stretch) const;
  bool has_met_demand() const { return has_met_demand_; }
  bool has_held_metals() const { return has_held_metals_; }

 private:
  /// Inorganic carbon of a water in equilibrium with air, near a known one. mol/kg
  struct SettledCarbon {
    double carbonate = 0;
    double alkalinity = 0;
    double per_alkalinity = 1;
    double at(double other_alkalinity) const {
      return carbonate + per_alkalinity * (other_alkalinity - alkalinity);
    }
  };
  struct Pour {
    std::size_t supply = 0;
    DoseMove dose;
    SettledCarbon settled;
    std::size_t stretch = 0;
  };
  struct Rounds {
    std::size_t supply = 0;
    RoundsMove rounds;
  };
  struct KnownTotal {
    Component component = Component::copper;
    double mol_kg = 0;
    std::size_t error = 0;  ///< the shift, mol/kg
  };
  struct Mix {
    Water other;
    double fraction = 0;
  };
  struct Look {
    Reading reading = Reading::ph;
  };
  using Event = std::variant<Move, Pour, Rounds, Mix, KnownTotal, Look>;

  Water start(const Circumstances& circumstances) const;
  SettledCarbon settled_after(const DoseMove& dose) const;
  /// demand_mg_l: of the sanitizer, that nothing has met so far; less by what this pour meets
  Water after_pour(const Water& water, const Pour& pour, const Circumstances& tub,
                   double& demand_mg_l) const;
  void add_unmeasured(const Totals& per_mg_l, double deviation_mg_l);
  std::size_t index_of(const Supply& supply) const;

  const Situation* situation_;
  std::vector<StartShift> starts_;
  std::vector<Event> events_;
  std::size_t stretch_ = 0;
  bool has_met_demand_ = false;
  bool has_held_metals_ = false;
};

}  // namespace tub::planning
