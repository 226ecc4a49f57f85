// The invented plan, and documents written out as lines.
#include "fixture.h"

#include <fmt/format.h>

#include <map>
#include <nlohmann/json.hpp>
#include <stdexcept>
#include <vector>

#include "project_text.h"
#include "sheets/compose.h"
#include "sheets/template/vocabulary.h"

namespace tub::sheets::test {
namespace {

Portion portion(double amount_g, double count, const std::string& unit, Reading reading,
                Interval expect) {
  Portion result;
  result.amount_g = amount_g;
  result.measure = {{count, unit}};
  result.expect[reading] = expect;
  return result;
}

// What the second pour's own condition does not answer.
std::vector<TestOutcome> outcomes_of(Reading reading) {
  using When = TestOutcome::When;
  using Action = TestOutcome::Action;
  const bool falls = reading == Reading::ph;
  return {{reading, false, When::inside, Action::skip_rest, {}},
          {reading, false, falls ? When::under : When::over, Action::stop_and_call, {}},
          {reading,
           false,
           falls ? When::over_after_all : When::under_after_all,
           Action::stop_and_call,
           {}}};
}

Step addition(int number, const std::string& product, Reading reading, Limits accept,
              std::vector<Portion> portions) {
  Addition addition;
  addition.product = product;
  addition.reading = reading;
  addition.portions = std::move(portions);
  Step step;
  step.number = number;
  step.test = reading;
  step.accept[reading] = accept;
  step.outcomes = outcomes_of(reading);
  step.what = std::move(addition);
  return step;
}

Step only_numbered(int number, decltype(Step::what) what) {
  Step step;
  step.number = number;
  step.what = std::move(what);
  return step;
}

Step sequestrant_step() {
  Addition sequestrant;
  sequestrant.product = "sequestrant";
  Portion pour;
  pour.amount_ml = 60;
  pour.measure = {{4, "us_tablespoon"}};
  sequestrant.portions = {pour};
  Step step = only_numbered(2, sequestrant);
  step.test_is_clarity = true;
  step.outcomes = {
      {Reading::iron, true, TestOutcome::When::inside, TestOutcome::Action::skip_rest, {}},
      {Reading::iron, true, TestOutcome::When::over, TestOutcome::Action::stop_and_call, {}}};
  return step;
}

Portion second(Portion pour, Condition condition) {
  pour.only_if = condition;
  return pour;
}

std::vector<Step> quince_row_steps() {
  const Reading alkalinity = Reading::total_alkalinity;
  const Reading calcium = Reading::calcium_hardness;
  const Reading chlorine = Reading::free_chlorine;
  using Side = Condition::Side;
  std::vector<Step> steps = {only_numbered(1, FillVessel{}), only_numbered(1, Heat{27}),
                             sequestrant_step()};
  steps.push_back(addition(
      3, "sodium_bicarbonate", alkalinity, {110, 150},
      {portion(90, 6, "us_tablespoon", alkalinity, {97, 102, 107}),
       second(portion(45, 3, "us_tablespoon", alkalinity, {}), {alkalinity, Side::below, 110})}));
  steps.back().notes = {
      {"later_step_moves_it",
       {{"step", 4.0}, {"reading", std::string("total_alkalinity_mg_l")}, {"change", -9.8}}}};
  steps.push_back(addition(
      4, "dry_acid", Reading::ph, {7.4, 7.6},
      {portion(21, 3, "us_teaspoon", Reading::ph, {7.6, 7.7, 7.8}),
       second(portion(14, 2, "us_teaspoon", Reading::ph, {}), {Reading::ph, Side::above, 7.6})}));
  steps.push_back(
      addition(5, "dichlor_dihydrate", chlorine, {3, 5},
               {portion(6, 1.5, "us_teaspoon", chlorine, {2.1, 2.3, 2.5}),
                second(portion(2, 0.5, "us_teaspoon", chlorine, {}), {chlorine, Side::below, 3})}));
  steps.back().outcomes[1].action = TestOutcome::Action::wait_and_test;
  steps.back().outcomes[1].hours = 1;
  steps.push_back(addition(
      6, "calcium_chloride_dihydrate", calcium, {175, 250},
      {portion(150, 12, "us_tablespoon", calcium, {158, 166, 175}),
       second(portion(50, 4, "us_tablespoon", calcium, {}), {calcium, Side::below, 175})}));
  steps.push_back(only_numbered(7, Heat{38}));
  return steps;
}

const Target& target_of(const TargetSet& set, Reading reading) { return set.readings.at(reading); }

// Every letter outside a placeholder becomes an x.
std::string without_letters(const std::string& text) {
  std::string result;
  bool in_placeholder = false;
  for (const char c : text) {
    if (c == '{' && (result.empty() || result.back() != '\\')) in_placeholder = true;
    if (c == '}') in_placeholder = false;
    const bool is_letter = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
    result += is_letter && !in_placeholder ? 'x' : c;
  }
  return result;
}

void remove_letters(nlohmann::json& messages) {
  for (nlohmann::json& value : messages) {
    if (value.is_object()) {
      remove_letters(value);
    } else {
      value = without_letters(value.get<std::string>());
    }
  }
}

// Writes documents, with or without marks.
class Writer {
 public:
  explicit Writer(bool marks) : marks_(marks) {}

  std::string write(const Document& document) {
    line("title", document.title);
    for (const Block& block : document.blocks) {
      if (block.pages == Block::Pages::every && marks_) text_ += "[every page]\n";
      std::visit(*this, block.content);
    }
    line("foot", document.foot.left);
    line("foot", document.foot.right);
    line("foot", document.foot.page_of);
    return text_;
  }

  void operator()(const Masthead& block) {
    line("masthead", block.kind);
    line("  title", block.title);
    line("  figure", block.figure);
    for (const Words& fact : block.facts) line("  fact", fact);
  }
  void operator()(const Text& block) {
    for (const Paragraph& paragraph : block.paragraphs) {
      const char* const rank = paragraph.rank == Rank::heading ? "heading"
                               : paragraph.rank == Rank::small ? "small"
                                                               : "text";
      line(rank, paragraph.words);
    }
  }
  void operator()(const Channel& block) {
    line("channel", block.title);
    for (const Words& head :
         {block.now_head, block.low_head, block.band_head, block.high_head, block.after_head}) {
      line("  head", head);
    }
    for (const auto& row : block.rows) std::visit(*this, row);
  }
  void operator()(const ChannelReading& row) {
    line("  row", row.alt);
    if (!marks_) return;
    text_ += fmt::format(
        "    {} {} now {} at {}, {} {} .. {} {}, after {} at {} .. {}, plot {} .. {}\n",
        tub::sheets::text_of(row.name), tub::sheets::text_of(row.unit), row.now,
        row.now_at ? fmt::format("{}", *row.now_at) : "nothing", row.low, row.low_at, row.high_at,
        row.high, row.after, row.after_low_at, row.after_high_at, row.plot_low, row.plot_high);
  }
  void operator()(const ChannelHeld& row) {
    line("  held", row.name);
    line("    unit", row.unit);
    line("    now", row.now);
    line("    held", row.held);
  }
  void operator()(const Ladder& block) {
    for (const Words& head :
         {block.pour_head, block.wait_head, block.test_head, block.reading_head}) {
      line("ladder head", head);
    }
    for (const Rung& rung : block.rungs) write(rung);
  }
  void operator()(const Notice& block) {
    line("notice", block.word);
    line("  text", block.text);
  }
  void operator()(const Signs& block) {
    for (const Sign& sign : block.signs) line("sign", sign.alt);
    line("  text", block.text);
    for (const Paragraph& paragraph : block.paragraphs) line("  text", paragraph.words);
  }
  template <class Other>
  void operator()(const Other&) {
    throw std::logic_error("a kind of block that the startup card does not use");
  }

 private:
  void write(const Rung& rung) {
    line("rung", rung.key);
    if (rung.tick && marks_) text_ += "  tick\n";
    if (rung.prefer_break_before && marks_) text_ += "  break before, if needed\n";
    line("  title", rung.title);
    for (const Words& aside : rung.aside) line("  aside", aside);
    line("  hazard", rung.hazard);
    for (const Sign& sign : rung.signs) line("  sign", sign.alt);
    for (const Pour& pour : rung.pours) write(pour);
    for (const RungOutcome& outcome : rung.outcomes) {
      line("  outcome", outcome.when);
      line("    then", outcome.then);
    }
    for (const Words& note : rung.notes) line("  note", note);
  }
  void write(const Pour& pour) {
    if (marks_) text_ += pour.turn == Pour::Turn::second ? "  second pour\n" : "  pour\n";
    line("    condition", pour.condition);
    line("    amount", pour.amount.text);
    line("    spoons", pour.amount.spoons);
    line("    wait", pour.wait);
    line("    test", pour.test);
    line("    reading", pour.reading);
  }
  std::string said(const Words& words) const {
    std::string result;
    for (const Inline& part : words.parts) {
      if (!marks_) {
        result += tub::sheets::text_of(Words{{part}, ""});
      } else if (const auto* const bold = std::get_if<Bold>(&part)) {
        result += "*" + bold->text + "*";
      } else if (const auto* const band = std::get_if<Band>(&part)) {
        result += "[" + band->text + "]";
      } else if (const auto* const small = std::get_if<Small>(&part)) {
        result += "~" + small->text + "~";
      } else if (const auto* const fill = std::get_if<Fill>(&part)) {
        result += fmt::format("(line of {} mm)", fill->least_mm);
      } else {
        result += tub::sheets::text_of(Words{{part}, ""});
      }
    }
    return result;
  }
  void line(const std::string& name, const Words& words) { line(name, said(words)); }
  void line(const std::string& name, const std::string& text) {
    if (text.empty()) return;
    text_ += marks_ ? name + ": " + text + "\n" : text + "\n";
  }

  bool marks_;
  std::string text_;
};

}  // namespace

const PlanningData& planning_data() {
  static const PlanningData data = [] {
    PlanningData result;
    result.products =
        parse_products(project_text("src/planning/data/products.json"), "products.json");
    result.target_sets =
        parse_target_sets(project_text("src/planning/data/targets.json"), "targets.json");
    result.measures =
        parse_measures(project_text("src/planning/data/measures.json"), "measures.json");
    result.hazard_rules =
        parse_hazard_rules(project_text("src/planning/data/hazards.json"), "hazards.json");
    return result;
  }();
  return data;
}

const SheetTemplate& startup_card() {
  static const SheetTemplate sheet =
      parse_sheet_template(project_text("templates/sheets/startup_card.json"), "startup_card.json");
  return sheet;
}

const std::vector<SheetTemplate>& all_sheets() {
  static const std::vector<SheetTemplate> sheets = [] {
    std::vector<SheetTemplate> result;
    const std::string folder = "templates/sheets/";
    for (const char* const name :
         {"startup_card", "dose_tag", "cabinet_label", "container_label", "hazard_sheet"}) {
      const std::string file = name + std::string(".json");
      result.push_back(parse_sheet_template(project_text(folder + file), file));
    }
    return result;
  }();
  return sheets;
}

const SheetTemplate& sheet_named(const std::string& name) {
  for (const SheetTemplate& sheet : all_sheets()) {
    if (sheet.sheet == name) return sheet;
  }
  throw std::runtime_error("no sheet " + name);
}

const Messages& language(const std::string& tag) {
  static std::map<std::string, Messages> read;
  const auto found = read.find(tag);
  if (found != read.end()) return found->second;
  return read
      .emplace(tag, Messages::parse(project_text("templates/languages/" + tag + ".json"), tag,
                                    required_messages(all_sheets(), {}, planning_data())))
      .first->second;
}

const Messages& english() { return language("en"); }

Messages letterless_english() {
  const auto required = required_messages(all_sheets(), {}, planning_data());
  nlohmann::json file = nlohmann::json::parse(project_text("templates/languages/en.json"));
  for (nlohmann::json& month : file.at("months")) month = "x";
  remove_letters(file.at("messages"));
  return Messages::parse(file.dump(), "xx.json", required);
}

Heading quince_row_heading() {
  Heading heading;
  heading.date = CalendarDate{2026, 5, 4};
  heading.prepared_for = "the Marrow family";
  heading.shop_name = "Thrushwater Tubs";
  heading.shop_phone = "555-0142";
  heading.vessel_name = "Garden tub, 14 Quince Row";
  heading.shell = "acrylic";
  return heading;
}

Plan quince_row_plan() {
  Plan plan;
  plan.fingerprint = "7K4QM2";
  plan.sanitizer = "dichlor";
  plan.volume_l = 1340;
  plan.volume_give_or_take = 0.05;
  plan.use = "private";
  plan.targets = planning_data().target_sets.front();
  for (const Reading reading : {Reading::ph, Reading::free_chlorine}) {
    const Target& target = target_of(plan.targets, reading);
    plan.gate[reading] = {*target.bathe_low, *target.stop};
  }
  plan.gate_sources = {"HSE HSG282"};
  plan.retest_with = "drop_kit";
  plan.start.temperature_c = 14;
  plan.start.ph = 7.9;
  plan.start.total_alkalinity_mg_l = 62;
  plan.start.calcium_hardness_mg_l = 89.24;
  plan.start.iron_mg_l = 0.3;
  plan.measured = {"ph", "total_alkalinity_mg_l", "calcium_hardness_mg_l", "iron_mg_l"};
  plan.held[Reading::iron] = 0.3;
  plan.final.temperature_c = 38;
  plan.steps = quince_row_steps();
  plan.final_range = {{"ph", {7.42, 7.58}},
                      {"total_alkalinity_mg_l", {105.2, 118.7}},
                      {"calcium_hardness_mg_l", {183.4, 202.1}},
                      {"free_chlorine_mg_l", {3.02, 3.29}}};
  plan.drift = {7.9, 8.4, 0.6, "dry_acid"};
  plan.hazards = {{"dry_acid", "dichlor_dihydrate", "chlorine_gas", "deadly", 0, ""}};
  plan.assumed = {{"metal_not_tested", {{"reading", std::string("copper_mg_l")}}},
                  {"metal_not_tested", {{"reading", std::string("manganese_mg_l")}}}};
  return plan;
}

Document startup_document(const Plan& plan, const Heading& heading) {
  return startup_document(plan, heading, english());
}

Document startup_document(const Plan& plan, const Heading& heading, const Messages& messages) {
  return compose({plan, heading, planning_data().products, "0.1.0"}, startup_card(), messages);
}

std::string text_of(const Document& document) { return Writer(true).write(document); }
std::string words_of(const Document& document) { return Writer(false).write(document); }

}  // namespace tub::sheets::test
