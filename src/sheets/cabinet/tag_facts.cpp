// Dose tags: for the maker's own package of a product, what this vessel takes of it.
#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "base/nearest.h"
#include "sheets/cabinet/label_facts.h"
#include "sheets/cabinet/shown_top_ups.h"
#include "sheets/cabinet/tag_safety.h"
#include "sheets/cabinet/top_up_facts.h"
#include "sheets/cabinet/top_up_shapes.h"
#include "sheets/card/plan_facts.h"
#include "sheets/template/wording.h"

namespace tub::sheets {
namespace {

class TagMaker {
 public:
  TagMaker(const SheetSources& sources, const Messages& messages)
      : sources_(sources), wording_(sources, messages), messages_(messages) {}

  /// What a product of the shelf is used for in this vessel.
  std::vector<Facts> uses_of(const ShelfItem& item) const {
    std::vector<Facts> uses;
    for (const TopUpReading& reading : sources_.top_ups) {
      add_use(uses, item, reading, reading.low);
      add_use(uses, item, reading, reading.high);
    }
    if (uses.empty()) add_fill(uses, item);
    return uses;
  }

  /// What all tags of a product say alike.
  ///
  /// uses: all of the product's, whether or not each has a tag of its own
  Facts tag(const Facts& plan, const ShelfItem& item, const std::vector<Facts>& uses) const {
    Facts facts(tag_shape());
    copy_common(plan, facts);
    facts.set("product_id", item.product.id);
    facts.set("product", messages_.text("product." + item.product.id + ".name"));
    if (const auto& date = sources_.heading.date) facts.set("date", messages_.date(*date));
    const bool is_dry = item.product.form == Form::granules;
    facts.set("own_spoon",
              messages_.words(is_dry ? "dose_tag.own_dry_spoon" : "dose_tag.own_measure"));
    set_safety(facts, item.product);
    set_mark(facts, "looks_up", uses.front().is_present("reading"));
    return facts;
  }

  /// One tag for all uses. Two of one product are never poured together.
  Facts whole(Facts facts, std::vector<Facts> uses) const {
    if (uses.size() > 1) {
      facts.set("one_of_two", messages_.words("dose_tag.one_of_two",
                                              {{"first", uses[0].words("reading")},
                                               {"second", uses[1].words("reading_in_text")}}));
      put_spoons_under(uses);
    }
    facts.set("uses", std::move(uses));
    return facts;
  }

  /// One tag for one use, which names the other.
  Facts part(Facts facts, const std::vector<Facts>& uses, std::size_t which) const {
    for (std::size_t other = 0; other < uses.size(); ++other) {
      if (other == which) continue;
      const MessageParameter its_name{"other", uses[other].words("reading")};
      facts.set("one_of_two", messages_.words("dose_tag.other_too", {its_name}));
      facts.set("one_of_two_short", messages_.words("dose_tag.other_too_short", {its_name}));
    }
    facts.add("uses", uses[which]);
    return facts;
  }

 private:
  void set_safety(Facts& facts, const Product& product) const {
    const Words all = never_meets(wording_, product.id);
    const Words worst = never_meets_worst(wording_, product.id);
    facts.set("never_meets", all);
    facts.set("never_meets_worst", worst.empty() ? all : worst);
    facts.set("wear", protection_of(wording_, product));
  }

  /// Where two uses stand beside each other there is no room beside an amount.
  static void put_spoons_under(std::vector<Facts>& uses) {
    for (Facts& use : uses) {
      std::vector<Facts> rows = use.list("rows");
      for (Facts& row : rows) {
        row.set("spoons_under", row.words("spoons"));
        row.set("limit_under", row.words("limit"));
        row.set("spoons", Words{});
        row.set("limit", Words{});
      }
      use.set("rows", std::move(rows));
    }
  }

  void add_use(std::vector<Facts>& uses, const ShelfItem& item, const TopUpReading& reading,
               const TopUpSide& side) const {
    if (side.product != item.product.id || side.rows.empty()) return;
    Facts use(tag_use_shape());
    use.set("intro", messages_.words("dose_tag.reads",
                                     {{"reading", wording_.reading_name(reading.reading)}}));
    use.set("reading", wording_.short_reading_name(reading.reading));
    use.set("reading_in_text", wording_.reading_in_text(reading.reading));
    for (const TopUp& row : shown_top_ups(reading, side)) {
      Facts line = row_facts(item, *row.portion, use.list("rows").size());
      line.set("reads", wording_.value(reading.reading, row.reads));
      if (row.is_most) line.set("limit", messages_.words("cabinet.most"));
      line.set("label", messages_.words("dose_tag.label",
                                        {{"reading", wording_.short_reading_name(reading.reading)},
                                         {"reads", line.words("reads")}}));
      line.set("once", once(line));
      use.add("rows", std::move(line));
    }
    uses.push_back(std::move(use));
  }

  /// A product that only a fresh fill takes: the pours of the plan, each by itself.
  void add_fill(std::vector<Facts>& uses, const ShelfItem& item) const {
    Facts use(tag_use_shape());
    use.set("intro", messages_.words("dose_tag.fill"));
    for (const Step& step : sources_.plan.steps) {
      const auto* const addition = std::get_if<Addition>(&step.what);
      if (addition == nullptr || addition->product != item.product.id) continue;
      for (const Portion& portion : addition->portions) {
        Facts line = row_facts(item, portion, use.list("rows").size());
        set_mark(line, "is_dosed", true);
        line.set("label", messages_.words("dose_tag.fill_label"));
        line.set("once", once(line));
        use.add("rows", std::move(line));
      }
    }
    if (use.is_present("rows")) uses.push_back(std::move(use));
  }

  /// "once: 7 level tablespoons", "most at once: 7 level tablespoons"
  Words once(const Facts& row) const {
    const bool is_most = row.is_present("limit");
    if (row.is_present("spoons")) {
      return messages_.words(is_most ? "dose_tag.once_most" : "dose_tag.once_spoons",
                             {{"spoons", row.words("spoons")}});
    }
    return is_most ? row.words("limit") : messages_.words("dose_tag.once");
  }

  Facts row_facts(const ShelfItem& item, const Portion& portion, std::size_t number) const {
    Facts line(tag_row_shape());
    const Amount amount = wording_.label_amount(portion, item.product.id);
    line.set("amount", amount.text);
    line.set("spoons", amount.spoons);
    set_mark(line, "is_first", number == 0);
    set_mark(line, "is_second", number >= 1);
    return line;
  }

  const SheetSources& sources_;
  Wording wording_;
  const Messages& messages_;
};

[[noreturn]] void refuse_none(const SheetSources& sources, const std::string& product) {
  std::vector<std::string> shelf;
  for (const ShelfItem& item : sources.shelf) shelf.push_back(item.product.id);
  const bool is_there = std::find(shelf.begin(), shelf.end(), product) != shelf.end();
  if (product.empty()) {
    throw Error(Diagnostic{"nothing on this shelf is used in this tub, so there is no dose tag",
                           {},
                           {},
                           "put the products that it needs on the shelf"});
  }
  throw Error(Diagnostic{
      is_there ? fmt::format("{} is not used in this tub, so it has no dose tag", product)
               : fmt::format("there is no {} on the shelf", product),
      {},
      {},
      is_there ? "name another product, or none for a tag of each" : suggestion(product, shelf)});
}

}  // namespace

FactSets tag_facts(const SheetSources& sources, const Messages& messages,
                   const FactRequest& request) {
  const TagMaker maker(sources, messages);
  const Facts plan = plan_facts(sources, messages);
  FactSets tags;
  for (const ShelfItem& item : sources.shelf) {
    if (!request.product.empty() && item.product.id != request.product) continue;
    std::vector<Facts> uses = maker.uses_of(item);
    if (uses.empty()) continue;
    const Facts tag = maker.tag(plan, item, uses);
    if (!request.is_split) {
      tags.value.push_back(maker.whole(tag, std::move(uses)));
      continue;
    }
    for (std::size_t i = 0; i < uses.size(); ++i) tags.value.push_back(maker.part(tag, uses, i));
  }
  if (tags.value.empty()) refuse_none(sources, request.product);
  return tags;
}

}  // namespace tub::sheets
