// Volumes from what can be measured of a vessel: its sides, its fill, what a known amount raised.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "base/modules.h"

namespace tub::job {

/// A seat or a step, which takes the place of water.
struct SeatBench {
  double length_m = 0;  ///< along the wall
  double width_m = 0;   ///< of the seat
  double height_m = 0;  ///< from the floor, at most to the water's surface

  double area_m2() const { return length_m * width_m; }
};

/// The inside of a vessel up to its water line.
struct Basin {
  enum class Shape { rectangle, round, oval };
  Shape shape = Shape::rectangle;
  double length_m = 0;  ///< or the diameter
  double width_m = 0;   ///< or the diameter
  double water_depth_m = 0;
  std::vector<SeatBench> benches{};

  /// Of the water's surface.
  double area_m2() const;
  /// Without the benches.
  double empty_l() const { return 1000 * area_m2() * water_depth_m; }
  double benches_l() const;
  double litres() const { return empty_l() - benches_l(); }
};

/// A known amount of product that raised a reading.
struct Dilution {
  double grams = 0;
  double rise_per_gram_per_litre = 0;  ///< mg/L of the reading
  double before = 0;                   ///< mg/L
  double after = 0;                    ///< mg/L
  double half_width_before = 0;        ///< of the test there, 90 %, mg/L
  double half_width_after = 0;
  double strength_half_width = 0;  ///< of the product, 90 %, as a share

  double rise() const { return after - before; }
  double litres() const { return grams * rise_per_gram_per_litre / rise(); }
  /// 90 % half-width, as a share. The two tests and the strength are independent.
  double give_or_take() const;
};

/// A volume, how it was found, and how far off it may be (90 %, as a share).
struct FoundVolume {
  std::string how;  ///< the field
  double litres = 0;
  double give_or_take = 0;
  bool is_assumed = false;  ///< the give or take

  double half_width_l() const { return litres * give_or_take; }
};

/// Whether both may be right: apart by no more than two independent errors come to.
bool agree(const FoundVolume& one, const FoundVolume& other);

/// The most certain of some volumes. REQUIRES: at least one
const FoundVolume& most_certain(std::span<const FoundVolume> volumes);

}  // namespace tub::job
