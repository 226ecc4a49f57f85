// Names that the job format knows, whether this version can use them or not.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "base/modules.h"

namespace tub::job {

/// The sheet that holds labels of several kinds.
inline constexpr std::string_view label_sheet = "label_sheet";

std::vector<std::string> known_products();
std::vector<std::string> known_sheets();
/// Those of the sheets that are labels.
std::vector<std::string> known_labels();
std::vector<std::string> known_stocks();
std::vector<std::string> known_languages();
std::vector<std::string> known_uses();
std::vector<std::string> known_methods();
std::vector<std::string> known_measures();

}  // namespace tub::job
