// Tries a style's settings one after the other until a document fits, and puts the chunks on pages.
#include "layout/pages/lay_out.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>

#include "base/text.h"
#include "layout/pages/checks.h"
#include "layout/pages/chunks.h"
#include "layout/pages/pagination.h"
#include "layout/type/lines.h"

namespace tub::layout {
namespace {

/// The page's first element, a section that holds all others.
constexpr int root = 0;

/// A document laid out in one setting; unusable if something is too wide.
struct Attempt {
  const Setting* setting = nullptr;
  std::vector<Chunk> chunks;
  std::vector<Diagnostic> misfits;
  double height = 0;  ///< for the blocks of a page
};

/// Where the foot line's own line begins, from the page's top.
double foot_top(const Stock& stock, const Setting& setting) {
  return stock.height_mm * mm - setting.lengths.foot_margin - setting.types.foot.leading;
}

bool has_foot(const Document& document) {
  const Foot& foot = document.foot;
  return !foot.left.empty() || !foot.right.empty() || !foot.page_of.empty();
}

/// Where the blocks end at the latest: above the foot line, or above the margin of a sheet without.
double blocks_end(const Document& document, const Stock& stock, const Setting& setting) {
  if (has_foot(document)) return foot_top(stock, setting) - setting.lengths.foot_space;
  return stock.height_mm * mm - setting.lengths.foot_margin;
}

class PageMaker {
 public:
  PageMaker(const Document& document, const Stock& stock, const FontSet& fonts,
            const Attempt& attempt)
      : document_(document),
        stock_(stock),
        attempt_(attempt),
        lengths_(attempt.setting->lengths),
        context_{*attempt.setting, fonts, document, misfits_, "the foot line"} {}

  std::vector<Page> make(const std::vector<PagePlan>& plans) {
    std::vector<Page> pages;
    for (std::size_t i = 0; i < plans.size(); ++i) {
      pages.push_back(make_page(plans[i], static_cast<int>(i) + 1, static_cast<int>(plans.size())));
    }
    if (!misfits_.empty()) throw Error(misfits_);
    return pages;
  }

 private:
  Page make_page(const PagePlan& plan, int number, int pages) {
    Fragment whole;
    whole.add(Element::of(Role::section));
    place_all(whole, plan);
    if (has_foot(document_)) lay_foot(whole, number, pages);
    Page page;
    page.width = stock_.width_mm * mm;
    page.height = stock_.height_mm * mm;
    page.items = std::move(whole.items);
    page.elements = std::move(whole.elements);
    page.number = number;
    page.pages = pages;
    page.sheet = document_.sheet;
    page.title = document_.title;
    page.language = document_.language;
    page.properties = document_.properties;
    return page;
  }

  /// Rooms take what height the page has left, by their shares.
  void place_all(Fragment& whole, const PagePlan& plan) {
    double shares = 0;
    for (const Placed& placed : plan.placed) shares += attempt_.chunks[placed.chunk].room_share;
    if (shares == 0) return place_chunks(whole, plan, attempt_.chunks);
    Context context = context_;
    context.free_height = (attempt_.height - plan.height) / shares;
    const std::vector<Chunk> chunks =
        chunks_of(document_, stock_.width_mm * mm - 2 * lengths_.margin_side, context);
    place_chunks(whole, replan(plan, chunks, lengths_), chunks);
  }

  void place_chunks(Fragment& whole, const PagePlan& plan, const std::vector<Chunk>& chunks) {
    int series = root;
    for (std::size_t i = 0; i < plan.placed.size(); ++i) {
      const Placed& placed = plan.placed[i];
      const Chunk& chunk = chunks[placed.chunk];
      const Point at{lengths_.margin_side, lengths_.margin_top + placed.top};
      if (placed.series_begins) series = begin_series(whole, plan, i, chunks);
      whole.place(placed.short_form ? *chunk.short_form : chunk.fragment, at,
                  chunk.series ? series : root);
      if (placed.series_goes_on && chunk.series->tracks) {
        const double below = chunk.fragment.height + lengths_.ladder_foot;
        whole.place(chunk.continues, {at.x, at.y + below}, root);
      }
    }
  }

  /// The heads above the first rung or row on this page, and the element that holds them all.
  int begin_series(Fragment& whole, const PagePlan& plan, std::size_t first,
                   const std::vector<Chunk>& chunks) {
    const ChunkSeries& series = *chunks[plan.placed[first].chunk].series;
    if (series.tracks) {
      begin_ladder(whole, plan, first, chunks);
      return whole.add(Element::of(Role::list, root));
    }
    const int table = whole.add(Element::of(Role::table, root));
    const double top = plan.placed[first].top - series.head.height;
    whole.place(series.head, {lengths_.margin_side, lengths_.margin_top + top}, table);
    return table;
  }

  /// Stiles from the heads down to below the ladder's last rung on this page, and the heads.
  void begin_ladder(Fragment& whole, const PagePlan& plan, std::size_t first,
                    const std::vector<Chunk>& chunks) {
    std::size_t last = first;
    while (!plan.placed[last].series_ends) ++last;
    const ChunkSeries& ladder = *chunks[plan.placed[first].chunk].series;
    const double top = plan.placed[first].top - ladder.head.height;
    const double bottom = plan.placed[last].top + chunks[plan.placed[last].chunk].fragment.height +
                          lengths_.ladder_foot;
    const Point at{lengths_.margin_side, lengths_.margin_top + top};
    whole.place(lay_stiles(bottom - top, *ladder.tracks, context_), at, root);
    whole.place(ladder.head, at, root);
  }

  void lay_foot(Fragment& whole, int number, int pages) {
    const Type& type = context_.types().foot;
    const double baseline = foot_top(stock_, *attempt_.setting) + context_.rise(type);
    std::string right = document_.foot.right;
    if (!document_.foot.page_of.empty()) {
      const std::string page = replaced(document_.foot.page_of, "{page}", std::to_string(number));
      right += (right.empty() ? "" : " · ") + replaced(page, "{pages}", std::to_string(pages));
    }
    const double width = stock_.width_mm * mm - 2 * lengths_.margin_side;
    const Line left_line = single_line(plain(document_.foot.left), type, context_);
    const Line right_line = single_line(plain(right), type, context_);
    const double over = left_line.width + lengths_.title_gap + right_line.width - width;
    if (over > 0) context_.too_wide(document_.foot.left + " … " + right, over);
    draw_artifact(whole, left_line, {lengths_.margin_side, baseline});
    draw_artifact(whole, right_line, {lengths_.margin_side + width - right_line.width, baseline});
  }

  void draw_artifact(Fragment& whole, const Line& line, Point at) {
    for (const Mark& mark : line.marks) {
      for (const Item& item : mark.items) whole.draw(moved(item, at));
    }
  }

  const Document& document_;
  const Stock& stock_;
  const Attempt& attempt_;
  const Lengths& lengths_;
  std::vector<Diagnostic> misfits_;
  Context context_;
};

Attempt attempt(const Document& document, const Setting& setting, const Stock& stock,
                const FontSet& fonts) {
  Attempt result;
  result.setting = &setting;
  const Lengths& lengths = setting.lengths;
  const Context context{setting, fonts, document, result.misfits, {}};
  result.chunks = chunks_of(document, stock.width_mm * mm - 2 * lengths.margin_side, context);
  result.height = blocks_end(document, stock, setting) - lengths.margin_top;
  return result;
}

/// Each misfit once: a text that is tried in several places may be found too wide several times.
std::vector<Diagnostic> without_repeats(const std::vector<Diagnostic>& misfits) {
  std::vector<Diagnostic> once;
  for (const Diagnostic& misfit : misfits) {
    if (std::find(once.begin(), once.end(), misfit) == once.end()) once.push_back(misfit);
  }
  return once;
}

[[noreturn]] void fail(const Document& document, const Stock& stock, const Attempt& tightest) {
  if (!tightest.misfits.empty()) throw Error(without_repeats(tightest.misfits));
  const Lengths& lengths = tightest.setting->lengths;
  const double missing = document.is_one_page
                             ? missing_height_on_one(tightest.chunks, tightest.height, lengths)
                             : missing_height(tightest.chunks, tightest.height, lengths);
  throw Error(Diagnostic{fmt::format("{} does not fit on {}: {} mm are missing in height",
                                     document.sheet, stock.name, fixed(missing / mm, 1)),
                         document.sheet,
                         {},
                         "shorten its longest block"});
}

/// A page that the style was not made for is refused as a whole, before each of its texts is.
void check_page(const Document& document, const Style& style, const Stock& stock) {
  const Lengths& lengths = style.settings.back().lengths;
  const double width = lengths.page_width_least / mm;
  const double height = lengths.page_height_least / mm;
  if (stock.width_mm >= width && stock.height_mm >= height) return;
  throw Error(
      Diagnostic{fmt::format("{} does not fit on {}, which is {} × {} mm", document.sheet,
                             stock.name, shortest(stock.width_mm), shortest(stock.height_mm)),
                 document.sheet,
                 {},
                 fmt::format("take a stock of at least {} × {} mm: `tubwright list stocks`",
                             fixed(width, 0), fixed(height, 0))});
}

/// The style with margins that leave free what the stock keeps free.
Style within_keep_out(Style style, const Stock& stock) {
  const double keep_out = stock.keep_out_mm * mm;
  for (Setting& setting : style.settings) {
    Lengths& lengths = setting.lengths;
    lengths.margin_side = std::max(lengths.margin_side, keep_out);
    lengths.margin_top = std::max(lengths.margin_top, keep_out);
    lengths.foot_margin = std::max(lengths.foot_margin, keep_out);
  }
  return style;
}

/// How far ink reaches into what the stock keeps free: large figures rise above their line, a Q
/// falls below the foot's. At most 0 where it does not.
struct Reach {
  double top = 0;
  double side = 0;
  double foot = 0;

  bool is_any() const { return top > 0 || side > 0 || foot > 0; }
};

Reach reach_into_keep_out(const std::vector<Page>& pages, const Stock& stock,
                          const FontSet& fonts) {
  const double keep_out = stock.keep_out_mm * mm;
  Reach reach;
  for (const Page& page : pages) {
    for (const Item& item : page.items) {
      const Bounds ink = bounds_of(item, fonts);
      reach.top = std::max(reach.top, keep_out - ink.top);
      reach.foot = std::max(reach.foot, keep_out - (page.height - ink.bottom));
      reach.side = std::max({reach.side, keep_out - ink.left, keep_out - (page.width - ink.right)});
    }
  }
  return reach;
}

/// The settings of a style, each laid out when it is first asked for.
///
/// Settings only ever get tighter: what fits in one fits in all after it. So the tightest says
/// whether a number of pages is enough, and halving finds the most generous that is.
class Trials {
 public:
  Trials(const Document& document, Style style, const Stock& stock, const FontSet& fonts)
      : document_(document),
        style_(std::move(style)),
        stock_(stock),
        fonts_(fonts),
        attempts_(style_.settings.size()) {}

  std::vector<Page> run() {
    if (auto pages = fit(1, Breaks::any)) return *std::move(pages);
    const std::size_t most =
        document_.is_one_page ? 1 : attempt_at(attempts_.size() - 1).chunks.size();
    for (std::size_t count = 2; count <= most; ++count) {
      for (const Breaks breaks : {Breaks::preferred, Breaks::any}) {
        if (auto pages = fit(count, breaks)) return *std::move(pages);
      }
    }
    fail(document_, stock_, attempt_at(attempts_.size() - 1));
  }

 private:
  const Attempt& attempt_at(std::size_t index) {
    std::optional<Attempt>& slot = attempts_[index];
    if (!slot) slot = attempt(document_, style_.settings[index], stock_, fonts_);
    return *slot;
  }

  using Plans = std::optional<std::vector<PagePlan>>;
  Plans plans_of(const Attempt& each, std::size_t pages, Breaks breaks) const {
    if (!each.misfits.empty()) return std::nullopt;
    return paginate(each.chunks, each.height, pages, breaks, each.setting->lengths);
  }

  /// The pages in the most generous setting that needs no more of them.
  std::optional<std::vector<Page>> fit(std::size_t pages, Breaks breaks) {
    std::size_t high = attempts_.size() - 1;
    Plans best = plans_of(attempt_at(high), pages, breaks);
    if (!best) return std::nullopt;
    std::size_t low = 0;
    while (low < high) {
      const std::size_t middle = (low + high) / 2;
      if (Plans plans = plans_of(attempt_at(middle), pages, breaks)) {
        best = std::move(plans);
        high = middle;
      } else {
        low = middle + 1;
      }
    }
    return relaxed(high, *best, pages, breaks);
  }

  /// Where smaller type leaves room to spare, it goes back to the spaces: the lengths of settings
  /// before, as far back as they still fit.
  std::vector<Page> relaxed(std::size_t index, std::vector<PagePlan> plans, std::size_t pages,
                            Breaks breaks) {
    Setting setting = style_.settings[index];
    Attempt best = attempt_at(index);
    for (std::size_t i = index; i-- > 0;) {
      Setting wider = style_.settings[index];
      wider.lengths = style_.settings[i].lengths;
      Attempt next = attempt(document_, wider, stock_, fonts_);
      Plans found = plans_of(next, pages, breaks);
      if (!found) break;
      setting = std::move(wider);
      best = std::move(next);
      plans = *std::move(found);
    }
    best.setting = &setting;
    return PageMaker(document_, stock_, fonts_, best).make(plans);
  }

  const Document& document_;
  const Style style_;
  const Stock& stock_;
  const FontSet& fonts_;
  std::vector<std::optional<Attempt>> attempts_;
};

}  // namespace

std::vector<Page> lay_out(const Document& document, const Style& style, const Stock& stock,
                          const FontSet& fonts) {
  check_page(document, style, stock);
  Style fitted = within_keep_out(style, stock);
  // Lower figures make the page fuller: then its last line may reach into the foot's margin.
  constexpr int most_turns = 3;
  for (int turn = 0; turn < most_turns; ++turn) {
    const std::vector<Page> pages = Trials(document, fitted, stock, fonts).run();
    const Reach reach = reach_into_keep_out(pages, stock, fonts);
    if (!reach.is_any()) return pages;
    for (Setting& setting : fitted.settings) {
      setting.lengths.margin_top += reach.top;
      setting.lengths.margin_side += reach.side;
      setting.lengths.foot_margin += reach.foot;
    }
  }
  return Trials(document, std::move(fitted), stock, fonts).run();
}

}  // namespace tub::layout
