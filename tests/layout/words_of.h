// The words of a document and of a page, counted, so that the two can be compared.
#pragma once

#include <map>
#include <string>

#include "document/document.h"
#include "layout/pages/page.h"

namespace tub::layout {

/// Parts between spaces, over all blocks; the spaces of no break are part of a word.
std::map<std::string, int> words_of(const Document& document);

/// The same of a page's elements, read in their order; artifacts are left out.
std::map<std::string, int> words_on(const Page& page);

/// Parts between spaces.
void count_words(const std::string& text, std::map<std::string, int>& counts);

}  // namespace tub::layout
