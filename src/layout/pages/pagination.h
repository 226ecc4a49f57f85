// Which chunks stand on which page, and how far down.
#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include "layout/pages/chunks.h"

namespace tub::layout {

/// One chunk's place on a page.
struct Placed {
  std::size_t chunk = 0;
  bool short_form = false;
  bool series_begins = false;   ///< the heads of its ladder or table stand above it on this page
  bool series_ends = false;     ///< a ladder's stiles run out below it
  bool series_goes_on = false;  ///< on the next page: a line below a ladder's stiles says so
  double top = 0;               ///< of the chunk itself, below its heads, from the blocks' top
};

/// All chunks of one page, from the top.
struct PagePlan {
  std::vector<Placed> placed;
  double height = 0;
};

/// Where pages may end: only before chunks that prefer to begin one, if that leaves the page before
/// well filled, or anywhere.
enum class Breaks { preferred, any };

/// The pages of a document, if it can be set on so many: as many chunks on each page as fit. No
/// page ends between chunks that are close.
std::optional<std::vector<PagePlan>> paginate(const std::vector<Chunk>& chunks, double height,
                                              std::size_t pages, Breaks breaks,
                                              const Lengths& lengths);

/// The same chunks on a page, with heights that have changed since.
PagePlan replan(const PagePlan& plan, const std::vector<Chunk>& chunks, const Lengths& lengths);

/// The height that is lacking on the fullest page if every page held a single chunk besides those
/// that stand on each.
double missing_height(const std::vector<Chunk>& chunks, double height, const Lengths& lengths);
/// The height that is lacking if all of them stood on one page.
double missing_height_on_one(const std::vector<Chunk>& chunks, double height,
                             const Lengths& lengths);

}  // namespace tub::layout
