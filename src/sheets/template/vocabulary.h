// The one list of messages that a language must have: what the code says, what the data files name,
// what the templates say.
#pragma once

#include <span>
#include <vector>

#include "planning/request.h"
#include "sheets/template/messages.h"
#include "sheets/template/sheet_template.h"

namespace tub::sheets {

/// Every key with its placeholders, in byte order. A message that is not among them is a fault of
/// the language file.
///
/// sheets:   all templates that there are
/// replaced: ours where a shop has its own: what only they say may stay in a language
std::vector<RequiredMessage> required_messages(std::span<const SheetTemplate> sheets,
                                               std::span<const SheetTemplate> replaced,
                                               const PlanningData& data);

}  // namespace tub::sheets
