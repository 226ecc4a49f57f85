// Checks the promises that a page's structure tree makes to exporters.
#include <fmt/format.h>

#include <cstddef>

#include "layout/pages/checks.h"

namespace tub::layout {
namespace {

class TreeCheck {
 public:
  explicit TreeCheck(const Page& page)
      : page_(page), children_(page.elements.size(), 0), items_(page.elements.size(), 0) {}

  std::vector<std::string> run() {
    if (page_.elements.empty() || page_.elements.front().role != Role::section) {
      return {"the first element is no section"};
    }
    count();
    if (!found_.empty()) return std::move(found_);
    for (std::size_t i = 0; i < page_.elements.size(); ++i) check(i);
    check_neighbours();
    return std::move(found_);
  }

 private:
  void count() {
    for (std::size_t i = 0; i < page_.elements.size(); ++i) {
      const int parent = page_.elements[i].parent;
      const bool known = i == 0 ? parent == -1 : parent >= 0 && parent < static_cast<int>(i);
      if (!known) fault(i, fmt::format("has parent {}", parent));
      if (i > 0 && known) ++children_[static_cast<std::size_t>(parent)];
    }
    for (const Item& item : page_.items) {
      const int element = element_of(item);
      if (element >= static_cast<int>(page_.elements.size()) || element < artifact) {
        found_.push_back(fmt::format("an item names element {}, which is none", element));
      } else if (element != artifact) {
        ++items_[static_cast<std::size_t>(element)];
      }
    }
  }

  void check(std::size_t i) {
    const Element& element = page_.elements[i];
    const bool may_be_empty = element.role == Role::cell || element.role == Role::header_cell;
    if (children_[i] > 0 && items_[i] > 0) fault(i, "holds both elements and items");
    if (children_[i] == 0 && items_[i] == 0 && !may_be_empty) fault(i, "is empty");
    if (element.role == Role::figure && element.alt.empty()) {
      fault(i, "is a figure without alternative text");
    }
    if ((element.role == Role::heading) != (element.level > 0)) fault(i, "has no heading's level");
    if (i > 0)
      check_parent(i, element.role, page_.elements[static_cast<std::size_t>(element.parent)].role);
  }

  /// Lists hold items, items labels and bodies, tables rows, rows cells; and the other way round.
  void check_parent(std::size_t i, Role role, Role parent) {
    const auto only = [&](Role child, Role holder) {
      if ((role == child) != (parent == holder)) fault(i, "stands in the wrong parent");
    };
    only(Role::list_item, Role::list);
    only(Role::row, Role::table);
    const bool cell = role == Role::cell || role == Role::header_cell;
    if (cell != (parent == Role::row)) fault(i, "stands in the wrong parent");
    const bool part = role == Role::label || role == Role::list_body;
    if (part != (parent == Role::list_item)) fault(i, "stands in the wrong parent");
  }

  /// Two runs of one element on different places need a space, or a break inside a word, between.
  void check_neighbours() {
    std::vector<const TextRun*> last(page_.elements.size(), nullptr);
    for (const Item& item : page_.items) {
      const TextRun* const run = std::get_if<TextRun>(&item);
      if (!run || run->element == artifact) continue;
      const TextRun*& before = last[static_cast<std::size_t>(run->element)];
      if (before) check_join(*before, *run);
      before = run;
    }
  }

  void check_join(const TextRun& before, const TextRun& run) {
    const double gap = run.origin.x - before.origin.x - before.width;
    const bool moved = run.origin.y != before.origin.y || gap > 0.1 || gap < -0.1;
    const bool apart = before.text.ends_with(' ') || before.text.ends_with("\u00AD") ||
                       before.text.ends_with('-') || run.text.starts_with(' ');
    if (moved && !apart) {
      found_.push_back(
          fmt::format("\"{}\" and \"{}\" are read as one word", before.text, run.text));
    }
  }

  void fault(std::size_t i, const std::string& what) {
    found_.push_back(fmt::format("element {} {}", i, what));
  }

  const Page& page_;
  std::vector<int> children_;
  std::vector<int> items_;
  std::vector<std::string> found_;
};

}  // namespace

std::vector<std::string> tree_faults(const Page& page) { return TreeCheck(page).run(); }

}  // namespace tub::layout
