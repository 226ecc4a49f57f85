// Lays out each block, each rung and each row, on its own.
#include "layout/pages/chunks.h"

#include <cstddef>
#include <optional>
#include <utility>

#include "base/text.h"
#include "layout/blocks/blocks.h"
#include "layout/type/lines.h"

namespace tub::layout {
namespace {

double room_share(const std::vector<Block>& blocks) {
  double share = 0;
  for (const Block& block : blocks) {
    if (const Room* const room = std::get_if<Room>(&block.content)) share += room->share;
  }
  return share;
}

/// Which rung is on the next page, from the text edge; without height if the ladder has no words
/// for it.
Fragment lay_continues(const Ladder& ladder, const Rung& next, const LadderTracks& tracks,
                       const Context& context) {
  Words words = ladder.continues;
  for (Inline& part : words.parts) {
    if (auto* const plain = std::get_if<Plain>(&part)) {
      plain->text = replaced(plain->text, "{key}", text_of(next.key));
    } else if (auto* const bold = std::get_if<Bold>(&part)) {
      bold->text = replaced(bold->text, "{key}", text_of(next.key));
    }
  }
  Fragment fragment;
  if (words.empty()) return fragment;
  const double width = tracks.right - tracks.text;
  const Fragment line = paragraph(words, context.types().body, width, context,
                                  Element::of(Role::paragraph), Align::right);
  fragment.place(line, {tracks.text, 0});
  fragment.height = line.height;
  return fragment;
}

void add_rungs(std::vector<Chunk>& chunks, const Ladder& ladder, const Block& block, double width,
               const Context& context) {
  const LadderTracks tracks = ladder_tracks(ladder, width, context);
  const auto shared = std::make_shared<const ChunkSeries>(
      ChunkSeries{tracks, lay_ladder_head(ladder, tracks, context)});
  bool first = true;
  for (std::size_t i = 0; i < ladder.rungs.size(); ++i) {
    const Rung& rung = ladder.rungs[i];
    Chunk chunk;
    chunk.fragment = lay_rung(ladder, rung, tracks, context);
    chunk.series = shared;
    if (i + 1 < ladder.rungs.size()) {
      chunk.continues = lay_continues(ladder, ladder.rungs[i + 1], tracks, context);
    }
    chunk.close = first && block.close_to_previous;
    chunk.prefer_break = rung.prefer_break_before;
    chunk.room_share = room_share(rung.blocks);
    first = false;
    chunks.push_back(std::move(chunk));
  }
}

void add_rows(std::vector<Chunk>& chunks, TableParts parts, const Block& block) {
  const auto shared =
      std::make_shared<const ChunkSeries>(ChunkSeries{std::nullopt, std::move(parts.head)});
  for (std::size_t i = 0; i < parts.rows.size(); ++i) {
    Chunk chunk;
    chunk.fragment = std::move(parts.rows[i]);
    chunk.series = shared;
    chunk.close = i == 0 && block.close_to_previous;
    chunks.push_back(std::move(chunk));
  }
}

/// A table that may break, in parts; nothing for any other block.
std::optional<TableParts> parts_of(const Block& block, double width, const Context& context) {
  const Table* const table = std::get_if<Table>(&block.content);
  const bool is_whole = table == nullptr || context.document.is_one_page ||
                        block.pages == Block::Pages::every || !can_break(*table);
  if (is_whole) return std::nullopt;
  return lay_table_parts(*table, width, context);
}

Chunk whole_chunk(const Block& block, double width, const Context& context) {
  Chunk chunk;
  chunk.fragment = lay_block(block, width, context);
  chunk.every_page = block.pages == Block::Pages::every;
  chunk.close = block.close_to_previous;
  if (const Masthead* const masthead = std::get_if<Masthead>(&block.content)) {
    if (!context.document.is_one_page) {
      chunk.short_form = lay_short_masthead(*masthead, width, context);
    }
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
    } else if (std::optional<TableParts> parts = parts_of(block, width, here)) {
      add_rows(chunks, *std::move(parts), block);
    } else {
      chunks.push_back(whole_chunk(block, width, here));
    }
  }
  return chunks;
}

}  // namespace tub::layout
