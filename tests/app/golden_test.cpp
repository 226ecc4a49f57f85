// Plans and pages of the example jobs, as text in tests/golden; TUB_UPDATE_GOLDEN=1 writes them.
#include <catch2/catch.hpp>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>

#include "app/pipeline.h"
#include "app/plan_text.h"
#include "base/text.h"
#include "built_library.h"
#include "export/dump.h"
#include "job/plan/plan_format.h"
#include "project_text.h"

using namespace tub;
using namespace tub::app;
namespace fs = std::filesystem;

namespace {

const fs::path source = TUB_SOURCE_DIR;

// A number's text, and what is left of the line.
std::string_view leading_number(std::string_view text) {
  const std::size_t end = text.find_first_not_of("0123456789.-+e");
  return text.substr(0, end);
}

bool is_digit(char c) { return c >= '0' && c <= '9'; }

// The same text, but for numbers that agree to 1e-9 of their size: other compilers round otherwise.
bool agree(std::string_view one, std::string_view other) {
  while (!one.empty() && !other.empty()) {
    if (is_digit(one.front()) && is_digit(other.front())) {
      const std::string_view a = leading_number(one);
      const std::string_view b = leading_number(other);
      const auto x = to_number(a);
      const auto y = to_number(b);
      const bool are_close = x && y && std::abs(*x - *y) <= 1e-9 * std::max(1.0, std::abs(*x));
      if (a != b && !are_close) return false;
      one.remove_prefix(a.size());
      other.remove_prefix(b.size());
    } else {
      if (one.front() != other.front()) return false;
      one.remove_prefix(1);
      other.remove_prefix(1);
    }
  }
  return one.empty() && other.empty();
}

// The first line that differs, for the message.
std::string first_difference(const std::string& expected, const std::string& found) {
  const auto old_lines = split(expected, '\n');
  const auto new_lines = split(found, '\n');
  for (std::size_t i = 0; i < std::max(old_lines.size(), new_lines.size()); ++i) {
    const std::string was = i < old_lines.size() ? old_lines[i] : "(nothing)";
    const std::string is = i < new_lines.size() ? new_lines[i] : "(nothing)";
    if (!agree(was, is)) {
      return "line " + std::to_string(i + 1) + "\n  was: " + was + "\n  is:  " + is;
    }
  }
  return "";
}

void check_golden(const std::string& name, const std::string& file, const std::string& found) {
  const fs::path path = source / "tests" / "golden" / name / file;
  if (std::getenv("TUB_UPDATE_GOLDEN") != nullptr) {
    fs::create_directories(path.parent_path());
    std::ofstream(path, std::ios::binary) << found;
  }
  INFO(path.string() << ": TUB_UPDATE_GOLDEN=1 rewrites it; read the difference first");
  CHECK(first_difference(project_text(path), found) == "");
}

std::vector<std::string> example_names() {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(source / "examples")) {
    if (entry.path().extension() == ".json") names.push_back(entry.path().stem().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

}  // namespace

TEST_CASE("plans and pages of the examples are as they were read and found right") {
  const auto names = example_names();
  REQUIRE(names.size() >= 4);
  for (const std::string& name : names) {
    const fs::path path = source / "examples" / (name + ".json");
    const Job job =
        read_job({project_text(path), path.string()}, std::nullopt, library().catalogue()).value;
    const Plan plan = plan_of(job, library().catalogue());
    check_golden(name, "plan.json", plan_json(plan));
    check_golden(name, "plan.txt",
                 plan_text({plan, job.heading, library().catalogue().planning.products, ""},
                           library().language("en"), {}));
    for (const char* stock : {"a4", "letter"}) {
      const Print print{.sheet = "startup_card",
                        .templates = {"startup_card"},
                        .stock = library().stock(stock),
                        .language = "en"};
      check_golden(name, std::string("pages-") + stock + ".txt",
                   dump_text(run(job, {&print, 1}, library()).value));
    }
  }
}

TEST_CASE("the same job gives the same plan, byte for byte") {
  const std::string text = project_text(source / "examples" / "quince-row.json");
  const auto once = [&] {
    const Job job = read_job({text, "job.json"}, std::nullopt, library().catalogue()).value;
    return plan_json(plan_of(job, library().catalogue()));
  };
  CHECK(once() == once());
}
