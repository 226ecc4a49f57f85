// The ladder's rungs: what to pour now, how, how long to wait, what the test should show, and what
// to do with everything that it can show.
#pragma once

#include <string>
#include <vector>

#include "sheets/template/facts.h"
#include "sheets/template/wording.h"

namespace tub::sheets {

/// The signs at the head of the page: gloves, goggles, and what its products ask for that have no
/// set of signs on their own rung.
std::vector<std::string> common_protection(const Wording& wording);

/// Signs by their names in product rows ("acid_gloves"), with pictogram and alternative text.
std::vector<Facts> sign_facts(const Wording& wording, const std::vector<std::string>& protection);

/// One rung for each number of the plan's steps, and the gate on the last.
std::vector<Facts> rung_facts(const Wording& wording);

/// The number on the last rung.
int last_number(const Plan& plan);

}  // namespace tub::sheets
