// How far what a plan predicts may be off: volume, start readings, strengths and spoons, each
// moved by itself.
#pragma once

#include <functional>
#include <map>
#include <span>
#include <string>
#include <vector>

#include "planning/water/draft.h"
#include "planning/water/spread.h"
#include "planning/water/start_water.h"

namespace tub::planning {

/// How far out the two waters of a source are, in its 90 % half-widths.
struct Reached {
  double low = 1;
  double high = 1;
  bool is_one_sided = false;  ///< at half the loss, and the whole
  bool is_cut = false;
};

/// The water after some moves, and where each source of error lies at its ends.
struct Outcomes {
  struct Ends {
    WaterState low;  ///< or half of a one-sided loss
    WaterState high;
    Reached reached{};
  };
  WaterState at;
  std::vector<Ends> ends;
  /// Waters drawn from all sources together, as evenly as can be in their pH.
  std::function<std::vector<WaterState>()> draw;
  mutable std::vector<WaterState> drawn{};  ///< once they were asked for
};

/// What every source together does to a number of the water that stays within bounds.
Spread spread_of(const Outcomes& outcomes, const Range& possible,
                 const std::function<double(const WaterState&)>& number);

/// Bounds that a number of a water keeps to, by its key; endless where there are none.
Range possible_range(std::string_view key);

/// What an error comes from.
struct ErrorSource {
  enum class Kind {
    volume,
    start_reading,
    total_hardness,
    magnesium_share,
    refilled_share,
    judged,
    strength,
    staleness,
    dissolving,
    spoon
  };
  Kind kind = Kind::volume;
  Reading reading = Reading::ph;   ///< of `start_reading`
  const Supply* supply = nullptr;  ///< of the kinds after `judged`
  double half_width = 0;           ///< 90 %, as a share; 0 where a test or a share has its own
};

/// What one source of error does to one number of a water.
struct NamedEffect {
  ErrorSource source;
  ErrorEffect effect;
};

/// The water as planned and, beside it, the waters where one source of error is low or high.
class Branches {
 public:
  /// Goes on with a move.
  void go(const Move& move);
  /// A reading of them.
  Spread spread(Reading reading) const { return spread_of(reading, nullptr); }
  /// The same once a move were done as well.
  Spread spread_after(Reading reading, const Move& move) const { return spread_of(reading, &move); }
  /// The whole of each water.
  Outcomes outcomes() const;
  /// What each source does to a number of the water: the parts of its spread.
  std::vector<NamedEffect> effects(double WaterState::*number) const;
  /// The spread of any number of the water, by its key. REQUIRES: outcomes of these branches
  Spread spread(std::string_view key, const Outcomes& outcomes) const;

 private:
  friend class Uncertainty;
  struct End {
    Water water;
    DoseScale scale;
  };
  /// Where one source is low and high (or, one-sided, half and whole loss).
  struct Source {
    End low;
    End high;
    Reached reached{};
    ErrorSource what{};
  };
  Branches(const StartWater& start, const Bench& bench)
      : bench_(&bench), start_(&start), planned_{start.water, {}} {}
  Spread spread_of(Reading reading, const Move* last) const;
  Water water_of(const End& end, const Move* last) const;
  std::vector<Water> drawn(std::span<const ErrorEffect> effects, const Move* last) const;

  const Bench* bench_;
  const StartWater* start_;
  std::vector<Move> moves_;
  End planned_;
  std::vector<Source> sources_;
};

/// The middle 90 % of every number of the water, by key.
std::map<std::string, Range> ranges_of(const Branches& branches, const Outcomes& outcomes);

/// The independent sources of error of one plan. Every half-width is 90 %.
class Uncertainty {
 public:
  /// REQUIRES: start and bench outlive this.
  Uncertainty(const StartWater& start, double volume_give_or_take, const Bench& bench)
      : start_(&start), volume_(volume_give_or_take), bench_(&bench) {}

  /// A product that is filled into spoons: level, and as loose as its bulk density varies.
  void spooned(const Supply& supply, double half_width) { spoons_[&supply] = half_width; }

  /// The start, nothing done yet, with every source that counts in these moves.
  Branches at_start(std::span<const Move> moves) const;
  /// The same once they are done.
  Branches after(std::span<const Move> moves) const;
  /// A reading after these moves from the start.
  Spread spread(Reading reading, std::span<const Move> moves) const {
    return after(moves).spread(reading);
  }

 private:
  void add_supply(const Supply& supply, Branches& branches) const;

  const StartWater* start_;
  double volume_;
  const Bench* bench_;
  std::map<const Supply*, double> spoons_;
};

}  // namespace tub::planning
