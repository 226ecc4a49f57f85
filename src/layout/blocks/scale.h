// Where a reading's value stands on the channel: every target in the same place, whatever its
// scale.
#pragma once

#include "document/block.h"

namespace tub::layout {

/// The x places of one row's plot, in points from the plot's left edge.
struct ScalePlaces {
  double left = 0;      ///< of the lowest value drawn
  double low_side = 0;  ///< where the scale below the band begins
  double low = 0;       ///< lower bank
  double high = 0;      ///< upper bank
  double high_side = 0;
  double right = 0;  ///< of the highest value drawn
};

/// Linear inside the band; outside it begins at some distance from the bank, which leaves room for
/// the limit, and is linear to the reading's plot range. Beyond that range it stands still.
class Scale {
 public:
  Scale(const ChannelReading& reading, const ScalePlaces& places)
      : reading_(reading), places_(places) {}

  double at(double value) const;
  bool beyond(double value) const {
    return value < reading_.plot_low || value > reading_.plot_high;
  }
  bool inside(double value) const { return value >= reading_.low_at && value <= reading_.high_at; }

 private:
  const ChannelReading& reading_;
  ScalePlaces places_;
};

}  // namespace tub::layout
