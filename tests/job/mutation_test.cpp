// Jobs that chance has changed: each is read, or refused with a reason, and nothing else happens.
#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>
#include <random>

#include "job_test.h"

using namespace tub;
using namespace tub::job;
using namespace tub::job::test;
using Json = nlohmann::ordered_json;

namespace {

// Every value of a job, objects and lists included.
void collect(Json& value, std::vector<Json*>& all) {
  all.push_back(&value);
  if (!value.is_structured()) return;
  for (Json& item : value) collect(item, all);
}

Json odd_value(std::mt19937& random) {
  static const std::vector<Json> values = {nullptr,
                                           true,
                                           0,
                                           -1,
                                           7.4,
                                           1e308,
                                           "",
                                           " ",
                                           "x",
                                           "7.4",
                                           "-5 mg/L",
                                           "1e9 L",
                                           "5 %",
                                           "\u0000",
                                           "a\nb",
                                           "mg/L",
                                           "9999999999999999999999 L",
                                           "2026-13-01",
                                           Json::object(),
                                           Json::array(),
                                           Json::array({1, "a", nullptr}),
                                           Json{{"value", "3 mg/L"}},
                                           Json{{"product", 5}},
                                           "dry_acid",
                                           "trichlor",
                                           "photometer",
                                           "62 mg/L as CaCO3",
                                           "80 °F",
                                           "°",
                                           "1340 L"};
  return values[std::uniform_int_distribution<std::size_t>(0, values.size() - 1)(random)];
}

std::string changed_job(std::mt19937& random) {
  Json job = sound_job();
  std::uniform_int_distribution<int> times(1, 4);
  for (int i = times(random); i > 0; --i) {
    std::vector<Json*> all;
    collect(job, all);
    *all[std::uniform_int_distribution<std::size_t>(0, all.size() - 1)(random)] = odd_value(random);
  }
  return job.dump();
}

std::string with_changed_bytes(std::string text, std::mt19937& random) {
  for (int i = 0; i < 3; ++i) {
    const std::size_t at = std::uniform_int_distribution<std::size_t>(0, text.size() - 1)(random);
    text[at] = static_cast<char>(std::uniform_int_distribution<int>(0, 255)(random));
  }
  return text;
}

// True if the job was read; a refusal must say what and where.
bool is_read(const std::string& text) {
  try {
    read(text);
    return true;
  } catch (const Error& error) {
    for (const Diagnostic& diagnostic : error.diagnostics()) {
      INFO(text);
      CHECK_FALSE(diagnostic.message.empty());
      CHECK(diagnostic.where.starts_with("job.json"));
      CHECK(diagnostic.fault == Fault::job);
    }
    return false;
  }
}

}  // namespace

TEST_CASE("a job whose values were changed by chance is read or refused") {
  std::mt19937 random(20260504);
  int read_jobs = 0;
  for (int i = 0; i < 1500; ++i) read_jobs += is_read(changed_job(random)) ? 1 : 0;
  CHECK(read_jobs > 0);
  CHECK(read_jobs < 1000);
}

TEST_CASE("a job whose bytes were changed by chance is read or refused") {
  std::mt19937 random(20260505);
  const std::string sound = sound_job().dump(1);
  int refused = 0;
  for (int i = 0; i < 1500; ++i) refused += is_read(with_changed_bytes(sound, random)) ? 0 : 1;
  CHECK(refused > 1000);
}
