// The hazard sheet: what is on a shelf, what must never meet, and what helps.
#pragma once

#include "sheets/template/fact_kinds.h"

namespace tub::sheets {

const Shape& hazard_sheet_shape();    ///< `"facts": "hazards"`
const Shape& hazard_product_shape();  ///< of its products
const Shape& hazard_row_shape();      ///< of the rows of its pairs
const Shape& hazard_pair_shape();     ///< of each row's cells

/// The one hazard sheet of a job. REQUIRES: a shelf and label tables in the sources
FactSets hazard_sheet_facts(const SheetSources& sources, const Messages& messages,
                            const FactRequest& request);

}  // namespace tub::sheets
