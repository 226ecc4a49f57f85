// A job as the text of the square code on a cabinet label, and back.
#pragma once

#include <cstddef>
#include <nlohmann/json_fwd.hpp>
#include <string>
#include <string_view>

#include "base/modules.h"

namespace tub::job {

/// The job as text for a square code: Base45 (RFC 9285) over a version byte and the canonical job
/// as raw deflate (RFC 1951) with the preset dictionary of that version. A stranger scans it, so
/// names of people, the address, the vessel's name, suppliers and sheets are not in it.
///
/// Checked: the same job gives the same text; reading it back gives a job of the same fingerprint
std::string label_code(const nlohmann::ordered_json& job);

/// The same, for a square that holds so many characters.
///
/// Throws: Error if it is longer, with by how many bytes, and which parts of the job weigh most
std::string label_code_within(const nlohmann::ordered_json& job, std::size_t characters);

/// The code of a job given as JSON text, for a square that holds so many characters; 0: of any
/// size.
///
/// Throws: as `label_code_within`
std::string label_code_of(std::string_view job_text, std::size_t characters);

/// True for a text that can only be a scanned code: characters of Base45 and nothing else, line
/// ends and tabs round it aside. (JSON begins with another character.)
bool is_label_code(std::string_view text);

/// The job, as JSON, that a scanned text holds.
///
/// file:   for messages
/// Throws: Error if the text is damaged, with the place, or of a newer version
std::string job_of_label_code(std::string_view text, const std::string& file);

}  // namespace tub::job
