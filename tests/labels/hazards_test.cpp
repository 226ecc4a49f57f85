// What a label shows, against the harmonised labels of Annex VI and the texts on closures.
#include "labels/hazards.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "base/text.h"
#include "label_data.h"

namespace tub::labels {
namespace {

std::set<std::string> as_set(const Names& names) { return {names.begin(), names.end()}; }

LabelElements elements_of(const Names& codes, const std::string& rules = "clp",
                          double active_chlorine_percent = 0) {
  return label_elements(codes, hazard_table(), label_rules(rules), active_chlorine_percent);
}

std::string word(Product::Signal signal) {
  if (signal == Product::Signal::none) return "";
  return signal == Product::Signal::danger ? "Danger" : "Warning";
}

TEST_CASE("the elements of every harmonised label follow from its classification") {
  int seen = 0;
  for (const auto& row : reference_rows("substances.tsv", '\t')) {
    if (row.at(3).empty()) continue;
    CAPTURE(row.at(0));
    Names codes = names_in(row.at(9));
    for (const std::string& item : names_in(row.at(5))) codes.push_back(split(item, '=').at(1));
    const LabelElements elements = elements_of(codes);
    CHECK(as_set(elements.pictograms) == as_set(names_in(row.at(6))));
    CHECK(word(elements.signal) == row.at(7));
    CHECK(as_set(elements.hazards) == as_set(names_in(row.at(8))));
    CHECK(elements.supplements == names_in(row.at(9)));
    ++seen;
  }
  CHECK(seen == 16);
}

TEST_CASE("the exclamation mark gives way as article 26 says") {
  // Source: CLP Article 26(1)(b) to (d)
  CHECK(elements_of({"H301", "H335"}).pictograms == Names{"GHS06"});
  CHECK(elements_of({"H318", "H315"}).pictograms == Names{"GHS05"});
  CHECK(as_set(elements_of({"H318", "H302"}).pictograms) == as_set({"GHS05", "GHS07"}));
  CHECK(elements_of({"H334", "H317", "H319"}).pictograms == Names{"GHS08"});
  CHECK(as_set(elements_of({"H334", "H335"}).pictograms) == as_set({"GHS08", "GHS07"}));
  CHECK(as_set(elements_of({"H360FD", "H319"}).pictograms) == as_set({"GHS08", "GHS07"}));
}

TEST_CASE("danger stands alone, and a statement that another covers is not printed") {
  const LabelElements elements = elements_of({"H314", "H318", "H400", "H410", "H302"});
  CHECK(elements.signal == Product::Signal::danger);
  CHECK(elements.hazards == Names{"H302", "H314", "H410"});
  CHECK(elements_of({"H411"}).signal == Product::Signal::none);
  CHECK(elements_of({"H412"}).pictograms.empty());
}

TEST_CASE("what a corrosive liquid says is complete, in order, and without contradictions") {
  const LabelElements acid = elements_of({"H314", "H335"});
  CHECK(acid.precautions ==
        Names{"P260", "P280", "P301+P330+P331", "P303+P361+P353", "P305+P351+P338", "P310"});
}

TEST_CASE("an oxidiser that corrodes says what each hazard needs, six statements") {
  const LabelElements calcium = elements_of({"H272", "H302", "H314", "H400", "EUH031"}, "clp", 65);
  CHECK(calcium.precautions ==
        Names{"P220", "P280", "P301+P330+P331", "P303+P361+P353", "P305+P351+P338", "P310"});
  CHECK(calcium.supplements == Names{"EUH031", "EUH206"});
}

TEST_CASE("the dihydrate of dichlor is no oxidiser and its anhydrous salt is one") {
  const LabelElements dihydrate = elements_of({"H302", "H335", "H319", "H410", "EUH031"});
  CHECK(dihydrate.precautions ==
        Names{"P261", "P273", "P280", "P301+P312", "P304+P340", "P305+P351+P338"});
  const LabelElements anhydrous = elements_of({"H272", "H302", "H335", "H319", "H410", "EUH031"});
  CHECK(anhydrous.precautions ==
        Names{"P220", "P261", "P273", "P280", "P301+P312", "P305+P351+P338"});
}

TEST_CASE("more than six precautionary statements are printed only where all are needed") {
  for (const LabelHazard& first : hazard_table().hazards) {
    for (const LabelHazard& second : hazard_table().hazards) {
      const LabelElements elements = elements_of({first.code, second.code});
      CAPTURE(first.code, second.code);
      CHECK(std::is_sorted(elements.precautions.begin(), elements.precautions.end()));
      CHECK(as_set(elements.precautions).size() == elements.precautions.size());
      int needed = 0;
      for (const std::string& code : elements.precautions) {
        const auto weight = [&code](const LabelHazard& hazard) {
          const auto found = hazard.precautions.find(code);
          return found == hazard.precautions.end() ? 9 : found->second;
        };
        if (std::min(weight(first), weight(second)) == 1) ++needed;
      }
      CHECK(elements.precautions.size() <= static_cast<std::size_t>(std::max(6, needed)));
    }
  }
}

TEST_CASE("no statement stands beside one that makes it unnecessary") {
  for (const LabelHazard& first : hazard_table().hazards) {
    for (const LabelHazard& second : hazard_table().hazards) {
      const std::set<std::string> printed =
          as_set(elements_of({first.code, second.code}).precautions);
      for (const PrecautionPrecedence& rule : hazard_table().precedence) {
        if (printed.count(rule.statement) == 0) continue;
        for (const std::string& dropped : rule.drops) {
          CAPTURE(first.code, second.code, rule.statement, dropped);
          CHECK(printed.count(dropped) == 0);
        }
      }
    }
  }
}

TEST_CASE("in the United States the environment is no part of the label") {
  const LabelElements elements = elements_of({"H302", "H410", "EUH031"}, "hazcom", 56);
  CHECK(elements.hazards == Names{"H302"});
  CHECK(elements.pictograms == Names{"GHS07"});
  CHECK(elements.supplements == Names{"EUH031"});
}

TEST_CASE("the warning not to mix stands on every chlorine product above one percent") {
  // Source: CLP Annex II 2.6
  CHECK(elements_of({"H319"}, "clp", 1.0).supplements.empty());
  CHECK(elements_of({"H319"}, "clp", 1.1).supplements == Names{"EUH206"});
}

TEST_CASE("a code that no label here can show is refused with the nearest") {
  const Diagnostic found = first_error([] { elements_of({"H341"}); });
  CHECK(found.message.find("the hazard statement H341 is not one that a label") == 0);
  CHECK(found.help.find("did you mean") == 0);
}

TEST_CASE("closures follow from the classes, as they were worked out for each product") {
  // Source: CLP Annex II 3.1.1 and 3.2.1 with the harmonised classes of the substances
  const auto needs = [](const Names& codes) { return closure_needs(codes, hazard_table()); };
  CHECK(needs({"H302", "H335", "H319", "H410"}) == ClosureNeeds{true, false});  // dichlor
  CHECK(needs({"H272", "H302", "H335", "H319"}) == ClosureNeeds{true, false});  // trichlor
  CHECK(needs({"H272", "H302", "H314", "H400"}) ==
        ClosureNeeds{true, true});                                       // calcium hypochlorite
  CHECK(needs({"H314", "H410"}) == ClosureNeeds{true, true});            // hypochlorite
  CHECK(needs({"H314", "H335"}) == ClosureNeeds{true, true});            // acid, 25 % and more
  CHECK(needs({"H315", "H319", "H335"}) == ClosureNeeds{false, false});  // acid, 10 to 25 %
  CHECK(needs({"H318"}) == ClosureNeeds{false, false});                  // dry acid
  CHECK(needs({"H319"}) == ClosureNeeds{false, false});  // soda ash, calcium chloride
}

TEST_CASE("up to 125 mL some statements may be left out, never the gravest") {
  // Source: CLP Annex I 1.5.2.1.1; the trade's further list
  const Names dichlor = {"H272", "H302", "H335", "H319", "H410"};
  const auto left_out = [](const Names& codes, double litres) {
    return may_be_left_out(codes, hazard_table(), label_rules("clp"), litres);
  };
  CHECK(left_out(dichlor, 0.125) == dichlor);
  CHECK(left_out(dichlor, 0.126).empty());
  CHECK(left_out({"H314", "H318", "H360FD"}, 0.1).empty());
  CHECK(may_be_left_out(dichlor, hazard_table(), label_rules("hazcom"), 0.1).empty());
}

}  // namespace
}  // namespace tub::labels
