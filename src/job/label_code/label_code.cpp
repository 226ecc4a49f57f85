#include "job/label_code/label_code.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <nlohmann/json.hpp>
#include <vector>

#include "base/node.h"
#include "job/label_code/base45.h"
#include "job/label_code/deflate.h"
#include "job/label_code/fingerprint.h"
#include "job/label_code/label_code_dictionary.h"

namespace tub::job {
namespace {

using Json = nlohmann::ordered_json;

constexpr char version = 1;
constexpr std::size_t longest_job = 65536;
constexpr std::size_t most_named = 3;

std::string payload(const std::string& canonical) {
  return version + deflated(canonical, label_code_dictionary);
}

/// How many bytes fit into so many characters of Base45.
std::size_t bytes_within(std::size_t characters) {
  return characters / 3 * 2 + (characters % 3 == 2 ? 1 : 0);
}

/// A part of the job that a plan can do without, and what the code saves without it.
struct Part {
  std::string pointer;
  std::size_t bytes = 0;
};

/// Fields without which there is no job, or another one. Source: this project's job format
bool is_needed(std::string_view name) {
  constexpr std::array<std::string_view, 13> needed = {
      "tubwright", "vessel", "source_water", "tub_water", "sanitizer",   "targets",         "rules",
      "measure",   "shelf",  "retest_with",  "ph",        "tested_with", "total_alkalinity"};
  return std::find(needed.begin(), needed.end(), name) != needed.end();
}

void add_parts_of(const Json& job, const Json::json_pointer& within, std::vector<Part>& parts) {
  const std::size_t whole = payload(canonical_job(job)).size();
  for (const auto& [name, value] : job.at(within).items()) {
    Json less = job;
    less.at(within).erase(name);
    const std::size_t size = payload(canonical_job(less)).size();
    if (!is_needed(name) && size < whole) {
      parts.push_back({(within / name).to_string(), whole - size});
    }
  }
}

/// The parts that weigh most, heaviest first: fields of the job, then readings of its waters.
std::vector<Part> heaviest_parts(const Json& job) {
  std::vector<Part> parts;
  add_parts_of(job, Json::json_pointer(""), parts);
  for (const char* const water : {"/source_water", "/tub_water"}) {
    const Json::json_pointer place(water);
    if (job.contains(place) && job.at(place).is_object()) add_parts_of(job, place, parts);
  }
  std::stable_sort(parts.begin(), parts.end(),
                   [](const Part& a, const Part& b) { return a.bytes > b.bytes; });
  if (parts.size() > most_named) parts.resize(most_named);
  return parts;
}

std::string what_to_leave_out(const Json& job) {
  std::string list;
  for (const Part& part : heaviest_parts(job)) {
    list += fmt::format("{}{} ({} bytes)", list.empty() ? "" : ", ", part.pointer, part.bytes);
  }
  const std::string wider = "use a label with room for a larger square";
  return list.empty() ? wider
                      : "leave out what the label can do without: " + list + "; or " + wider;
}

/// The text without the line ends and tabs that a scanner adds; blanks belong to Base45.
std::string_view without_line_ends(std::string_view text) {
  constexpr std::string_view added = "\r\n\t";
  const std::size_t first = text.find_first_not_of(added);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(added) - first + 1);
}

[[noreturn]] void refuse(std::string message, const std::string& file, std::string help) {
  throw Error(Diagnostic{.message = std::move(message),
                         .where = file,
                         .trace = {"reading a label's code"},
                         .help = std::move(help)});
}

const std::string scan_again = "scan the label again, or use the job file that it was printed from";

/// The tree of a job's text.
Json read_whole(const std::string& job, const std::string& file) {
  Problems problems;
  try {
    return Node::parse(job, file, problems).json();
  } catch (const Error& error) {
    refuse("the scanned text is damaged: " + error.diagnostics().front().message, file, scan_again);
  }
}

}  // namespace

std::string label_code(const Json& job) { return to_base45(payload(canonical_job(job))); }

std::string label_code_within(const Json& job, std::size_t characters) {
  std::string text = label_code(job);
  if (text.size() <= characters) return text;
  const std::size_t bytes = payload(canonical_job(job)).size();
  const std::size_t room = bytes_within(characters);
  throw Error(Diagnostic{
      .message = fmt::format("the job takes {} bytes in the label's code, {} more than its square "
                             "holds",
                             bytes, bytes - room),
      .where = {},
      .trace = {"making a label's code"},
      .help = what_to_leave_out(Json::parse(canonical_job(job)))});
}

std::string label_code_of(std::string_view job_text, std::size_t characters) {
  const Json job = Json::parse(job_text);
  return characters == 0 ? label_code(job) : label_code_within(job, characters);
}

bool is_label_code(std::string_view text) {
  constexpr std::string_view alphabet = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";
  const std::string_view code = without_line_ends(text);
  return !code.empty() && code.find_first_not_of(alphabet) == std::string_view::npos;
}

std::string job_of_label_code(std::string_view text, const std::string& file) {
  const auto [bytes, fault] = from_base45(without_line_ends(text));
  if (fault) refuse("the scanned text is damaged: " + fault->message, file, scan_again);
  if (bytes.empty()) refuse("the scanned text is empty", file, scan_again);
  const auto found = static_cast<unsigned char>(bytes.front());
  if (found > version) {
    refuse(fmt::format("the label's code is of version {}, and this program reads version {}",
                       found, static_cast<int>(version)),
           file, "use a newer program, or the job file that the label was printed from");
  }
  const auto job = inflated(std::string_view(bytes).substr(1), label_code_dictionary, longest_job);
  if (found < version || !job) {
    refuse("the scanned text is damaged: it holds no whole job", file, scan_again);
  }
  const Json read = read_whole(*job, file);
  if (!read.is_object() || canonical_job(read) != *job) {
    refuse("the scanned text is damaged: what it holds is not a job as a label writes it", file,
           scan_again);
  }
  return *job;
}

}  // namespace tub::job
