// Sets short texts one behind the other.
#include "layout/blocks/flow.h"

#include <cstddef>
#include <utility>
#include <vector>

namespace tub::layout {

void Flow::new_line(double leading) { at_ = {left_, at_.y + leading}; }

void Flow::put(Content& content, Line line, const Context& context) {
  const double end = at_.x + line.width + gap_;
  append(content, std::move(line), at_, context);
  at_.x = end;
}

void Flow::add(Content& content, const Words& words, const Type& type, const Context& context) {
  Line line = single_line(words, type, context);
  if (line.marks.empty()) return;
  if (!fits(line) && at_.x > left_) new_line(type.leading);
  if (fits(line)) {
    put(content, std::move(line), context);
    return;
  }
  std::vector<Line> lines = break_lines(words, type, right_ - left_, context);
  const double below = static_cast<double>(lines.size() - 1) * type.leading;
  const double end = lines.back().width + gap_;
  append_lines(content, std::move(lines), at_, type.leading, context);
  at_ = {at_.x + end, at_.y + below};
}

}  // namespace tub::layout
