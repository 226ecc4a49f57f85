#include "job/label_code/fingerprint.h"

#include <nettle/sha2.h>

#include <array>
#include <cstdint>
#include <nlohmann/json.hpp>

#include "job/shape/comment.h"

namespace tub::job {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::string_view crockford = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";

// The value with every object's names in byte order and without comments.
Json sorted(const Json& value) {
  if (value.is_array()) {
    Json result = Json::array();
    for (const Json& item : value) result.push_back(sorted(item));
    return result;
  }
  if (!value.is_object()) return value;
  std::map<std::string, Json> members;
  for (const auto& [name, item] : value.items()) {
    if (!is_comment(name)) members.emplace(name, sorted(item));
  }
  Json result = Json::object();
  // Its own insertion would compare each name with all others.
  auto& names = result.get_ref<Json::object_t&>();
  for (auto& [name, item] : members) names.emplace_back(name, std::move(item));
  return result;
}

void leave_out(Json& job) {
  job.erase("heading");
  job.erase("sheets");
  if (job.contains("vessel") && job["vessel"].is_object()) job["vessel"].erase("name");
  if (!job.contains("shelf") || !job["shelf"].is_array()) return;
  for (Json& item : job["shelf"]) {
    if (!item.is_object()) continue;
    for (const char* const field :
         {"supplier", "maker_label_name", "stays_in", "lot", "use_by", "ufi", "authorisation"}) {
      item.erase(field);
    }
  }
}

std::array<std::uint8_t, SHA256_DIGEST_SIZE> sha256(std::string_view text) {
  sha256_ctx context;
  sha256_init(&context);
  std::vector<std::uint8_t> bytes(text.begin(), text.end());
  sha256_update(&context, bytes.size(), bytes.data());
  std::array<std::uint8_t, SHA256_DIGEST_SIZE> digest{};
  sha256_digest(&context, digest.size(), digest.data());
  return digest;
}

}  // namespace

std::string canonical_job(const Json& job) {
  Json kept = sorted(job);
  leave_out(kept);
  return kept.dump();
}

std::string fingerprint(const Json& job) {
  const auto digest = sha256(canonical_job(job));
  std::uint32_t bits = 0;
  for (std::size_t i = 0; i < 4; ++i) bits = bits << 8U | digest.at(i);
  std::string text;
  for (unsigned shift = 27; text.size() < 6; shift -= 5) text += crockford[bits >> shift & 31U];
  return text;
}

}  // namespace tub::job
