// What the tests of jobs share: the project's own tables, and a job that is sound.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>

#include "job/job.h"

namespace tub::job::test {

/// The project's tables, with one sheet, two stocks and one language.
const Catalogue& catalogue();

/// A job that is sound.
nlohmann::ordered_json sound_job();

/// The job with a JSON merge patch (RFC 7386) applied.
std::string patched(const std::string& patch);

/// Reads a job named job.json, with a shop named shop.json if its text is not empty.
Outcome<Job> read(const std::string& job, const std::string& shop = "");

/// What reading it says, as on a terminal; empty if it is sound.
std::string problems_of(const std::string& job, const std::string& shop = "");

}  // namespace tub::job::test
