// The cabinet label: each reading's target, and what brings it back from either side.
#include <algorithm>
#include <cmath>
#include <utility>

#include "sheets/cabinet/label_facts.h"
#include "sheets/cabinet/shown_top_ups.h"
#include "sheets/cabinet/top_up_facts.h"
#include "sheets/cabinet/top_up_shapes.h"
#include "sheets/card/plan_facts.h"
#include "sheets/template/wording.h"

namespace tub::sheets {
namespace {

class CabinetMaker {
 public:
  explicit CabinetMaker(const Wording& wording)
      : wording_(wording), messages_(wording.messages()) {}

  Facts reading(const TopUpReading& reading) const {
    Facts facts(cabinet_reading_shape());
    facts.set("name", wording_.reading_name(reading.reading));
    facts.set("target", wording_.limits(reading.reading, reading.target));
    set_gate(facts, reading);
    facts.set("low_product", product_words(reading.low, "cabinet.floater_wider"));
    facts.set("high_product", product_words(reading.high, "cabinet.floater_out"));
    add_lines(facts, reading);
    return facts;
  }

 private:
  void set_gate(Facts& facts, const TopUpReading& reading) const {
    const Limits& between = reading.between_uses;
    if (!is_sanitizer(reading.reading)) return;
    facts.set("to_get_in", messages_.words("cabinet.to_get_in"));
    if (!between.low && !between.high) return;
    facts.set("between", messages_.words("cabinet.between",
                                         {{"range", wording_.limits(reading.reading, between)}}));
  }

  Words product_words(const TopUpSide& side, const char* floater) const {
    if (side.is_floater && !side.rows.empty()) return messages_.words(floater);
    if (!side.product.empty()) return plain(wording_.product_in_text(side.product));
    if (side.rows.empty()) return messages_.words("cabinet.call_us");
    return messages_.words(side.rows.front().replace ? "cabinet.change_water" : "cabinet.wait");
  }

  void add_lines(Facts& facts, const TopUpReading& reading) const {
    const std::vector<TopUp> low = shown_top_ups(reading, reading.low);
    const std::vector<TopUp> high = shown_top_ups(reading, reading.high);
    Words note;
    if (reading.reading == Reading::total_alkalinity && !high.empty()) {
      note = messages_.words("cabinet.both_high_bold");
    }
    const std::size_t count = std::max({low.size(), high.size(), std::size_t{1}});
    set_mark(facts, "alone", count == 1 && facts.is_present("between"));
    // The note stands where a second amount would, if there is none.
    const bool is_in_line = count > 1 && high.size() < count;
    facts.set(is_in_line ? "moved_note" : "note", note);
    for (std::size_t i = 0; i < count; ++i) {
      Facts line(cabinet_line_shape());
      set_mark(line, "is_first", i == 0);
      set_mark(line, "is_second", i == 1);
      if (i < low.size()) set_side(line, "low", reading, low[i], reading.low.product);
      if (i < high.size()) set_side(line, "high", reading, high[i], reading.high.product);
      if (i == 1 && is_in_line) line.set("high_spoons", note);
      set_mark(line, "has_spoons",
               line.is_present("low_spoons") || line.is_present("high_spoons") ||
                   (i == 0 && facts.is_present("to_get_in")));
      set_mark(line, "has_limit", line.is_present("low_limit") || line.is_present("high_limit"));
      facts.add("lines", std::move(line));
    }
  }

  void set_side(Facts& line, const std::string& side, const TopUpReading& reading, const TopUp& row,
                const std::string& product) const {
    constexpr double minutes_an_hour = 60;
    line.set(side + "_reads", wording_.value(reading.reading, row.reads));
    if (row.portion) {
      const Amount amount = wording_.label_amount(*row.portion, product);
      line.set(side + "_amount", amount.text);
      line.set(side + "_spoons", amount.spoons);
      if (row.is_most) line.set(side + "_limit", messages_.words("cabinet.most"));
    } else if (row.wait_hours) {
      line.set(side + "_amount", wording_.duration(*row.wait_hours * minutes_an_hour));
      const bool is_floater_below = side == "low";
      line.set(side + "_spoons",
               messages_.words(is_floater_below ? "cabinet.test_again" : "cabinet.wait_how"));
    } else if (row.replace) {
      line.set(side + "_amount", wording_.rounded_percent(*row.replace));
      line.set(side + "_spoons", messages_.words("cabinet.of_the_water"));
    }
  }

  const Wording& wording_;
  const Messages& messages_;
};

/// Which tub, and how it is kept: a tub without a name by that alone.
Words place(const Facts& plan, const std::string& sanitizer, const Messages& messages) {
  const MessageParameter kept_by{"sanitizer", sanitizer};
  if (!plan.is_present("vessel")) return messages.words("cabinet.place_unnamed", {kept_by});
  return messages.words("cabinet.place", {{"vessel", plan.words("vessel")}, kept_by});
}

/// The worst pairs of this shelf, and what to wear.
Words warning(const Facts& plan, const Messages& messages) {
  const MessageParameter protection{"protection", plan.words("protection")};
  if (!plan.is_present("worst_pairs")) return messages.words("cabinet.one_at_a_time", {protection});
  return messages.words("cabinet.pairs_apart", {{"pairs", plan.words("worst_pairs")}, protection});
}

Words short_warning(const Facts& plan, const Messages& messages) {
  if (!plan.is_present("worst_pairs")) return messages.words("cabinet.one_at_a_time_short");
  return messages.words("cabinet.pairs_apart_short", {{"pairs", plan.words("worst_pairs")}});
}

}  // namespace

FactSets cabinet_facts(const SheetSources& sources, const Messages& messages, const FactRequest&) {
  constexpr std::size_t fourth = 4;
  const Wording wording(sources, messages);
  Facts facts(cabinet_shape());
  const Facts plan = plan_facts(sources, messages);
  copy_common(plan, facts);
  facts.set("place", place(plan, messages.text("sanitizer." + sources.plan.sanitizer), messages));
  // Nothing can be written on its black band: the line stands below.
  facts.set("emergency", unbroken(text_of(plan.words("emergency_figure"))));
  facts.set("bathing_most", wording.temperature(sources.plan.targets.temperature_max_c));
  facts.set("code", sources.code);
  facts.set("warning", warning(plan, messages));
  facts.set("short_warning", short_warning(plan, messages));
  const CabinetMaker maker(wording);
  for (const TopUpReading& reading : sources.top_ups) {
    Facts row = maker.reading(reading);
    set_mark(row, "is_fourth", facts.list("readings").size() + 1 >= fourth);
    facts.add("readings", std::move(row));
  }
  return {{std::move(facts)}, {}};
}

}  // namespace tub::sheets
