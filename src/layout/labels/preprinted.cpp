#include "layout/labels/preprinted.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <set>

#include "base/error.h"
#include "base/text.h"
#include "layout/labels/measures.h"
#include "layout/pages/checks.h"
#include "layout/pages/fragment.h"
#include "layout/type/style.h"

namespace tub::layout {
namespace {

constexpr double same_side_mm = 0.3;
constexpr double touching = 0.5;  // points

/// A hazard pictogram on a page.
struct Diamond {
  int element = 0;
  std::size_t frame = 0;  ///< index of its frame among the page's items
  Point middle;
  double side = 0;
};

[[noreturn]] void refuse(const Page& label, std::string message, std::string help) {
  throw Error(Diagnostic{.message = std::move(message),
                         .where = label.sheet,
                         .trace = {"using the frames of the stock"},
                         .help = std::move(help)});
}

/// Each figure's first path, if it is a hazard square.
std::vector<Diamond> diamonds_of(const Page& label, const FontSet& fonts) {
  std::vector<Diamond> diamonds;
  std::set<int> seen;
  for (std::size_t i = 0; i < label.items.size(); ++i) {
    const Path* const path = std::get_if<Path>(&label.items[i]);
    if (path == nullptr || path->element == artifact || !seen.insert(path->element).second)
      continue;
    const auto side = diamond_side(*path);
    if (!side) continue;
    const Bounds box = bounds_of(label.items[i], fonts);
    diamonds.push_back(
        {path->element, i, {(box.left + box.right) / 2, (box.top + box.bottom) / 2}, *side});
  }
  return diamonds;
}

void check_frames(const Page& label, const std::vector<Diamond>& diamonds, const Stock& stock) {
  if (stock.frames.empty()) {
    refuse(label,
           fmt::format("a bitmap has one ink, the frames on a container label are red, and {} "
                       "carries none",
                       stock.name),
           "take a stock with preprinted frames (`tubwright list stocks --json`), or print as pdf, "
           "svg or png on a printer that has red");
  }
  if (diamonds.size() > stock.frames.size()) {
    refuse(label,
           fmt::format("the label has {} pictograms, and {} carries {} frames", diamonds.size(),
                       stock.name, stock.frames.size()),
           "take a stock with more frames");
  }
  for (std::size_t i = 0; i < diamonds.size(); ++i) {
    const double side = diamonds[i].side / mm;
    if (std::abs(side - stock.frames[i].side_mm) <= same_side_mm) continue;
    refuse(label,
           fmt::format("a pictogram of {} mm does not belong in a frame of {} mm", fixed(side, 1),
                       shortest(stock.frames[i].side_mm)),
           "take a stock whose frames have that side");
  }
}

Point middle_of(const PreprintedFrame& frame) { return {frame.x_mm * mm, frame.y_mm * mm}; }

double half_diagonal(double side) { return side / std::numbers::sqrt2; }

/// Moves the first pictogram, and all that does not stand above it, down to the stock's first
/// frame.
void move_down(Page& label, const Diamond& first, const Stock& stock, const FontSet& fonts) {
  const double down = middle_of(stock.frames.front()).y - first.middle.y;
  if (down < -touching) {
    refuse(label,
           fmt::format("what stands above the pictograms takes {} mm more than {} has above its "
                       "frames",
                       fixed(-down / mm, 1), stock.name),
           "shorten the product's name or identity, or take another stock");
  }
  const double top = first.middle.y - half_diagonal(first.side);
  for (Item& item : label.items) {
    if (bounds_of(item, fonts).bottom > top + touching) item = moved(std::move(item), {0, down});
  }
}

/// Moves each pictogram into its frame.
void use_frames(Page& label, const std::vector<Diamond>& diamonds, const Stock& stock) {
  for (std::size_t i = 0; i < diamonds.size(); ++i) {
    const Point to = middle_of(stock.frames[i]);
    const Point by{to.x - diamonds[i].middle.x, to.y - diamonds[i].middle.y};
    for (Item& item : label.items) {
      if (element_of(item) == diamonds[i].element) item = moved(std::move(item), by);
    }
  }
}

void remove_drawn_frames(Page& label, const std::vector<Diamond>& diamonds) {
  for (auto diamond = diamonds.rbegin(); diamond != diamonds.rend(); ++diamond) {
    label.items.erase(label.items.begin() + static_cast<std::ptrdiff_t>(diamond->frame));
  }
}

void fill_unused(Page& label, std::size_t used, const Stock& stock) {
  for (std::size_t i = used; i < stock.frames.size(); ++i) {
    const auto [x, y] = middle_of(stock.frames[i]);
    const double half = half_diagonal(stock.frames[i].side_mm * mm);
    Path path;
    path.segments = {MoveTo{{x, y - half}}, LineTo{{x + half, y}}, LineTo{{x, y + half}},
                     LineTo{{x - half, y}}, ClosePath{}};
    path.fill = Colour{};
    label.items.emplace_back(std::move(path));
  }
}

void require_clear_frames(const Page& label, const Stock& stock, const FontSet& fonts) {
  for (const PreprintedFrame& frame : stock.frames) {
    const auto [x, y] = middle_of(frame);
    const double half = half_diagonal(frame.side_mm * mm) - touching;
    for (const Item& item : label.items) {
      const TextRun* const run = std::get_if<TextRun>(&item);
      if (run == nullptr) continue;
      const Bounds ink = bounds_of(item, fonts);
      const bool is_clear = ink.right < x - half || ink.left > x + half || ink.bottom < y - half ||
                            ink.top > y + half;
      if (is_clear) continue;
      refuse(label,
             fmt::format("\"{}\" would stand in a frame of {}, {} mm from its upper edge",
                         run->text, stock.name, fixed(ink.top / mm, 1)),
             "take a stock with fewer frames, or a larger one");
    }
  }
}

}  // namespace

Page on_preprinted(Page label, const Stock& stock, const FontSet& fonts) {
  std::vector<Diamond> diamonds = diamonds_of(label, fonts);
  check_frames(label, diamonds, stock);
  if (!diamonds.empty()) {
    move_down(label, diamonds.front(), stock, fonts);
    diamonds = diamonds_of(label, fonts);
    use_frames(label, diamonds, stock);
    remove_drawn_frames(label, diamonds);
  }
  require_clear_frames(label, stock, fonts);
  fill_unused(label, diamonds.size(), stock);
  return label;
}

}  // namespace tub::layout
