// Pages as libharu writes them, and where in that file the finishing pass finds its parts.
#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "layout/pages/page.h"

namespace tub::exporting {

struct DrawnFace {
  Face face = Face::regular;
  int object = 0;          ///< number of its font dictionary
  std::string subset_tag;  ///< six capitals, other ones for another set of characters
};

struct DrawnPage {
  int object = 0;          ///< number of its page dictionary
  std::vector<int> marks;  ///< the element that each marked content belongs to, by its id
};

struct Drawing {
  std::string bytes;  ///< a PDF without compression, tags and metadata
  std::vector<DrawnFace> faces;
  std::vector<DrawnPage> pages;
};

/// Draws the pages, each run of items of one element as marked content.
///
/// Throws: Error (the machine's fault) naming the page if libharu reports an error or a face lacks
///         a character
Drawing draw_pdf(std::span<const Page> pages, const FontSet& fonts);

/// The name of an element's kind in a PDF, without its slash: "H1", "TD".
std::string_view structure_type(const Element& element);

}  // namespace tub::exporting
