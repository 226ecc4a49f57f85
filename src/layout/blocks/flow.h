// Short texts beside each other with gaps, on as many lines as they need: points, outcomes, facts.
#pragma once

#include "layout/type/lines.h"

namespace tub::layout {

/// A place that moves on with each text that is added.
class Flow {
 public:
  /// left, right: the edges of the lines
  /// at:          where the first text begins, on its baseline
  Flow(double left, double right, double gap, Point at)
      : left_(left), right_(right), gap_(gap), at_(at) {}

  /// Adds a text behind the one before, on a line of its own if it does not fit there; broken only
  /// if it is wider than a whole line.
  void add(Content& content, const Words& words, const Type& type, const Context& context);

  /// Whether a text fits behind the one before.
  bool fits(const Line& line) const { return at_.x + line.width <= right_ + 1e-6; }
  void new_line(double leading);
  /// The gap before the next text, if it is to be another.
  void close_up(double gap) { at_.x += gap - gap_; }
  double baseline() const { return at_.y; }
  double x() const { return at_.x; }

 private:
  void put(Content& content, Line line, const Context& context);

  double left_;
  double right_;
  double gap_;
  Point at_;
};

}  // namespace tub::layout
