#include "app/plan_text.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>

#include "app/paragraph.h"
#include "app/range_text.h"
#include "app/retest_text.h"
#include "app/step_text.h"
#include "app/terminal.h"
#include "base/text.h"
#include "planning/steps/gate.h"
#include "sheets/card/sanitizer_facts.h"
#include "sheets/template/wording.h"

namespace tub::app {
namespace {

constexpr std::string_view nobody_gets_in = "Nobody gets in yet";

double value_in(const WaterState& state, Reading reading) {
  for (const auto& key : reading_keys) {
    if (key.name == key_of(reading)) return state.*(key.member);
  }
  for (const auto& key : derived_keys) {
    if (key.name == key_of(reading)) return state.*(key.member);
  }
  return 0;
}

// "tap_free_chlorine_mg_l" as "tap free chlorine".
std::string without_unit(std::string text) {
  for (const std::string_view unit : {"_mg_l", "_c"}) {
    if (text.ends_with(unit)) text.erase(text.size() - unit.size());
  }
  return replaced(text, "_", " ");
}

// Words of a sheet; a terminal's blanks are all of one width.
std::string evenly_spaced(const std::string& text) {
  return replaced(replaced(text, "\u202F", " "), "\u00A0", " ");
}

// Steps stand in litres, grams and °C: so does all else.
Heading in_metric_units(Heading heading) {
  heading.weighs_in = UnitSystem::metric;
  heading.measures_in = UnitSystem::metric;
  return heading;
}

class PlanWriter {
 public:
  PlanWriter(const SheetSources& sources, const Messages& names, const TextStyle& style)
      : plan_(sources.plan),
        names_(names),
        style_(style),
        heading_(in_metric_units(sources.heading)),
        sources_{sources.plan, heading_, sources.products, sources.version},
        wording_(sources_, names) {}
  PlanWriter(const PlanWriter&) = delete;
  PlanWriter& operator=(const PlanWriter&) = delete;

  std::string head() const {
    const Heading& heading = wording_.sources().heading;
    const std::string name = heading.vessel_name.empty() ? "The tub" : heading.vessel_name;
    const std::string title = fmt::format("{}: {} L ±{} %, {}", name, tidy(plan_.volume_l, 0),
                                          tidy(100 * plan_.volume_give_or_take, 1), plan_.use);
    std::string print = plan_.fingerprint;
    if (print.size() == 6) print.insert(4, "-");
    return bold(title, style_.with_colour) + "\n" +
           fmt::format("job {}, sanitizer {}{}, targets {}{}\n", print, plan_.sanitizer,
                       plan_.mineral_cartridge ? " beside a mineral cartridge" : "",
                       plan_.targets.id, own_text());
  }

  std::vector<std::string> closing_texts() const {
    std::vector<std::string> texts;
    for (const Unmet& unmet : plan_.unmet) {
      if (unmet.closes_gate) texts.push_back(closing_text(unmet));
    }
    return texts;
  }

  /// What keeps people out, and what comes before anything is poured.
  std::string first_of_all() const {
    std::string text;
    for (const std::string& closing : closing_texts()) text += note(nobody_gets_in, closing);
    for (const Reason& caution : plan_.cautions) text += note("Before pouring", said(caution));
    return text.empty() ? text : text.substr(1) + "\n";
  }

  std::string waters() const {
    std::string text = row({"", "now", "at the end", "between", "target"}, true);
    for (const Reading reading : all_readings) {
      if (is_told(reading)) text += row(cells(reading), false);
    }
    return text;
  }

  std::string before() const {
    std::string text = note("Done", done_text(plan_, names_));
    for (const FoundReading& found : plan_.found) text += note("Found", found_text(found, names_));
    return text;
  }

  std::string steps() const {
    std::string text;
    for (std::size_t i = 0; i < plan_.steps.size();) {
      const int number = plan_.steps[i].number;
      std::string words;
      for (; i < plan_.steps.size() && plan_.steps[i].number == number; ++i) {
        words += (words.empty() ? "" : " ") + step_text(plan_.steps[i], names_);
      }
      const std::string head = padded(fmt::format("{}.", number), 4);
      const std::string lines = paragraph(head, words, style_.width);
      text += "\n" + bold(head, style_.with_colour) + lines.substr(head.size());
    }
    return text;
  }

  std::string gate() const {
    std::string text;
    for (const auto& [reading, range] : plan_.gate) {
      const std::string limits = range.low > 0 ? "from " + span(reading, range.low, range.high)
                                               : span(reading, std::nullopt, range.high);
      text +=
          fmt::format("{}{} {}", text.empty() ? "" : ", ", reading_name(reading, names_), limits);
    }
    return note("Get in when", text.empty() ? text : text + ", and the water is clear.");
  }

  std::string notes() const {
    std::string text;
    for (const Unmet& unmet : plan_.unmet) {
      if (!unmet.closes_gate) text += note("Not reached", unmet_text(unmet));
    }
    text += note("At work", active_text());
    text += note("Later", later_text());
    std::string hazards;
    for (const HazardPair& pair : plan_.hazards) {
      hazards += (hazards.empty() ? "" : "; ") + hazard_text(pair);
    }
    text += note("Never together", hazards);
    std::string assumed;
    for (const Reason& reason : plan_.assumed) {
      assumed += (assumed.empty() ? "" : "; ") +
                 evenly_spaced(text_of(wording_.reason(reason, "assumed")));
    }
    return text + note("Assumed (mg/L)", assumed.empty() ? assumed : assumed + ".");
  }

 private:
  std::string own_text() const {
    std::string names;
    for (const Reading reading : own_figures(plan_.targets)) {
      names += (names.empty() ? ", own " : " and ") + reading_name(reading, names_);
    }
    return names;
  }

  using Row = std::array<std::string, 5>;

  std::string row(const Row& texts, bool is_head) const {
    constexpr std::array<std::size_t, 5> widths = {25, 12, 13, 16, 0};
    std::string line;
    for (std::size_t i = 0; i < texts.size(); ++i) line += padded(texts.at(i), widths.at(i));
    line.erase(line.find_last_not_of(' ') + 1);
    return (is_head ? bold(line, style_.with_colour) : line) + "\n";
  }

  bool is_measured(Reading reading) const {
    return std::find(plan_.measured.begin(), plan_.measured.end(), key_of(reading)) !=
           plan_.measured.end();
  }

  bool is_told(Reading reading) const {
    const bool is_other = reading == Reading::total_bromine && plan_.final.total_bromine_mg_l == 0;
    return !is_other && (plan_.targets.readings.contains(reading) || is_measured(reading));
  }

  Row cells(Reading reading) const {
    Row cells;
    cells[0] = reading_name(reading, names_) + (reading == Reading::ph ? "" : ", mg/L");
    cells[1] =
        is_measured(reading) ? reading_text(reading, value_in(plan_.start, reading)) : "not tested";
    cells[2] = reading_text(reading, value_in(plan_.final, reading));
    const auto range = plan_.final_range.find(std::string(key_of(reading)));
    if (range != plan_.final_range.end()) {
      cells[3] = span(reading, range->second.low, range->second.high);
    }
    const auto target = plan_.targets.readings.find(reading);
    if (target != plan_.targets.readings.end()) {
      cells[4] = span(reading, target->second.low, target->second.high);
    }
    return cells;
  }

  static std::string span(Reading reading, std::optional<double> low, std::optional<double> high) {
    if (low && high) return range_text(reading, {*low, *high});
    if (low) return reading_text(reading, *low) + " or more";
    return high ? reading_text(reading, *high) + " or less" : "";
  }

  std::string note(std::string_view head, const std::string& text) const {
    if (text.empty()) return "";
    const std::string start = std::string(head) + ": ";
    const std::string lines = paragraph("", start + text, style_.width);
    return "\n" + bold(start, style_.with_colour) + lines.substr(start.size());
  }

  std::string closing_text(const Unmet& unmet) const {
    const auto gate = plan_.gate.find(unmet.reading);
    Limits limits{unmet.low, unmet.high};
    if (gate != plan_.gate.end()) limits = limits_of(gate->second);
    std::string text =
        fmt::format("{} would end at {}, to get in {}. {}", reading_name(unmet.reading, names_),
                    reading_text(unmet.reading, unmet.reached),
                    span(unmet.reading, limits.low, limits.high), said(unmet.reason, "unmet"));
    if (unmet.remedy) text += " " + remedy_text(*unmet.remedy);
    return text;
  }

  /// A reason in the words of the sheets.
  std::string said(const Reason& reason, std::string_view group = "caution") const {
    return evenly_spaced(text_of(wording_.reason(reason, group)));
  }

  std::string unmet_text(const Unmet& unmet) const {
    std::string text =
        fmt::format("{} ends at {}, the target is {} ({}).", reading_name(unmet.reading, names_),
                    reading_text(unmet.reading, unmet.reached),
                    span(unmet.reading, unmet.low, unmet.high), reason_text(unmet.reason));
    if (unmet.remedy) text += " " + remedy_text(*unmet.remedy);
    return text;
  }

  std::string remedy_text(const Remedy& remedy) const {
    if (remedy.kind == "buy") {
      const auto about = [](double amount, std::string_view unit) {
        return fmt::format(", about {} {}", tidy(amount, 0), unit);
      };
      const std::string amount = remedy.amount_g    ? about(*remedy.amount_g, "g")
                                 : remedy.amount_ml ? about(*remedy.amount_ml, "mL")
                                                    : "";
      return fmt::format("Buy {}{}.", product_name(remedy.product, names_), amount);
    }
    if (remedy.kind == "wait" && !remedy.hours) return "Wait, and test again.";
    if (remedy.kind == "wait") return fmt::format("Wait {}.", time_text(*remedy.hours * 60));
    const std::string share = tidy(100 * remedy.fraction.value_or(0), 0);
    const std::string water = replaced(remedy.with, "_", " ");
    if (remedy.kind == "soften") return fmt::format("Soften {} % of the {}.", share, water);
    if (remedy.kind == "drain" && remedy.with.empty()) return "Drain it and fill it afresh.";
    if (remedy.kind == "drain") return fmt::format("Drain it all and refill with {}.", water);
    return fmt::format("{} {} % with {}.", remedy.kind == "blend" ? "Blend" : "Replace", share,
                       water);
  }

  static std::string shares_text(const Interval& share) {
    constexpr double small = 0.1;  // below it a whole percent says too little
    const int decimals = share.high < small ? 1 : 0;
    return fmt::format("{} % (from {})", tidy(100 * share.value, decimals),
                       range_text({100 * share.low, 100 * share.high}, decimals));
  }

  std::string active_text() const {
    if (!plan_.active_sanitizer) return "";
    const ActiveSanitizer& active = *plan_.active_sanitizer;
    const std::string name = reading_name(active.of, names_);
    std::string text =
        fmt::format("{} of the {} kills germs at once", shares_text(active.share), name);
    if (active.bound_chlorine_mg_l && active.bound_chlorine_mg_l->value > 0) {
      text += fmt::format("; stabilizer holds {} mg/L in store",
                          tidy(active.bound_chlorine_mg_l->value, 1));
    }
    return text + ".";
  }

  std::string later_text() const {
    const std::string drift = drift_text();
    if (!plan_.hand_over) return drift;
    return drift + " " + evenly_spaced(text_of(hand_over_words(wording_)));
  }

  std::string drift_text() const {
    return fmt::format("as carbon dioxide leaves, pH climbs by itself to about {}, at most {}.",
                       reading_text(Reading::ph, plan_.drift.ph_half_way),
                       at_most_text(Reading::ph, plan_.drift.ph_at_air));
  }

  std::string hazard_text(const HazardPair& pair) const {
    const std::string what = text_of(wording_.messages().words(
        "pair." + pair.code, {{"first", plain(product_name(pair.first, names_))},
                              {"second", plain(product_name(pair.second, names_))}}));
    if (pair.hours_apart <= 0) return what;
    return fmt::format("{} (in the tub {} h apart)", what, tidy(pair.hours_apart, 1));
  }

  static std::string reason_text(const Reason& reason) {
    std::string text = without_unit(reason.code);
    for (const auto& [name, value] : reason.parameters) {
      if (name == "low" || name == "high") continue;
      const double* const number = std::get_if<double>(&value);
      const std::string shown = number != nullptr ? tidy(*number, 3) : std::get<std::string>(value);
      text += name == "value" || name == "unit"
                  ? " " + shown
                  : fmt::format(" ({} {})", replaced(name, "_", " "), replaced(shown, "_", " "));
    }
    return text;
  }

  const Plan& plan_;
  const Messages& names_;
  const TextStyle& style_;
  const Heading heading_;
  const SheetSources sources_;
  const Wording wording_;
};

}  // namespace

std::vector<std::string> closing_texts(const SheetSources& sources, const Messages& names) {
  const TextStyle plain;
  std::vector<std::string> texts = PlanWriter(sources, names, plain).closing_texts();
  for (std::string& text : texts) text = std::string(nobody_gets_in) + ": " + text;
  return texts;
}

std::string plan_text(const SheetSources& sources, const Messages& names, const TextStyle& style) {
  const PlanWriter writer(sources, names, style);
  return writer.head() + "\n" + writer.first_of_all() + writer.waters() + writer.before() +
         writer.steps() + writer.gate() + writer.notes();
}

}  // namespace tub::app
