// From top-up amounts to the facts of cabinet labels and dose tags.
#pragma once

#include "sheets/template/fact_kinds.h"

namespace tub::sheets {

/// The one cabinet label of a job. REQUIRES: top-ups and a code in the sources
FactSets cabinet_facts(const SheetSources& sources, const Messages& messages,
                       const FactRequest& request);

/// A tag for each product of the shelf that brings a reading back or that the plan uses, in the
/// order of the shelf. REQUIRES: top-ups and a shelf in the sources
/// Throws: Error if no tag is left to print
FactSets tag_facts(const SheetSources& sources, const Messages& messages,
                   const FactRequest& request);

}  // namespace tub::sheets
