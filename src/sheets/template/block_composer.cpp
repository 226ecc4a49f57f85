// Each kind of block names its fields once, where it reads them.
#include "sheets/template/block_composer.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>
#include <utility>

#include "base/nearest.h"
#include "sheets/template/table_composer.h"

namespace tub::sheets {
namespace {

Masthead compose_masthead(Composer& composer, const Node& node) {
  Composer::allow_only(node, {"kind", "title", "figure", "facts", "logo"});
  Masthead masthead{composer.words(node, "kind"), composer.words(node, "title"),
                    composer.words(node, "figure"), composer.words_list(node, "facts")};
  const std::string logo = composer.text(node, "logo");
  if (!logo.empty()) masthead.logo = Picture{{}, 0, 0, logo};  // the bytes are no template's matter
  return masthead;
}

Paragraph compose_paragraph(Composer& composer, const Node& node) {
  if (!node.is_object()) return {composer.words(node), Rank::body};
  Composer::allow_only(node, {"text", "rank"});
  Paragraph paragraph;
  if (const auto text = node.require("text")) paragraph.words = composer.words(*text);
  paragraph.rank = compose_rank(node);
  return paragraph;
}

std::vector<Paragraph> compose_paragraphs(Composer& composer, const Node& node) {
  std::vector<Paragraph> paragraphs;
  composer.items(node, "paragraphs", [&](const Node& item) {
    paragraphs.push_back(compose_paragraph(composer, item));
  });
  return paragraphs;
}

Text compose_text(Composer& composer, const Node& node) {
  Composer::allow_only(node, {"paragraphs", "flow"});
  Text text;
  text.paragraphs = compose_paragraphs(composer, node);
  if (const auto flow = node.find("flow")) {
    const std::vector<std::string> flows = {"stacked", "spread"};
    if (flow->one_of(flows).value_or("") == "spread") text.flow = Text::Flow::spread;
  }
  return text;
}

ChannelReading compose_reading(Composer& composer, const Node& node) {
  Composer::allow_only(
      node, {"name", "unit", "now", "now_at", "low", "high", "low_at", "high_at", "after",
             "after_low_at", "after_high_at", "plot_low", "plot_high", "alt"});
  ChannelReading reading;
  reading.name = composer.words(node, "name");
  reading.unit = composer.words(node, "unit");
  reading.now = composer.text(node, "now");
  reading.now_at = composer.number(node, "now_at");
  reading.low = composer.text(node, "low");
  reading.high = composer.text(node, "high");
  reading.low_at = composer.number(node, "low_at").value_or(0);
  reading.high_at = composer.number(node, "high_at").value_or(0);
  reading.after = composer.text(node, "after");
  reading.after_low_at = composer.number(node, "after_low_at").value_or(0);
  reading.after_high_at = composer.number(node, "after_high_at").value_or(0);
  reading.plot_low = composer.number(node, "plot_low").value_or(0);
  reading.plot_high = composer.number(node, "plot_high").value_or(0);
  reading.alt = composer.text(node, "alt");
  return reading;
}

ChannelHeld compose_held(Composer& composer, const Node& node) {
  Composer::allow_only(node, {"name", "unit", "now", "held"});
  return {composer.words(node, "name"), composer.words(node, "unit"), composer.text(node, "now"),
          composer.words(node, "held")};
}

Channel compose_channel(Composer& composer, const Node& node) {
  Composer::allow_only(
      node, {"title", "now_head", "low_head", "band_head", "high_head", "after_head", "rows"});
  Channel channel;
  channel.title = composer.words(node, "title");
  channel.now_head = composer.words(node, "now_head");
  channel.low_head = composer.words(node, "low_head");
  channel.band_head = composer.words(node, "band_head");
  channel.high_head = composer.words(node, "high_head");
  channel.after_head = composer.words(node, "after_head");
  composer.items(node, "rows", [&](const Node& item) {
    if (item.find("held")) {
      channel.rows.emplace_back(compose_held(composer, item));
    } else {
      channel.rows.emplace_back(compose_reading(composer, item));
    }
  });
  return channel;
}

Pour compose_pour(Composer& composer, const Node& node) {
  Composer::allow_only(node,
                       {"set_in", "condition", "amount", "spoons", "wait", "test", "reading"});
  Pour pour;
  if (composer.flag(node, "set_in")) pour.turn = Pour::Turn::second;
  pour.condition = composer.words(node, "condition");
  pour.amount = {composer.text(node, "amount"), composer.text(node, "spoons")};
  pour.wait = composer.words(node, "wait");
  pour.test = composer.words(node, "test");
  pour.reading = composer.words(node, "reading");
  return pour;
}

RungOutcome compose_outcome(Composer& composer, const Node& node) {
  Composer::allow_only(node, {"reads", "then"});
  return {composer.words(node, "reads"), composer.words(node, "then")};
}

Rung compose_rung(Composer& composer, const Node& node) {
  Composer::allow_only(node, {"key", "title", "aside", "hazard", "signs", "tick", "pours",
                              "outcomes", "notes", "blocks", "prefer_break_before"});
  Rung rung;
  rung.key = composer.words(node, "key");
  rung.title = composer.words(node, "title");
  rung.aside = composer.words_list(node, "aside");
  rung.hazard = composer.words(node, "hazard");
  rung.signs = compose_sign_list(composer, node);
  rung.tick = composer.flag(node, "tick");
  composer.items(node, "pours",
                 [&](const Node& item) { rung.pours.push_back(compose_pour(composer, item)); });
  composer.items(node, "outcomes", [&](const Node& item) {
    rung.outcomes.push_back(compose_outcome(composer, item));
  });
  rung.notes = composer.words_list(node, "notes");
  if (const auto blocks = node.find("blocks")) rung.blocks = compose_blocks(composer, *blocks);
  rung.prefer_break_before = composer.flag(node, "prefer_break_before");
  return rung;
}

Ladder compose_ladder(Composer& composer, const Node& node) {
  Composer::allow_only(
      node, {"key", "pour_head", "wait_head", "test_head", "reading_head", "continues", "rungs"});
  Ladder ladder;
  if (const auto key = node.find("key")) {
    const std::vector<std::string> keys = {"number", "name"};
    if (key->one_of(keys).value_or("") == "name") ladder.key = Ladder::Key::name;
  }
  ladder.pour_head = composer.words(node, "pour_head");
  ladder.wait_head = composer.words(node, "wait_head");
  ladder.test_head = composer.words(node, "test_head");
  ladder.reading_head = composer.words(node, "reading_head");
  ladder.continues = composer.words(node, "continues");
  composer.items(node, "rungs",
                 [&](const Node& item) { ladder.rungs.push_back(compose_rung(composer, item)); });
  return ladder;
}

Notice compose_notice(Composer& composer, const Node& node) {
  Composer::allow_only(node, {"word", "text", "look", "runs_in"});
  Notice notice;
  notice.word = composer.words(node, "word");
  notice.text = composer.words(node, "text");
  notice.runs_in = composer.flag(node, "runs_in");
  if (const auto look = node.find("look")) {
    const std::vector<std::string> looks = {"framed", "reversed"};
    if (look->one_of(looks).value_or("") == "reversed") notice.look = Notice::Look::reversed;
  }
  return notice;
}

Signs compose_signs(Composer& composer, const Node& node) {
  Composer::allow_only(node, {"signs", "text", "side_mm", "order", "paragraphs"});
  Signs signs;
  signs.paragraphs = compose_paragraphs(composer, node);
  signs.signs = compose_sign_list(composer, node);
  signs.text = composer.words(node, "text");
  signs.side_mm = composer.number(node, "side_mm");
  if (const auto order = node.find("order")) {
    const std::vector<std::string> orders = {"row", "column"};
    if (order->one_of(orders).value_or("") == "column") signs.order = Signs::Order::column;
  }
  return signs;
}

Code compose_code(Composer& composer, const Node& node) {
  Composer::allow_only(node, {"payload", "side_mm", "text", "alt", "caption"});
  Code code;
  code.payload = composer.text(node, "payload");
  code.side_mm = composer.number(node, "side_mm").value_or(code.side_mm);
  code.text = composer.words(node, "text");
  code.alt = composer.text(node, "alt");
  if (const auto caption = node.find("caption")) {
    const std::vector<std::string> captions = {"beside", "under"};
    if (caption->one_of(captions).value_or("") == "under") code.caption = Code::Caption::under;
  }
  return code;
}

Columns compose_columns(Composer& composer, const Node& node) {
  Composer::allow_only(node, {"columns", "ruled"});
  Columns columns;
  columns.is_ruled = composer.flag(node, "ruled");
  composer.items(node, "columns", [&](const Node& item) {
    Composer::allow_only(item, {"share", "blocks"});
    Columns::Column column;
    column.share = composer.number(item, "share").value_or(1);
    if (const auto blocks = item.require("blocks")) {
      column.blocks = compose_blocks(composer, *blocks);
    }
    columns.columns.push_back(std::move(column));
  });
  return columns;
}

Room compose_room(Composer& composer, const Node& node) {
  Composer::allow_only(node, {"least_mm", "share", "answers"});
  Room room;
  room.least_mm = composer.number(node, "least_mm").value_or(room.least_mm);
  room.share = composer.number(node, "share").value_or(room.share);
  room.answers = composer.words_list(node, "answers");
  return room;
}

using Content = decltype(Block::content);

struct BlockKind {
  std::string name;
  Content (*compose)(Composer&, const Node&);
};

template <auto compose>
Content as_content(Composer& composer, const Node& node) {
  return compose(composer, node);
}

const std::array<BlockKind, 11> block_kinds = {{
    {"masthead", as_content<compose_masthead>},
    {"text", as_content<compose_text>},
    {"channel", as_content<compose_channel>},
    {"ladder", as_content<compose_ladder>},
    {"table", as_content<compose_table>},
    {"notice", as_content<compose_notice>},
    {"signs", as_content<compose_signs>},
    {"chart", as_content<compose_chart>},
    {"code", as_content<compose_code>},
    {"columns", as_content<compose_columns>},
    {"room", as_content<compose_room>},
}};

std::vector<std::string> kind_names() {
  std::vector<std::string> names;
  names.reserve(block_kinds.size());
  for (const BlockKind& kind : block_kinds) names.push_back(kind.name);
  return names;
}

const std::vector<std::string> block_fields = {"pages", "close_to_previous"};

const BlockKind* kind_of(const Node& item) {
  const auto found =
      std::find_if(block_kinds.begin(), block_kinds.end(),
                   [&](const BlockKind& kind) { return item.find(kind.name).has_value(); });
  if (found != block_kinds.end()) return &*found;
  item.problem("expected a block, and found no kind of block that is known",
               fmt::format("the kinds are: {}", fmt::join(kind_names(), ", ")));
  return nullptr;
}

void compose_block(Composer& composer, const Node& item, std::vector<Block>& blocks) {
  std::vector<std::string> known = kind_names();
  known.insert(known.end(), block_fields.begin(), block_fields.end());
  Composer::allow_only(item, known);
  const BlockKind* const kind = kind_of(item);
  if (kind == nullptr) return;
  for (const BlockKind& other : block_kinds) {
    if (&other != kind && item.find(other.name)) {
      item.problem(
          fmt::format("a block is one kind, and this is {} and {}", kind->name, other.name),
          "make two blocks of it");
    }
  }
  Block block;
  block.content = kind->compose(composer, *item.find(kind->name));
  if (const auto pages = item.find("pages")) {
    const std::vector<std::string> names = {"one", "every"};
    if (pages->one_of(names).value_or("") == "every") block.pages = Block::Pages::every;
  }
  block.close_to_previous = composer.flag(item, "close_to_previous");
  block.where = item.where();
  blocks.push_back(std::move(block));
}

}  // namespace

std::vector<Block> compose_blocks(Composer& composer, const Node& list) {
  std::vector<Block> blocks;
  composer.items(list, [&](const Node& item) { compose_block(composer, item, blocks); });
  return blocks;
}

}  // namespace tub::sheets
