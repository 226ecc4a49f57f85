#include "sheets/cabinet/hazard_sheet_facts.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>
#include <vector>

#include "base/text.h"
#include "labels/package_hazards.h"
#include "sheets/cabinet/label_facts.h"
#include "sheets/card/plan_facts.h"
#include "sheets/template/wording.h"

namespace tub::sheets {
namespace {

using Kind = FactRow::Kind;

constexpr std::array name_rows = {FactRow{"name"}, FactRow{"number"}};
constexpr Shape name_list{name_rows};

constexpr std::array pair_rows = {FactRow{"word"}, FactRow{"is_deadly"}, FactRow{"is_harmful"},
                                  FactRow{"is_apart"}, FactRow{"is_none"}};
constexpr Shape pair_cell{pair_rows};

constexpr std::array row_rows = {FactRow{"name"}, FactRow{"number"},
                                 FactRow{"cells", Kind::list, &pair_cell}};
constexpr Shape pair_row{row_rows};

constexpr std::array pair_table_rows = {FactRow{"is_first"},
                                        FactRow{"columns", Kind::list, &name_list},
                                        FactRow{"rows", Kind::list, &pair_row}};
constexpr Shape pair_table{pair_table_rows};

constexpr std::array product_rows = {FactRow{"name"},
                                     FactRow{"number"},
                                     FactRow{"pictograms", Kind::list, &sign_list},
                                     FactRow{"signs", Kind::list, &sign_list},
                                     FactRow{"does"},
                                     FactRow{"spilled"}};
constexpr Shape product_row{product_rows};

constexpr std::array sheet_rows = {FactRow{"vessel_or_tub"},
                                   FactRow{"say_where"},
                                   FactRow{"volume"},
                                   FactRow{"prepared_for"},
                                   FactRow{"prepared_by"},
                                   FactRow{"shop"},
                                   FactRow{"phone"},
                                   FactRow{"phone_or_line"},
                                   FactRow{"emergency"},
                                   FactRow{"emergency_figure"},
                                   FactRow{"poison_centre"},
                                   FactRow{"date_or_line"},
                                   FactRow{"local_rules_first"},
                                   FactRow{"fingerprint"},
                                   FactRow{"version"},
                                   FactRow{"has_pairs"},
                                   FactRow{"pair_tables", Kind::list, &pair_table},
                                   FactRow{"products", Kind::list, &product_row},
                                   FactRow{"first_aid", Kind::list, &text_list}};
constexpr Shape sheet{sheet_rows};

/// How a spill is met, by what the product is. Common practice, and the advice of the shelf's
/// classes: oxidisers stay dry and apart, acids are rinsed.
std::string spill_of(const Product& product) {
  const bool is_liquid = product.form == Form::liquid;
  if (product.in_group("oxidiser")) return is_liquid ? "oxidiser_liquid" : "oxidiser";
  if (product.in_group("acid")) return is_liquid ? "acid_liquid" : "acid";
  return is_liquid ? "liquid" : "dry";
}

/// Columns of a table of pairs that leave room for their names on A4.
constexpr std::size_t most_columns = 6;

/// Statements that send to a poison centre or a doctor; the first is printed for all.
struct Call {
  std::vector<std::string> statements;
  bool is_dropped_by_former = true;  ///< for products that a more urgent one has named
};

/// The most urgent first. Statements about complaints that last are left to the products' labels.
/// Source: CLP Annex I, tables of label elements, and the precedence of P310, P311 and P312, by way
/// of label_hazards.json
const std::vector<Call> calls = {
    {{"P310", "P301+P310"}}, {{"P311", "P342+P311"}}, {{"P312"}}, {{"P308+P313"}, false}};

class HazardSheetMaker {
 public:
  HazardSheetMaker(const SheetSources& sources, const Messages& messages)
      : sources_(sources), messages_(messages), wording_(sources, messages) {}

  /// Every two products once, in as many tables as keep the names over their columns readable.
  void add_pairs(Facts& facts) const {
    const std::size_t columns = std::max<std::size_t>(sources_.shelf.size(), 1) - 1;
    set_mark(facts, "has_pairs", columns > 0);
    const std::size_t tables = (columns + most_columns - 1) / most_columns;
    for (std::size_t i = 0; i < tables; ++i) {
      facts.add("pair_tables", table_of_pairs(columns * i / tables, columns * (i + 1) / tables));
    }
  }

  Facts product(const ShelfItem& item, std::size_t place) const {
    const Product& product = item.product;
    Facts facts(hazard_product_shape());
    facts.set("name", wording_.product_name(product.id));
    facts.set("number", number_of(place));
    for (const std::string& code : pictograms_of(product)) {
      Facts sign(sign_list);
      sign.set("sign", std::string(pictogram_for(code)));
      sign.set("alt", messages_.words("pictogram." + code));
      facts.add("pictograms", std::move(sign));
    }
    for (const std::string& name : product.protection) {
      Facts sign(sign_list);
      sign.set("sign", name == "acid_gloves" ? std::string("gloves") : name);
      sign.set("alt", messages_.words(fmt::format("protection.{}.alt", name)));
      facts.add("signs", std::move(sign));
    }
    facts.set("does", does(product));
    facts.set("spilled", messages_.words("hazards.spill." + spill_of(product)));
    return facts;
  }

  /// The statements of the shelf's worst product for each way in, then whom to call, and for which
  /// products.
  void add_first_aid(Facts& facts) const {
    const bool burns = needs_any("P303+P361+P353");
    for (const char* const code :
         {"P305+P351+P338", burns ? "P303+P361+P353" : "P302+P352", swallowed(), "P304+P340"}) {
      add_line(facts, plain(statement(code, Form::granules)));
    }
    std::vector<std::string> named;
    for (const Call& call : calls) {
      const Words products = products_to_call_for(call, named);
      if (products.empty()) continue;
      add_line(facts, messages_.words(
                          "hazards.call_for",
                          {{"products", products},
                           {"statement", statement(call.statements.front(), Form::granules)}}));
    }
  }

 private:
  /// A product's number on this sheet, from 1.
  static std::string number_of(std::size_t place) { return std::to_string(place + 1); }

  /// The products of these columns against all that come after them.
  Facts table_of_pairs(std::size_t first, std::size_t end) const {
    const auto& shelf = sources_.shelf;
    Facts table(pair_table);
    set_mark(table, "is_first", first == 0);
    for (std::size_t column = first; column < end; ++column) {
      Facts head(name_list);
      head.set("name",
               messages_.words("hazards.column",
                               {{"name", wording_.product_name(shelf[column].product.id)}}));
      head.set("number", number_of(column));
      table.add("columns", std::move(head));
    }
    for (std::size_t row = first + 1; row < shelf.size(); ++row) {
      Facts line(hazard_row_shape());
      line.set("name", wording_.product_name(shelf[row].product.id));
      line.set("number", number_of(row));
      for (std::size_t column = first; column < end; ++column) {
        line.add("cells", pair(shelf[row].product.id, shelf[column].product.id, column < row));
      }
      table.add("rows", std::move(line));
    }
    return table;
  }

  Facts pair(const std::string& one, const std::string& other, bool is_shown) const {
    Facts cell(hazard_pair_shape());
    set_mark(cell, "is_none", !is_shown);
    if (!is_shown) return cell;
    // The pairs of a plan come the worst first.
    for (const HazardPair& found : sources_.plan.hazards) {
      const bool is_it = (found.first == one && found.second == other) ||
                         (found.first == other && found.second == one);
      if (!is_it) continue;
      cell.set("word", messages_.words("hazards.pair." + found.code));
      set_mark(cell, found.severity == "deadly" ? "is_deadly" : "is_harmful", true);
      return cell;
    }
    cell.set("word", messages_.words("hazards.apart"));
    set_mark(cell, "is_apart", true);
    return cell;
  }

  /// The law's words; the annex spells "center" in one statement and "centre" in the next, a sheet
  /// spells it one way.
  std::string statement(const std::string& code, Form form) const {
    const std::string words =
        sources_.labels->statements.text(code, {messages_.language(), StatementLaw::clp, form, {}});
    const std::string spelling = messages_.text("poison_centre.in_statements");
    return replaced(replaced(words, "POISON CENTRE", "POISON CENTER"), "POISON CENTER", spelling);
  }

  Words does(const Product& product) const {
    std::string all;
    const std::vector<std::string> known = sources_.labels->statements.codes();
    for (const std::string& code : product.hazard_statements) {
      // A statement that names another substance has no words here: its code stands for it.
      const bool has_words = std::find(known.begin(), known.end(), code) != known.end();
      all += (all.empty() ? "" : " ") + (has_words ? statement(code, product.form) : code + ".");
    }
    if (!all.empty()) return plain(std::move(all));
    // What is in a product without known parts, only its own label says.
    return messages_.words(product.parts.empty() ? "hazards.see_label" : "hazards.no_class");
  }

  /// Those that follow from its statements; its row's where one of them is in no table.
  std::vector<std::string> pictograms_of(const Product& product) const {
    try {
      return label_elements(product.hazard_statements, sources_.labels->hazards,
                            label_rules_named(sources_.labels->rules, "clp"), 0)
          .pictograms;
    } catch (const Error&) {
      return product.pictograms;
    }
  }

  /// Whether a product's classes ask for a precautionary statement.
  bool needs(const Product& product, const std::string& precaution) const {
    return std::any_of(product.hazard_statements.begin(), product.hazard_statements.end(),
                       [&](const std::string& code) {
                         const LabelHazard* const hazard = sources_.labels->hazards.find(code);
                         return hazard != nullptr && hazard->precautions.contains(precaution);
                       });
  }

  bool needs_any(const std::string& precaution) const {
    return std::any_of(sources_.shelf.begin(), sources_.shelf.end(),
                       [&](const ShelfItem& item) { return needs(item.product, precaution); });
  }

  const char* swallowed() const {
    if (needs_any("P301+P330+P331")) return "P301+P330+P331";
    return needs_any("P301+P310") ? "P301+P310" : "P301+P312";
  }

  /// The names of those that ask for a call, and are not among `named`; they are, afterwards.
  Words products_to_call_for(const Call& call, std::vector<std::string>& named) const {
    Words names;
    for (const ShelfItem& item : sources_.shelf) {
      const std::string& id = item.product.id;
      const bool is_asked =
          std::any_of(call.statements.begin(), call.statements.end(),
                      [&](const std::string& code) { return needs(item.product, code); });
      const bool is_named = std::find(named.begin(), named.end(), id) != named.end();
      if (!is_asked || (is_named && call.is_dropped_by_former)) continue;
      named.push_back(id);
      names = names.empty()
                  ? plain(wording_.product_name(id))
                  : messages_.words("list.comma",
                                    {{"first", names}, {"second", wording_.product_in_text(id)}});
    }
    return names;
  }

  static void add_line(Facts& facts, Words words) {
    Facts line(text_list);
    line.set("text", std::move(words));
    facts.add("first_aid", std::move(line));
  }

  const SheetSources& sources_;
  const Messages& messages_;
  Wording wording_;
};

}  // namespace

const Shape& hazard_sheet_shape() { return sheet; }
const Shape& hazard_product_shape() { return product_row; }
const Shape& hazard_row_shape() { return pair_row; }
const Shape& hazard_pair_shape() { return pair_cell; }

FactSets hazard_sheet_facts(const SheetSources& sources, const Messages& messages,
                            const FactRequest&) {
  const HazardSheetMaker maker(sources, messages);
  Facts facts(hazard_sheet_shape());
  const Facts plan = plan_facts(sources, messages);
  copy_common(plan, facts);
  facts.set("say_where",
            plan.is_present("vessel")
                ? messages.words("hazards.say_where", {{"vessel", plan.words("vessel")}})
                : messages.words("hazards.say_where_line"));
  maker.add_pairs(facts);
  for (std::size_t i = 0; i < sources.shelf.size(); ++i) {
    facts.add("products", maker.product(sources.shelf[i], i));
  }
  maker.add_first_aid(facts);
  return {{std::move(facts)}, {}};
}

}  // namespace tub::sheets
