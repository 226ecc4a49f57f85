// Chooses page ends by trying, the latest first.
#include "layout/pages/pagination.h"

#include <algorithm>
#include <utility>

namespace tub::layout {
namespace {

/// Of a page, in a sheet's tightest setting: a break that is preferred leaves no emptier one, and a
/// page is filled before it is broken.
constexpr double least_filled = 0.72;

class Paginator {
 public:
  Paginator(const std::vector<Chunk>& chunks, double height, Breaks breaks, const Lengths& lengths)
      : chunks_(chunks), height_(height), breaks_(breaks), lengths_(lengths) {
    for (std::size_t i = 0; i < chunks.size(); ++i) {
      if (!chunks[i].every_page) once_.push_back(i);
    }
  }

  std::size_t count() const { return once_.size(); }

  /// The page that holds the chunks from..to of those that stand once, and those on every page.
  PagePlan plan(std::size_t from, std::size_t to, bool first_page) const {
    PagePlan page;
    for (std::size_t i = 0; i < chunks_.size(); ++i) {
      if (chunks_[i].every_page || among(i, from, to)) add(page, i, first_page);
    }
    end_series(page);
    return page;
  }

  PagePlan again(const PagePlan& before) const {
    PagePlan page;
    for (const Placed& placed : before.placed) add(page, placed.chunk, !placed.short_form);
    end_series(page);
    return page;
  }

  bool fits(const PagePlan& page) const { return page.height <= height_ + 1e-6; }

  std::optional<std::vector<PagePlan>> fill(std::size_t from, std::size_t pages,
                                            bool first_page) const {
    if (pages == 1) {
      PagePlan page = plan(from, once_.size(), first_page);
      if (!fits(page)) return std::nullopt;
      return std::vector<PagePlan>{std::move(page)};
    }
    for (const std::size_t end : ends(from, first_page)) {
      std::optional<std::vector<PagePlan>> rest = fill(end, pages - 1, false);
      if (!rest) continue;
      rest->insert(rest->begin(), plan(from, end, first_page));
      return rest;
    }
    return std::nullopt;
  }

 private:
  bool among(std::size_t chunk, std::size_t from, std::size_t to) const {
    return from < to && chunk >= once_[from] && chunk <= once_[to - 1];
  }

  /// Where a page that begins at `from` may end, the best first.
  std::vector<std::size_t> ends(std::size_t from, bool first_page) const {
    std::vector<std::size_t> found;
    for (std::size_t end = from + 1; end < once_.size(); ++end) {
      const PagePlan page = plan(from, end, first_page);
      if (!fits(page)) break;
      const Chunk& next = chunks_[once_[end]];
      const bool is_preferred = next.prefer_break && page.height >= least_filled * height_;
      const bool allowed = breaks_ == Breaks::any || is_preferred;
      if (allowed && !next.close) found.push_back(end);
    }
    std::reverse(found.begin(), found.end());
    return found;
  }

  void end_series(PagePlan& page) const {
    if (page.placed.empty()) return;
    Placed& last = page.placed.back();
    const Chunk& chunk = chunks_[last.chunk];
    if (!chunk.series) return;
    last.series_ends = true;
    if (chunk.series->tracks) page.height += lengths_.ladder_foot;
    const std::size_t next = last.chunk + 1;
    last.series_goes_on = next < chunks_.size() && chunks_[next].series == chunk.series;
    if (last.series_goes_on) page.height += chunk.continues.height;
  }

  void add(PagePlan& page, std::size_t i, bool first_page) const {
    const Chunk& chunk = chunks_[i];
    const Chunk* const before = page.placed.empty() ? nullptr : &chunks_[page.placed.back().chunk];
    const bool same_series = before && chunk.series && before->series == chunk.series;
    if (before && !same_series) {
      end_series(page);
      page.height += chunk.close ? lengths_.close_space : lengths_.block_space;
    }
    Placed placed{.chunk = i};
    placed.short_form = !first_page && chunk.short_form.has_value();
    placed.series_begins = chunk.series && !same_series;
    if (placed.series_begins) page.height += chunk.series->head.height;
    placed.top = page.height;
    page.height += placed.short_form ? chunk.short_form->height : chunk.fragment.height;
    page.placed.push_back(placed);
  }

  const std::vector<Chunk>& chunks_;
  double height_;
  Breaks breaks_;
  const Lengths& lengths_;
  std::vector<std::size_t> once_;
};

}  // namespace

std::optional<std::vector<PagePlan>> paginate(const std::vector<Chunk>& chunks, double height,
                                              std::size_t pages, Breaks breaks,
                                              const Lengths& lengths) {
  return Paginator(chunks, height, breaks, lengths).fill(0, pages, true);
}

PagePlan replan(const PagePlan& plan, const std::vector<Chunk>& chunks, const Lengths& lengths) {
  return Paginator(chunks, 0, Breaks::any, lengths).again(plan);
}

double missing_height(const std::vector<Chunk>& chunks, double height, const Lengths& lengths) {
  const Paginator paginator(chunks, height, Breaks::any, lengths);
  double most = paginator.plan(0, 0, true).height;
  for (std::size_t i = 0; i < paginator.count(); ++i) {
    most = std::max(most, paginator.plan(i, i + 1, i == 0).height);
  }
  return most - height;
}

double missing_height_on_one(const std::vector<Chunk>& chunks, double height,
                             const Lengths& lengths) {
  const Paginator paginator(chunks, height, Breaks::any, lengths);
  return paginator.plan(0, paginator.count(), true).height - height;
}

}  // namespace tub::layout
