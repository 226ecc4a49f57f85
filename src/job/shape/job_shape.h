// The fields of a job and of a shop file: the one table that reads, checks, explains and publishes
// them.
#pragma once

#include "job/shape/catalogue.h"
#include "job/shape/shape.h"

namespace tub::job {

FieldShape job_shape(const Catalogue& catalogue);

/// What a shop sets once: fields of a job, and some of its own.
FieldShape shop_shape(const Catalogue& catalogue);

}  // namespace tub::job
