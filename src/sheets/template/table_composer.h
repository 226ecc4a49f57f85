// Tables, charts and lists of pictograms out of a template's nodes.
#pragma once

#include <vector>

#include "base/node.h"
#include "document/block.h"
#include "sheets/template/composer.h"

namespace tub::sheets {

/// The member "rank" of a paragraph or a cell; body if there is none.
Rank compose_rank(const Node& node);
Table compose_table(Composer& composer, const Node& node);
Chart compose_chart(Composer& composer, const Node& node);
/// The member "signs" of an object: pictograms by name, with their alternative texts.
std::vector<Sign> compose_sign_list(Composer& composer, const Node& object);

}  // namespace tub::sheets
