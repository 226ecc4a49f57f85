// A document cut into what never breaks: blocks, the rungs of its ladders and the rows of its
// tables, each laid out.
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <vector>

#include "document/document.h"
#include "layout/blocks/ladder.h"
#include "layout/pages/context.h"
#include "layout/pages/fragment.h"

namespace tub::layout {

/// The ladder or table that some chunks are the rungs or rows of.
struct ChunkSeries {
  std::optional<LadderTracks> tracks;  ///< of a ladder, for its stiles
  Fragment head;                       ///< repeated above the first of them on each page
};

/// Something that stands on one page as a whole.
struct Chunk {
  Fragment fragment;
  std::optional<Fragment> short_form;         ///< of a masthead, for the pages after the first
  std::shared_ptr<const ChunkSeries> series;  ///< of a rung or row; those of one block share it
  Fragment continues;  ///< of a rung: stands below it where the next one is on another page
  bool every_page = false;
  bool close = false;         ///< to the chunk before it: no page may end between the two
  bool prefer_break = false;  ///< before it
  double room_share = 0;      ///< of the page's free height, for the rooms in it
};

/// All chunks in order, laid out in one setting.
std::vector<Chunk> chunks_of(const Document& document, double width, const Context& context);

}  // namespace tub::layout
