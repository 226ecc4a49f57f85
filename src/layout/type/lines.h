// Words into lines: where they may break, where they do, and the marks that each line is made of.
#pragma once

#include <vector>

#include "document/words.h"
#include "layout/pages/context.h"
#include "layout/pages/fragment.h"

namespace tub::layout {

/// One line around its baseline: x from 0, y of the baseline 0.
struct Line {
  Content marks;
  double width = 0;  ///< without a space at its end
  double rise = 0;   ///< above the baseline
  double fall = 0;   ///< below it
};

enum class Align { left, right, centre };

/// Words in one line that is never broken.
Line single_line(const Words& words, const Type& type, const Context& context);

/// Words in as few lines as the width allows, of even length, the last not a single short word if
/// that can be had. What cannot break and is too wide is reported to the context.
std::vector<Line> break_lines(const Words& words, const Type& type, double width,
                              const Context& context);

/// Widths of lines that run round something: so many narrow ones, then wide ones.
struct LineWidths {
  double narrow = 0;
  int narrow_lines = 0;
  double wide = 0;

  double of(int line) const { return line < narrow_lines ? narrow : wide; }
};
std::vector<Line> break_lines(const Words& words, const Type& type, const LineWidths& widths,
                              const Context& context);

/// Lines below each other as one element.
Fragment paragraph(const Words& words, const Type& type, double width, const Context& context,
                   Element element = {}, Align align = Align::left);

/// Adds a line to a content, with its baseline at a place. If text stands before it in the content,
/// that text is given a space at its end, so that the two are not read as one word.
void append(Content& content, Line line, Point at, const Context& context);

/// Adds the lines of one text below each other, the first as `append` does.
void append_lines(Content& content, std::vector<Line> lines, Point first, double leading,
                  const Context& context);

}  // namespace tub::layout
