// A startup card with every kind of rung, as words; its numbers are invented.
#pragma once

#include "document/document.h"

namespace tub::layout {

/// The parts that the demo documents are made of.
Block block(decltype(Block::content) content, bool every_page = false, bool close = false);
Words words(std::vector<Inline> parts);
Pour second(const std::string& condition, const std::string& amount, const std::string& spoons,
            const std::string& test, const std::string& target);

Document demo_card();

/// The same in German, with the longest words and names that such a card holds.
Document german_card();

/// One page with every kind of block that the startup card does not have.
Document demo_tables();

}  // namespace tub::layout
