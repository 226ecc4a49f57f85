// The rules read what is printed, as a person would: texts, not the plan behind them.
#include "card_rules.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <optional>
#include <regex>
#include <stdexcept>

#include "base/text.h"
#include "fixture.h"

namespace tub::sheets::test {
namespace {

/// What one printed line answers: an interval, and whether only after the last pour.
struct Answer {
  double low = -1e9;
  double high = 1e9;
  bool low_is_inside = true;
  bool high_is_inside = true;
  bool after_all = false;

  bool holds(double value) const {
    const bool above = low_is_inside ? value >= low - 1e-9 : value > low + 1e-9;
    const bool below = high_is_inside ? value <= high + 1e-9 : value < high - 1e-9;
    return above && below;
  }
};

std::optional<Answer> answer_of(const std::string& text) {
  std::smatch match;
  Answer answer;
  answer.after_all = text.find("after both") != std::string::npos;
  if (std::regex_search(text, match, std::regex("([0-9.]+)–([0-9.]+)"))) {
    answer.low = std::stod(match[1]);
    answer.high = std::stod(match[2]);
    return answer;
  }
  if (std::regex_search(text, match, std::regex("([0-9.]+) or less"))) {
    answer.high = std::stod(match[1]);
    return answer;
  }
  if (std::regex_search(text, match, std::regex("([0-9.]+) or more"))) {
    answer.low = std::stod(match[1]);
    return answer;
  }
  if (std::regex_search(text, match, std::regex("[Uu]nder ([0-9.]+)"))) {
    answer.high = std::stod(match[1]);
    answer.high_is_inside = false;
    return answer;
  }
  if (std::regex_search(text, match, std::regex("[Oo]ver ([0-9.]+)"))) {
    answer.low = std::stod(match[1]);
    answer.low_is_inside = false;
    return answer;
  }
  if (std::regex_match(text, match, std::regex("([0-9.]+):?"))) {
    answer.low = answer.high = std::stod(match[1]);
    return answer;
  }
  return std::nullopt;
}

struct Answers {
  std::vector<Answer> after_first;
  std::vector<Answer> after_all;
};

std::string capitalised(std::string text) {
  if (!text.empty() && text != "pH") text[0] = static_cast<char>(std::toupper(text[0]));
  return text;
}

// Whether a line is about the reading of the rung's last test: where a rung tests two readings, its
// lines name theirs.
bool is_about_last_test(const Rung& rung, const std::string& reads) {
  const std::string last = tub::sheets::text_of(rung.pours.back().test);
  for (const Pour& pour : rung.pours) {
    const std::string other = tub::sheets::text_of(pour.test);
    if (other == last) continue;
    const bool names_other = reads.starts_with(other) || reads.starts_with(capitalised(other));
    if (names_other) return false;
  }
  return true;
}

Answers answers_of(const Rung& rung) {
  Answers answers;
  const auto add = [&](const std::string& text, bool first, bool last) {
    const std::optional<Answer> answer = answer_of(text);
    if (!answer) return;
    if (first && !answer->after_all) answers.after_first.push_back(*answer);
    if (last) answers.after_all.push_back(*answer);
  };
  for (const Pour& pour : rung.pours) add(tub::sheets::text_of(pour.condition), true, false);
  add(tub::sheets::text_of(rung.pours.back().reading), false, true);
  for (const RungOutcome& outcome : rung.outcomes) {
    const std::string reads = tub::sheets::text_of(outcome.when);
    if (is_about_last_test(rung, reads)) add(reads, true, true);
  }
  return answers;
}

bool tests_one_reading(const Rung& rung) {
  return std::all_of(rung.pours.begin(), rung.pours.end(), [&](const Pour& pour) {
    return tub::sheets::text_of(pour.test) == tub::sheets::text_of(rung.pours.front().test);
  });
}

bool is_answered(const std::vector<Answer>& answers, double value) {
  return std::any_of(answers.begin(), answers.end(),
                     [&](const Answer& answer) { return answer.holds(value); });
}

bool tests_a_number(const Rung& rung) {
  return !rung.pours.empty() &&
         answer_of(tub::sheets::text_of(rung.pours.back().reading)).has_value();
}

void check_rung(const Rung& rung, std::vector<std::string>& faults) {
  const Answers answers = answers_of(rung);
  const bool is_ph = tub::sheets::text_of(rung.pours.back().test) == "pH";
  const double most = is_ph ? 14 : 1000;
  const double step = is_ph ? 0.1 : 0.5;
  for (double value = 0; value <= most; value += step) {
    const double shown = std::round(value * 10) / 10;
    if (rung.pours.size() > 1 && tests_one_reading(rung) &&
        !is_answered(answers.after_first, shown)) {
      faults.push_back(
          fmt::format("rung {}: {} after the first pour", tub::sheets::text_of(rung.key), shown));
      return;
    }
    if (!is_answered(answers.after_all, shown)) {
      faults.push_back(fmt::format("rung {}: {} after all", tub::sheets::text_of(rung.key), shown));
      return;
    }
  }
}

// What the pours of an addition make together, as it would be printed.
std::vector<std::string> sums_of(const Addition& addition) {
  double grams = 0;
  double millilitres = 0;
  for (const Portion& portion : addition.portions) {
    grams += portion.amount_g.value_or(0);
    millilitres += portion.amount_ml.value_or(0);
  }
  return {shortest(grams) + "\u202Fg", shortest(millilitres) + "\u202FmL"};
}

// Everything that stands on the rung of that number, one text a line.
std::string words_of_rung(const Document& card, int number) {
  Ladder only;
  for (const Rung& rung : ladder_of(card).rungs) {
    if (tub::sheets::text_of(rung.key) == std::to_string(number)) only.rungs = {rung};
  }
  Document document;
  document.blocks.emplace_back();
  document.blocks.back().content = only;
  return "\n" + words_of(document);
}

}  // namespace

const Ladder& ladder_of(const Document& card) {
  for (const Block& block : card.blocks) {
    if (const auto* const ladder = std::get_if<Ladder>(&block.content)) return *ladder;
  }
  throw std::logic_error("a card without a ladder");
}

std::vector<std::string> unanswered_readings(const Document& card) {
  std::vector<std::string> faults;
  for (const Rung& rung : ladder_of(card).rungs) {
    if (tests_a_number(rung)) check_rung(rung, faults);
  }
  return faults;
}

std::vector<std::string> typographic_faults(const Document& card) {
  const std::pair<const char*, const char*> rules[] = {
      {"(?:[0-9]|½|¼|¾|⅓|⅔)(?: |\u00A0)(?:g|mL|L|oz|min|h|°C|°F|%|mg/L|US)\\b",
       "a wide space before a unit"},
      {"[0-9]-[0-9]", "a hyphen between digits"},
      {"['\"]", "a straight quote"},
      {"\\.\\.", "two full stops"},
      {"  ", "two spaces"},
      {"\\b(tsp|tbsp)\\b", "a spoon that is not written out"},
      {"[{}*\\[\\]~]", "a mark that was not read"},
  };
  std::vector<std::string> faults;
  for (const std::string& line : split(words_of(card), '\n')) {
    // A job's fingerprint and the names of laws keep their hyphens.
    const bool is_foot = line == card.foot.left || line == card.foot.page_of;
    for (const auto& [pattern, fault] : rules) {
      if (!is_foot && std::regex_search(line, std::regex(pattern))) {
        faults.push_back(fmt::format("{}: {}", fault, line));
      }
    }
  }
  return faults;
}

std::vector<std::string> printed_sums(const Document& card, const Plan& plan) {
  std::vector<std::string> sums;
  for (const Step& step : plan.steps) {
    const auto* const addition = std::get_if<Addition>(&step.what);
    if (addition == nullptr || addition->portions.size() < 2) continue;
    const std::string rung = words_of_rung(card, step.number);
    for (const std::string& sum : sums_of(*addition)) {
      if (rung.find("\n" + sum) != std::string::npos) sums.push_back(sum);
    }
  }
  return sums;
}

}  // namespace tub::sheets::test
