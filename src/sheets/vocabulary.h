// The one list of messages that a language must have: what the code says, what the data files name,
// what the templates say.
#pragma once

#include <span>
#include <vector>

#include "planning/request.h"
#include "sheets/messages.h"
#include "sheets/sheet_template.h"

namespace tub {

/// Every key with its placeholders, in byte order. Give all templates that there are: a message
/// that none of them uses is a fault of the language file.
std::vector<RequiredMessage> required_messages(std::span<const SheetTemplate> sheets,
                                               const PlanningData& data);

}  // namespace tub
