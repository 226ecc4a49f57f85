// How far what a plan predicts may be off: volume, start readings, strengths and spoons, each
// moved by itself.
#pragma once

#include <map>
#include <span>
#include <string>
#include <vector>

#include "planning/draft.h"
#include "planning/spread.h"
#include "planning/start_water.h"

namespace tub {

/// The independent sources of error of one plan. Every half-width is 90 %.
class Uncertainty {
 public:
  /// REQUIRES: start and bench outlive this.
  Uncertainty(const StartWater& start, double volume_give_or_take, const Bench& bench)
      : start_(&start), volume_(volume_give_or_take), bench_(&bench) {}

  /// A product that is filled into spoons: level, and as loose as its bulk density varies.
  void spooned(const Supply& supply, double half_width) { spoons_[&supply] = half_width; }

  /// A reading after these moves from the start.
  Spread spread(Reading reading, std::span<const Move> moves) const;
  /// The middle 90 % of every number of the water after these moves, by key.
  std::map<std::string, Range> ranges(std::span<const Move> moves) const;

 private:
  struct Case {
    Water start;
    Draft moves;
  };
  /// One source: the waters where it is low and high (or half and whole loss).
  struct Source {
    Case low;
    Case high;
    double share = 1;
    bool is_one_sided = false;
  };
  std::vector<Source> sources(std::span<const Move> moves) const;
  void add_supply_sources(std::span<const Move> moves, std::vector<Source>& sources) const;
  Water outcome(const Case& one) const;

  const StartWater* start_;
  double volume_;
  const Bench* bench_;
  std::map<const Supply*, double> spoons_;
};

}  // namespace tub
