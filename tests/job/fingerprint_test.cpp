#include "job/label_code/fingerprint.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "job_test.h"

using namespace tub;
using namespace tub::job;
using namespace tub::job::test;

TEST_CASE("a fingerprint is made over keys in byte order, without blanks") {
  const auto job = nlohmann::ordered_json::parse(
      R"({ "b": [ 7.9, 10 ], "a": { "z": "9 °dH", "\u00e4": true, "//": "note" }, "heading": {} })");
  CHECK(canonical_job(job) == R"({"a":{"z":"9 °dH","ä":true},"b":[7.9,10]})");
}

TEST_CASE("names of people, sheets and makers leave a fingerprint as it is") {
  const std::string plain = fingerprint(sound_job());
  auto job = sound_job();
  job["heading"] = {{"prepared_for", "somebody else"}};
  job["vessel"]["name"] = "Another tub";
  job["sheets"] = nlohmann::ordered_json::array({"startup_card"});
  job["shelf"][0] = {
      {"product", "sodium_bicarbonate"}, {"supplier", "A"}, {"maker_label_name", "B"}};
  auto same = sound_job();
  same["shelf"][0] = {{"product", "sodium_bicarbonate"}};
  CHECK(fingerprint(job) == fingerprint(same));
  job["vessel"]["volume"] = "1341 L";
  CHECK(fingerprint(job) != fingerprint(same));
  CHECK(plain.size() == 6);
}

TEST_CASE("a fingerprint is the first 30 bits of SHA-256 in Crockford's base 32") {
  // By Python's hashlib: sha256('{}') begins 44136fa3, sha256('{"a":"abc"}') 55087e20,
  // sha256('{"tubwright":1,"vessel":{"volume":"1340 L"}}') 21e1f35e.
  const auto of = [](const char* text) { return fingerprint(nlohmann::ordered_json::parse(text)); };
  CHECK(of("{}") == "8G9PZ8");
  CHECK(of(R"({"a":"abc"})") == "AM47W8");
  CHECK(of(R"({"vessel":{"name":"x","volume":"1340 L"},"tubwright":1})") == "47GZ6Q");
}
