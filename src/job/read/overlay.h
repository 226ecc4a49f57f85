// Lays a job over what its shop sets once, and knows which file each value came from.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>
#include <vector>

#include "base/error.h"

namespace tub::job {

/// A place in the merged job that came from the shop's file.
struct Origin {
  std::string pointer;       ///< in the merged job
  std::string shop_pointer;  ///< in the shop's file
};

/// Fills in what the job does not say: `heading` field by field, other fields whole, and for each
/// product on the shelf the shop's own figures for it. What the job says stays.
///
/// Returns: the places that came from the shop
std::vector<Origin> lay_over(nlohmann::ordered_json& job, const nlohmann::ordered_json& shop);

/// The same problems, those at a place that came from the shop told at their place in its file.
std::vector<Diagnostic> relocated(std::vector<Diagnostic> diagnostics, const std::string& job_file,
                                  const std::string& shop_file, const std::vector<Origin>& origins);

}  // namespace tub::job
