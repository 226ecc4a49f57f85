// Blocks out of a template's nodes: one function for each kind.
#pragma once

#include <vector>

#include "base/node.h"
#include "document/block.h"
#include "sheets/template/composer.h"

namespace tub::sheets {

/// All blocks of a list, with those that repeat or are left out.
std::vector<Block> compose_blocks(Composer& composer, const Node& list);

}  // namespace tub::sheets
