// Lays out each block, and each rung, on its own.
#include "layout/chunks.h"

#include <utility>

#include "layout/blocks.h"

namespace tub {
namespace {

double room_share(const std::vector<Block>& blocks) {
  double share = 0;
  for (const Block& block : blocks) {
    if (const Room* const room = std::get_if<Room>(&block.content)) share += room->share;
  }
  return share;
}

void add_rungs(std::vector<Chunk>& chunks, const Ladder& ladder, const Block& block, double width,
               const Context& context) {
  ChunkLadder parts{ladder_tracks(ladder, width, context), {}};
  parts.head = lay_ladder_head(ladder, parts.tracks, context);
  const auto shared = std::make_shared<const ChunkLadder>(std::move(parts));
  bool first = true;
  for (const Rung& rung : ladder.rungs) {
    Chunk chunk;
    chunk.fragment = lay_rung(ladder, rung, shared->tracks, context);
    chunk.ladder = shared;
    chunk.close = first && block.close_to_previous;
    chunk.prefer_break = rung.prefer_break_before;
    chunk.room_share = room_share(rung.blocks);
    first = false;
    chunks.push_back(std::move(chunk));
  }
}

Chunk whole_chunk(const Block& block, double width, const Context& context) {
  Chunk chunk;
  chunk.fragment = lay_block(block, width, context);
  chunk.every_page = block.pages == Block::Pages::every;
  chunk.close = block.close_to_previous;
  if (const Masthead* const masthead = std::get_if<Masthead>(&block.content)) {
    chunk.short_form = lay_short_masthead(*masthead, width, context);
    chunk.every_page = true;
  }
  chunk.room_share = room_share({block});
  return chunk;
}

}  // namespace

std::vector<Chunk> chunks_of(const Document& document, double width, const Context& context) {
  std::vector<Chunk> chunks;
  for (const Block& block : document.blocks) {
    Context here = context;
    here.where = block.where;
    if (const Ladder* const ladder = std::get_if<Ladder>(&block.content)) {
      add_rungs(chunks, *ladder, block, width, here);
    } else {
      chunks.push_back(whole_chunk(block, width, here));
    }
  }
  return chunks;
}

}  // namespace tub
