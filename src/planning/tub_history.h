// What has been done to the water of one tub since its test slip, and what would come of it if the
// tub were otherwise than planned with.
#pragma once

#include <optional>
#include <variant>
#include <vector>

#include "planning/situation.h"

namespace tub {

/// How one tub differs from what is planned with. As it stands: not at all.
struct Circumstances {
  double dose_factor = 1;                  ///< stated over true volume
  std::vector<double> start_shifts{};      ///< in the order of TubHistory::starts; absent: 0
  std::vector<double> strength_factors{};  ///< in the order of the supplies; absent: 1
  double carbon_dioxide_lost = 0;          ///< share of the surplus over air lost in each wait
  double extra_demand_mg_l = 0;            ///< of the sanitizer, beyond what its dose allows for
};

/// A way in which the first water may be otherwise.
struct StartShift {
  Totals linear;           ///< for each unit of the shift
  Totals square;           ///< for each of its square
  double deviation = 1;    ///< standard deviation of the shift
  bool only_more = false;  ///< never below 0
};

/// Moves and waits in order, in grams of the products as they were measured out.
class TubHistory {
 public:
  /// REQUIRES: the situation outlives this.
  explicit TubHistory(const Situation& situation);

  /// A pour: so many mg/L at the stated volume, then a wait.
  void pour(std::size_t supply, double mg_l, double spends_mg_l, std::optional<Reading> goal);
  /// Anything else, as a plan has it.
  void pass(const Move& move);
  /// A share of another water in its place.
  void mix(const Water& other, double fraction);
  /// A total that was measured and that nothing predicts: metals, combined chlorine. mol/kg
  void set_total(Component component, double mol_kg);
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
  /// Waits so far: one after every pour.
  int waits() const;
  bool has_met_demand() const { return has_met_demand_; }
  bool has_held_metals() const { return has_held_metals_; }

 private:
  struct Pour {
    std::size_t supply = 0;
    DoseMove dose;
  };
  struct Rounds {
    std::size_t supply = 0;
    RoundsMove rounds;
  };
  struct KnownTotal {
    Component component = Component::copper;
    double mol_kg = 0;
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
  void add_unmeasured(const Totals& per_mg_l, double deviation_mg_l);
  std::size_t index_of(const Supply& supply) const;

  const Situation* situation_;
  std::vector<StartShift> starts_;
  std::vector<Event> events_;
  bool has_met_demand_ = false;
  bool has_held_metals_ = false;
};

}  // namespace tub
