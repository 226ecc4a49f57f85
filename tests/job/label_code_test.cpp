// The code on a cabinet label: what it holds, what it leaves out, and what a damaged one gets.
#include "job/label_code/label_code.h"

#include <catch2/catch.hpp>
#include <fstream>
#include <nlohmann/json.hpp>
#include <random>
#include <sstream>
#include <string>

#include "base/error.h"
#include "job/label_code/base45.h"
#include "job/label_code/fingerprint.h"
#include "job/label_code/label_code_dictionary.h"

namespace tub::job {
namespace {

using Json = nlohmann::ordered_json;

std::string file_text(const std::string& path) {
  std::ifstream file(std::string(TUB_SOURCE_DIR) + "/" + path, std::ios::binary);
  REQUIRE(file.good());
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

/// A job whose numbers and choices are in no sample.
Json unlike_the_samples() {
  return Json::parse(R"({"tubwright": 1,
    "vessel": {"dimensions": {"shape": "round", "diameter": "1.87 m", "water_depth": "0.83 m",
                              "benches": [{"length": "4.1 m", "width": "0.44 m", "height": "0.39 m"}]},
               "shell": "rotomoulded", "use": "rented", "bathers_per_week": 23,
               "bathing_temperature": "101 °F"},
    "source_water": {"tested_with": "strip", "temperature": "61 °F", "ph": 8.1,
                     "total_alkalinity": "214 mg/L as CaCO3", "total_hardness": "17.6 °fH",
                     "iron": "0.07 mg/L", "chloride": "41 mg/L", "conductivity": "688 µS/cm"},
    "retest_with": "photometer", "sanitizer": "sodium_hypochlorite", "targets": "common_practice",
    "shelf": [{"product": "muriatic_acid", "strength": "15.6 % w/w as HCl"}, "sodium_bicarbonate",
              {"product": "sodium_hypochlorite", "strength": "13.4 g/100 mL as Cl2"},
              {"product": "sequestrant", "dose": "1.5 fl oz per 380 US gal"}],
    "measure": "ounces_and_us_spoons", "rules": "hazcom"})");
}

Json example() { return Json::parse(file_text("examples/quince-row.json")); }

/// The whole text that a terminal shows.
template <class Call>
std::string error_of(const Call& call) {
  try {
    call();
  } catch (const Error& error) {
    return error.what();
  }
  return "";
}

TEST_CASE("a job comes back from its code with the same fingerprint") {
  const std::string name = GENERATE("quince-row", "moorland", "chalk", "desert");
  CAPTURE(name);
  const Json job = Json::parse(file_text("examples/" + name + ".json"));
  const std::string text = label_code(job);
  CHECK(is_label_code(text));
  const std::string read = job_of_label_code(text, "scan");
  CHECK(fingerprint(Json::parse(read)) == fingerprint(job));
  CHECK(label_code(Json::parse(read)) == text);
  CHECK(job_of_label_code("\r\n" + text + "\n", "scan") == read);
}

TEST_CASE("a label that was printed with version 1 is read for ever") {
  // regression: this text stands on labels; a change that cannot read it needs a new version
  const std::string scanned = file_text("tests/golden/label_code/scanned.txt");
  const Json job = Json::parse(file_text("tests/golden/label_code/job.json"));
  REQUIRE(is_label_code(scanned));
  CHECK(job_of_label_code(scanned, "scan") == canonical_job(job));
}

TEST_CASE("a stranger who scans a label learns no name, address or number") {
  Json job = example();
  job["shelf"].push_back({{"product", "muriatic_acid"},
                          {"strength", "31.45 % w/w as HCl"},
                          {"supplier", {{"name", "Acid Works"}, {"phone", "555-0177"}}},
                          {"maker_label_name", "Acid Works No 5"}});
  job["// note"] = "for Ms Marrow";
  const std::string read = job_of_label_code(label_code(job), "scan");
  for (const char* const word : {"Marrow", "Thrushwater", "555", "Sluice", "Quince", "logo",
                                 "Acid Works", "heading", "sheets", "note"}) {
    CAPTURE(word);
    CHECK(read.find(word) == std::string::npos);
  }
  CHECK(read.find("31.45 % w/w as HCl") != std::string::npos);
}

TEST_CASE("a full job with numbers of its own fits the square of 49 modules: 221 characters") {
  // Source: ISO/IEC 18004, capacity of version 8 at level M, alphanumeric
  const Json job = unlike_the_samples();
  const std::size_t bytes = from_base45(label_code(job)).bytes.size();
  INFO(canonical_job(job).size() << " bytes of job take " << bytes << ", the example's "
                                 << canonical_job(example()).size() << " take "
                                 << from_base45(label_code(example())).bytes.size());
  CHECK(label_code_within(job, 221) == label_code(job));
  for (const char* const name : {"quince-row", "moorland", "chalk", "desert"}) {
    const Json real = Json::parse(file_text(std::string("examples/") + name + ".json"));
    CAPTURE(name);
    CHECK(label_code(real).size() <= 221);
  }
  CHECK(fingerprint(Json::parse(job_of_label_code(label_code(job), "scan"))) == fingerprint(job));
}

TEST_CASE("a job too big for its square is refused with the bytes over and what to leave out") {
  Json job = example();
  job["second_source"] = job["source_water"];
  job["second_source"]["total_alkalinity"] = "17.3 mg/L as CaCO3";
  const std::size_t bytes = from_base45(label_code(job)).bytes.size();
  const std::string message = error_of([&] { label_code_within(job, 45); });
  CHECK(message.find("the job takes " + std::to_string(bytes) + " bytes in the label's code, " +
                     std::to_string(bytes - 30) + " more than its square holds") !=
        std::string::npos);
  CHECK(message.find("leave out what the label can do without: /") != std::string::npos);
  CHECK(message.find("/second_source (") != std::string::npos);
  CHECK(message.find("use a label with room for a larger square") != std::string::npos);
}

TEST_CASE("what the refusal names saves the bytes that it says") {
  Json job = example();
  job["second_source"] = job["source_water"];
  job["second_source"]["total_alkalinity"] = "17.3 mg/L as CaCO3";
  const std::string message = error_of([&] { label_code_within(job, 45); });
  Json less = job;
  less.erase("second_source");
  const std::size_t saved =
      from_base45(label_code(job)).bytes.size() - from_base45(label_code(less)).bytes.size();
  CHECK(message.find("/second_source (" + std::to_string(saved) + " bytes)") != std::string::npos);
}

TEST_CASE("a scanned text that is damaged, empty or of a newer version says so") {
  const std::string whole = label_code(example());
  struct Bad {
    std::string text;
    const char* message;
  };
  for (const Bad& bad : {
           Bad{"", "the scanned text is empty"},
           Bad{"BB8b", "the scanned text is damaged: character 4 is none of the 45"},
           Bad{whole.substr(0, whole.size() / 6 * 3), "it holds no whole job"},
           Bad{whole + "BB8", "damaged"},
           Bad{to_base45(std::string("\x00", 1) + "x"), "it holds no whole job"},
           Bad{to_base45("\x02x"),
               "the label's code is of version 2, and this program reads version 1"},
       }) {
    CAPTURE(bad.text);
    const std::string message = error_of([&] { job_of_label_code(bad.text, "scan.txt"); });
    CHECK(message.find(bad.message) != std::string::npos);
    CHECK(message.find("where: scan.txt") != std::string::npos);
    CHECK(message.find("help:  ") != std::string::npos);
  }
}

TEST_CASE("no damaged code crashes the reader, and none is taken for another form of a job") {
  const std::string whole = label_code(unlike_the_samples());
  const std::string alphabet = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:";
  std::mt19937 random(20260504);
  int refused = 0;
  for (int i = 0; i < 2000; ++i) {
    std::string text = whole;
    const auto at = std::uniform_int_distribution<std::size_t>(0, text.size() - 1)(random);
    text[at] = alphabet[std::uniform_int_distribution<std::size_t>(0, 44)(random)];
    try {
      const std::string job = job_of_label_code(text, "scan");
      CHECK(canonical_job(Json::parse(job)) == job);
    } catch (const Error&) {
      ++refused;
    }
  }
  // Raw deflate has no checksum; a square code's own correction and the job's reader do the rest.
  INFO(refused << " of 2000 texts with one character changed were refused by the code alone");
  CHECK(refused > 0);
}

TEST_CASE("a job file is not taken for a code") {
  CHECK_FALSE(is_label_code(file_text("examples/quince-row.json")));
  CHECK_FALSE(is_label_code(""));
  CHECK_FALSE(is_label_code("\n"));
}

TEST_CASE("the page that publishes the dictionary says what the program uses") {
  std::string page = file_text("docs/label-code.md");
  const std::size_t from = page.find("```text\n");
  REQUIRE(from != std::string::npos);
  page = page.substr(from + 8, page.find("\n```", from) - from - 8);
  std::string joined;
  for (const char c : page) {
    if (c != '\n') joined += c;
  }
  CHECK(joined == label_code_dictionary);
}

}  // namespace
}  // namespace tub::job
