// Steps that share a number share a rung; the gate stands on the last.
#include "sheets/card/rung_facts.h"

#include <algorithm>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "sheets/card/addition_facts.h"
#include "sheets/card/plan_shape.h"

namespace tub::sheets {
namespace {

using Group = std::vector<const Step*>;

// Source: US Consumer Product Safety Commission's hot tub advice, 104 °F (from memory).
constexpr double hottest_bath_c = 40;

std::vector<Group> groups_by_number(const std::vector<Step>& steps) {
  std::vector<Group> groups;
  for (const Step& step : steps) {
    if (groups.empty() || groups.back().front()->number != step.number) groups.emplace_back();
    groups.back().push_back(&step);
  }
  return groups;
}

template <class Kind>
const Kind* first_of(const Group& group) {
  for (const Step* const step : group) {
    if (const Kind* const found = std::get_if<Kind>(&step->what)) return found;
  }
  return nullptr;
}

void collect_additions(const std::vector<Step>& steps, std::vector<const Addition*>& additions) {
  for (const Step& step : steps) {
    if (const auto* const addition = std::get_if<Addition>(&step.what)) {
      additions.push_back(addition);
    } else if (const auto* const repeat = std::get_if<Repeat>(&step.what)) {
      collect_additions(repeat->steps, additions);
    }
  }
}

// Whether the plan's own first step is here: a plan that goes on from retests was tested just now.
bool begins_plan(const Plan& plan, const Group& group) {
  return plan.found.empty() && !group.empty() && group.front() == &plan.steps.front();
}

// Which water is tested again, and when: a full tub before anything is done, the tap before it is
// mixed with another.
Words first_test_words(const Wording& wording, const Group& group) {
  const Messages& messages = wording.messages();
  if (first_of<FillVessel>(group) == nullptr) return messages.words("rung.test_before");
  const bool blends = first_of<Replace>(group) != nullptr;
  return messages.words(blends ? "rung.test_tap" : "rung.test_again");
}

class RungWriter {
 public:
  RungWriter(const Wording& wording, const Group& group)
      : wording_(wording), group_(group), rung_(rung_shape()) {}

  Facts write() {
    rung_.set("number", std::to_string(group_.front()->number));
    write_first_test();
    write_heating();
    for (const Step* const step : group_) write_step(*step);
    return std::move(rung_);
  }

 private:
  const Messages& messages() const { return wording_.messages(); }

  // The first rung asks whether the water is still what it was; where it pours, that comes first.
  void write_first_test() {
    if (!begins_plan(wording_.plan(), group_)) return;
    const bool pours = first_of<Addition>(group_) != nullptr || first_of<Repeat>(group_) != nullptr;
    rung_.add(pours ? "aside" : "notes", text_facts(first_test_words(wording_, group_)));
  }

  void write_heating() {
    const bool fills = first_of<FillVessel>(group_) != nullptr;
    const auto* const heat = first_of<Heat>(group_);
    if (!fills && heat == nullptr) return;
    const std::string to = heat == nullptr ? "" : wording_.temperature(heat->to_c);
    rung_.set("tick", messages().words("yes"));
    if (!fills) {
      rung_.set("title", messages().words("rung.heat", {{"temperature", to}}));
      return;
    }
    rung_.set("title", heat == nullptr
                           ? messages().words("rung.fill")
                           : messages().words("rung.fill_and_heat", {{"temperature", to}}));
    rung_.add("aside", text_facts(messages().words(heat == nullptr ? "rung.fill_how"
                                                                   : "rung.fill_and_heat_how")));
  }

  void write_step(const Step& step) {
    if (const auto* const addition = std::get_if<Addition>(&step.what)) {
      set_product(rung_, wording_, step, *addition);
      add_pours(rung_, wording_, step, *addition);
      add_outcomes(rung_, wording_, step,
                   {addition->portions.size(), false, waiting_after(*addition)});
      add_notes(rung_, wording_, step);
    } else if (const auto* const release = std::get_if<ReleaseCarbonDioxide>(&step.what)) {
      rung_.set("title", messages().words("rung.release"));
      rung_.add("aside", text_facts(messages().words("rung.release_does")));
      add_airing(step, *release);
      add_outcomes(rung_, wording_, step, {1, false, OutcomeStyle::Waiting::airing});
      add_notes(rung_, wording_, step);
    } else if (const auto* const repeat = std::get_if<Repeat>(&step.what)) {
      write_repeat(step, *repeat);
    } else if (const auto* const replace = std::get_if<Replace>(&step.what)) {
      write_replace(*replace);
    }
  }

  OutcomeStyle::Waiting waiting_after(const Addition& addition) const {
    const bool is_floater = wording_.product(addition.product).dissolves.has_value();
    return is_floater ? OutcomeStyle::Waiting::floater_out : OutcomeStyle::Waiting::cover_off;
  }

  void add_airing(const Step& step, const ReleaseCarbonDioxide& release) {
    Facts pour(pour_shape());
    pour.set("amount", messages().words("pour.air"));
    pour.set("spoons",
             messages().words("pour.air_takes", {{"time", wording_.hours(release.jets_hours)}}));
    pour.set("wait", wording_.at_least(release.jets_hours.low));
    pour.set("test", test_words(wording_, step));
    pour.set("reading", target_words(wording_, step));
    rung_.add("pours", std::move(pour));
  }

  // One round, then what its end says: pH first, since the jets bring it back, then the reading
  // that the rounds are for.
  void write_repeat(const Step& step, const Repeat& repeat) {
    for (const Step& inner : repeat.steps) {
      if (const auto* const addition = std::get_if<Addition>(&inner.what)) {
        set_product(rung_, wording_, inner, *addition);
        rung_.set("title",
                  messages().words("rung.in_rounds",
                                   {{"product", wording_.product_name(addition->product)}}));
        add_pours(rung_, wording_, inner, *addition);
        add_skipping(*addition);
      } else if (const auto* const release = std::get_if<ReleaseCarbonDioxide>(&inner.what)) {
        add_airing(inner, *release);
        add_outcomes(rung_, wording_, inner, {1, true, OutcomeStyle::Waiting::airing});
      }
      add_notes(rung_, wording_, inner);
    }
    add_end_of_round(step, repeat);
    add_notes(rung_, wording_, step);
  }

  // A second pour of a round is left out where its condition does not hold.
  void add_skipping(const Addition& addition) {
    const std::optional<Condition>& condition = addition.portions.back().only_if;
    if (!condition) return;
    const bool is_above = condition->side == Condition::Side::above;
    add_outcome(rung_,
                messages().words(is_above ? "outcome.of.not_over" : "outcome.of.not_under",
                                 {{"name", wording_.reading_name(condition->reading)},
                                  {"n", wording_.value(condition->reading, condition->edge)}}),
                messages().words("then.skip_second"));
  }

  void add_end_of_round(const Step& step, const Repeat& repeat) {
    const Condition& until = repeat.until;
    const bool falls = until.side == Condition::Side::below;
    const std::string name = wording_.reading_name(until.reading);
    const std::string edge = wording_.value(until.reading, until.edge);
    const std::string most = std::to_string(repeat.at_most);
    Facts test(pour_shape());
    test.set("amount", messages().words("pour.end_of_round"));
    test.set("spoons", messages().words("pour.rounds", {{"numbers", numbers_to(repeat.at_most)}}));
    test.set("test", wording_.reading_in_text(until.reading));
    test.set("reading", end_target(step, until, edge));
    rung_.add("pours", std::move(test));
    add_outcome(rung_,
                messages().words(falls ? "outcome.of.over" : "outcome.of.under",
                                 {{"name", name}, {"range", ""}, {"n", edge}}),
                messages().words("then.another_round",
                                 {{"times", std::to_string(repeat.times)}, {"most", most}}));
    add_outcome(rung_, messages().words("outcome.after_rounds", {{"n", most}}),
                messages().words("then.stop_and_call"));
    add_passed(step, until, name);
  }

  // "1 2 3": a number to strike out for each round.
  static std::string numbers_to(int last) {
    std::string numbers = "1";
    for (int number = 2; number <= last; ++number) numbers += " " + std::to_string(number);
    return numbers;
  }

  Words end_target(const Step& step, const Condition& until, const std::string& edge) const {
    if (step.accept.contains(until.reading)) {
      Step reading_only = step;
      reading_only.test = until.reading;
      return target_words(wording_, reading_only);
    }
    const bool falls = until.side == Condition::Side::below;
    return messages().words(falls ? "pour.until_under" : "pour.until_over", {{"n", edge}});
  }

  // Rounds that went too far.
  void add_passed(const Step& step, const Condition& until, const std::string& name) {
    const auto accept = step.accept.find(until.reading);
    if (accept == step.accept.end()) return;
    const bool falls = until.side == Condition::Side::below;
    const std::optional<double> edge = falls ? accept->second.low : accept->second.high;
    if (!edge) return;
    add_outcome(rung_,
                messages().words(
                    falls ? "outcome.of.under" : "outcome.of.over",
                    {{"name", name}, {"range", ""}, {"n", wording_.value(until.reading, *edge)}}),
                messages().words("then.stop_and_call"));
  }

  // At the fill the other water is part of it; later some has to be drained first.
  void write_replace(const Replace& replace) {
    const bool fills = first_of<FillVessel>(group_) != nullptr;
    const double litres = wording_.plan().volume_l;
    const std::vector<MessageParameter> parameters = {
        {"share", wording_.rounded_percent(replace.fraction)},
        {"volume", wording_.rounded_volume(replace.fraction * litres)},
        {"rest", wording_.rounded_volume((1 - replace.fraction) * litres)},
        {"water", messages().text("water." + replace.with)}};
    if (fills) {
      rung_.add("notes", text_facts(messages().words("rung.blend", parameters)));
      return;
    }
    rung_.set("tick", messages().words("yes"));
    rung_.set("title", messages().words("rung.replace", parameters));
    rung_.add("aside", text_facts(messages().words("rung.replace_how")));
  }

  const Wording& wording_;
  const Group& group_;
  Facts rung_;
};

// The last rung: its heating becomes a line below the gate.
class GateWriter {
 public:
  GateWriter(const Wording& wording, int number, const Group& heating)
      : wording_(wording), heating_(heating), rung_(rung_shape()) {
    rung_.set("number", std::to_string(number));
  }

  Facts write() {
    if (!is_closed()) rung_.set("tick", messages().words("yes"));
    if (begins_plan(wording_.plan(), heating_)) {
      rung_.add("notes", text_facts(first_test_words(wording_, heating_)));
    }
    write_title();
    write_points();
    write_notes();
    return std::move(rung_);
  }

 private:
  const Messages& messages() const { return wording_.messages(); }

  void add_point(Words words) { rung_.add("aside", text_facts(std::move(words))); }

  // What only time mends is waited for at the gate; everything else is done before it.
  bool is_closed() const {
    const auto& unmet = wording_.plan().unmet;
    return std::any_of(unmet.begin(), unmet.end(), [](const Unmet& one) {
      return one.closes_gate && !(one.remedy && one.remedy->kind == "wait");
    });
  }

  void write_title() {
    if (is_closed()) {
      rung_.set("title", messages().words("gate.title_when_closed"));
    } else if (const auto* const heat = first_of<Heat>(heating_)) {
      rung_.set("title", messages().words("gate.title_when_warm",
                                          {{"temperature", wording_.temperature(heat->to_c)}}));
    } else {
      rung_.set("title", messages().words("gate.title"));
    }
  }

  void write_points() {
    const Plan& plan = wording_.plan();
    for (const auto& [reading, range] : plan.gate) {
      add_point(messages().words("gate.reading", {{"name", wording_.reading_in_text(reading)},
                                                  {"range", gate_text(reading, range)}}));
    }
    add_point(messages().words("gate.clear"));
    const double hottest = std::min(plan.targets.temperature_max_c, hottest_bath_c);
    add_point(
        messages().words("gate.temperature", {{"temperature", wording_.temperature(hottest)}}));
  }

  // As the retest shows it, where the last step says so.
  std::string gate_text(Reading reading, Range range) const {
    for (const Step* const step : heating_) {
      const auto accept = step->accept.find(reading);
      if (accept != step->accept.end()) return wording_.limits(reading, accept->second);
    }
    return wording_.range(reading, range);
  }

  // Who stays out, then what to do where a point is not true: what falls by itself is waited for.
  void write_notes() {
    Words all = messages().words("gate.people");
    for (const Step* const step : heating_) {
      for (const TestOutcome& outcome : step->outcomes) {
        if (outcome.action == TestOutcome::Action::wait_and_test) {
          all = joined(std::move(all), waiting(*step, outcome));
        }
      }
      add_notes(rung_, wording_, *step);
    }
    rung_.add("notes", text_facts(joined(std::move(all), messages().words("gate.otherwise"))));
  }

  Words joined(Words first, Words second) const {
    return messages().words("sentences",
                            {{"first", std::move(first)}, {"second", std::move(second)}});
  }

  Words waiting(const Step& step, const TestOutcome& outcome) const {
    const auto accept = step.accept.find(outcome.reading);
    const double most = accept == step.accept.end() ? 0 : accept->second.high.value_or(0);
    return messages().words("gate.over", {{"name", wording_.reading_name(outcome.reading)},
                                          {"n", wording_.value(outcome.reading, most)},
                                          {"time", wording_.about(outcome.hours.value_or(1))}});
  }

  const Wording& wording_;
  const Group& heating_;
  Facts rung_;
};

bool is_heating_only(const Group& group) {
  return std::all_of(group.begin(), group.end(),
                     [](const Step* step) { return std::holds_alternative<Heat>(step->what); });
}

}  // namespace

int last_number(const Plan& plan) {
  if (plan.steps.empty()) return 1;
  const int last = plan.steps.back().number;
  const bool is_only_heating =
      std::all_of(plan.steps.begin(), plan.steps.end(), [last](const Step& step) {
        return step.number != last || std::holds_alternative<Heat>(step.what);
      });
  return is_only_heating ? last : last + 1;
}

std::vector<std::string> common_protection(const Wording& wording) {
  std::vector<const Addition*> additions;
  collect_additions(wording.plan().steps, additions);
  std::vector<std::string> common = {"gloves", "goggles"};
  for (const Addition* const addition : additions) {
    const Product& product = wording.product(addition->product);
    if (is_grave(product)) continue;
    for (const std::string& sign : product.protection) {
      if (std::find(common.begin(), common.end(), sign) == common.end()) common.push_back(sign);
    }
  }
  return common;
}

std::vector<Facts> sign_facts(const Wording& wording, const std::vector<std::string>& protection) {
  std::vector<Facts> signs;
  for (const std::string& name : protection) {
    Facts sign(sign_list);
    sign.set("sign", name == "acid_gloves" ? "gloves" : name);
    sign.set("alt", wording.messages().words("protection." + name + ".alt"));
    signs.push_back(std::move(sign));
  }
  return signs;
}

std::vector<Facts> rung_facts(const Wording& wording) {
  const Plan& plan = wording.plan();
  const int last = last_number(plan);
  std::vector<Group> groups = groups_by_number(plan.steps);
  Group final_heating;
  if (!groups.empty() && groups.back().front()->number == last && is_heating_only(groups.back())) {
    final_heating = std::move(groups.back());
    groups.pop_back();
  }
  std::vector<Facts> rungs;
  rungs.reserve(groups.size() + 1);
  for (const Group& group : groups) rungs.push_back(RungWriter(wording, group).write());
  rungs.push_back(GateWriter(wording, last, final_heating).write());
  return rungs;
}

}  // namespace tub::sheets
