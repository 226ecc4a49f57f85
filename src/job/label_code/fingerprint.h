// Six characters that tell one job from another.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>

#include "base/modules.h"

namespace tub::job {

/// What a fingerprint is made over: the job without what names people, sheets and makers, and
/// without comments, as JSON with keys in byte order, no blanks, UTF-8, quantities as written.
std::string canonical_job(const nlohmann::ordered_json& job);

/// The first 30 bits of SHA-256 over canonical_job, in Crockford base 32: "7K4QM2".
///
/// Source: FIPS 180-4 (SHA-256, by nettle); the base 32 of D. Crockford (digits, then letters
///         without I, L, O and U)
std::string fingerprint(const nlohmann::ordered_json& job);

}  // namespace tub::job
