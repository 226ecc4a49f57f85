#include "sheets/cabinet/container_facts.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "base/nearest.h"
#include "base/text.h"
#include "labels/package_hazards.h"
#include "sheets/cabinet/label_facts.h"
#include "sheets/card/plan_facts.h"
#include "sheets/template/wording.h"

namespace tub::sheets {
namespace {

using Kind = FactRow::Kind;

constexpr std::array voice_rows = {FactRow{"name"}, FactRow{"signal"},
                                   FactRow{"hazards", Kind::list, &text_list},
                                   FactRow{"precautions"}};
constexpr Shape voice{voice_rows};

constexpr std::array container_rows = {FactRow{"product_id"},
                                       FactRow{"product"},
                                       FactRow{"contents"},
                                       FactRow{"identity"},
                                       FactRow{"supplier"},
                                       FactRow{"emergency"},
                                       FactRow{"lot"},
                                       FactRow{"made_on"},
                                       FactRow{"use_by"},
                                       FactRow{"ufi"},
                                       FactRow{"authorisation"},
                                       FactRow{"stays"},
                                       FactRow{"not_classified"},
                                       FactRow{"shop"},
                                       FactRow{"fingerprint"},
                                       FactRow{"version"},
                                       FactRow{"side_mm", Kind::number},
                                       FactRow{"litres", Kind::number},
                                       FactRow{"pictograms", Kind::list, &sign_list},
                                       FactRow{"voices", Kind::list, &voice},
                                       FactRow{"checks", Kind::list, &text_list}};
constexpr Shape container{container_rows};

constexpr double ml_a_litre = 1000;
constexpr double small_contents = 1000;

/// One label: elements by the rules, words by the languages.
class ContainerMaker {
 public:
  ContainerMaker(const SheetSources& sources, const LabelRules& rules, const Messages& messages,
                 const FactRequest& request)
      : sources_(sources),
        tables_(*sources.labels),
        rules_(rules),
        messages_(messages),
        request_(request),
        wording_(sources, messages) {}

  Facts make(const Facts& plan, const Package& package, const ShelfItem& item,
             std::vector<Diagnostic>& warnings) const {
    const std::vector<std::string> codes =
        codes_of(item, package.has_own_statements, package.has_own_strength, tables_);
    const LabelElements elements =
        label_elements(codes, tables_.hazards, rules_, active_chlorine_percent(item.product));
    Facts facts(container_shape());
    copy_common(plan, facts);
    set_identity(facts, package, item);
    set_lines(facts, package);
    set_signs(facts, package, elements);
    facts.add("voices", voice_facts(messages_, item, elements));
    for (const Messages* const more : request_.more_languages) {
      facts.add("voices", voice_facts(*more, item, elements));
    }
    const bool has_hazards = !elements.hazards.empty() || !elements.supplements.empty();
    if (!has_hazards) facts.set("not_classified", messages_.words("container.not_classified"));
    add_checks(facts, package, item, codes, warnings);
    return facts;
  }

 private:
  void set_identity(Facts& facts, const Package& package, const ShelfItem& item) const {
    const std::string& maker = package.maker_label_name;
    facts.set("product_id", item.product.id);
    facts.set("product", maker.empty() ? wording_.product_name(item.product.id) : typeset(maker));
    facts.set("contents", contents_text(package));
    const std::string substance =
        messages_.text(fmt::format("product.{}.substance", item.product.id));
    std::string numbers;
    for (const ClassifiedSubstance& row : tables_.substances) {
      if (row.product != item.product.id) continue;
      numbers = messages_.text("container.numbers", {{"ec", row.ec}, {"cas", row.cas}});
    }
    std::string all = substance;
    if (package.has_own_strength && !item.product.strengths.empty()) {
      const auto& basis = item.product.strengths.front().name;
      all = messages_.text("list.comma", {{"first", all}, {"second", strength_text(item, basis)}});
    }
    if (!numbers.empty()) {
      all = messages_.text("list.comma", {{"first", all}, {"second", numbers}});
    }
    facts.set("identity", std::move(all));
  }

  std::string strength_text(const ShelfItem& item, const std::string& basis) const {
    return number_text(item.product.strength, {0, 2}, messages_.numbers()) + "\u202F" +
           replaced(basis, " ", "\u00A0");
  }

  std::string contents_text(const Package& package) const {
    const bool is_volume = package.contents_ml.has_value();
    const double amount = is_volume ? *package.contents_ml : package.contents_g.value_or(0);
    const bool is_small = amount < small_contents;
    const char* const unit =
        is_volume ? (is_small ? "unit.ml" : "unit.litre") : (is_small ? "unit.g" : "unit.kg");
    const double shown = is_small ? amount : amount / small_contents;
    return messages_.text(unit, {{"n", number_text(shown, {0, 3}, messages_.numbers())}});
  }

  void set_lines(Facts& facts, const Package& package) const {
    facts.set("supplier", supplier_words(package));
    const std::string phone = unbroken(package.emergency_phone);
    facts.set("emergency", phone.empty()
                               ? messages_.words("container.emergency_services",
                                                 {{"emergency", wording_.emergency()}})
                               : messages_.words("container.emergency", {{"phone", phone}}));
    const auto line = [&](const std::string& value) {
      return value.empty() ? messages_.words("container.blank") : plain(value);
    };
    const auto day = [&](const std::optional<CalendarDate>& date) {
      return line(date ? messages_.date(*date) : "");
    };
    facts.set("lot", messages_.words("container.lot", {{"value", line(typeset(package.lot))}}));
    facts.set("made_on", messages_.words("container.made_on", {{"value", day(package.made_on)}}));
    facts.set("use_by", messages_.words("container.use_by", {{"value", day(package.use_by)}}));
    if (!package.ufi.empty()) {
      facts.set("ufi", messages_.words("container.ufi", {{"value", package.ufi}}));
    }
    if (!package.authorisation.empty()) {
      facts.set("authorisation",
                messages_.words("container.authorisation", {{"value", package.authorisation}}));
    }
    if (package.stays == Package::Stays::with_owner) return;
    const bool is_trade = package.stays == Package::Stays::in_trade;
    facts.set("stays", messages_.words(is_trade ? "container.trade" : "container.workplace"));
  }

  Words supplier_words(const Package& package) const {
    const auto part = [&](const char* name) {
      const auto found = package.supplier.find(name);
      return found == package.supplier.end() ? std::string() : typeset(found->second);
    };
    return messages_.words(
        "container.supplier",
        {{"name", part("name")}, {"address", part("address")}, {"phone", unbroken(part("phone"))}});
  }

  void set_signs(Facts& facts, const Package& package, const LabelElements& elements) const {
    for (const std::string& code : elements.pictograms) {
      Facts sign(sign_list);
      sign.set("sign", std::string(pictogram_for(code)));
      sign.set("alt", messages_.words("pictogram." + code));
      facts.add("pictograms", std::move(sign));
    }
    const double litres = package.capacity_ml / ml_a_litre;
    facts.set("litres", litres);
    const LabelSize& size = rules_.size_for(litres);
    if (!size.pictogram_preferred_mm) facts.set("side_mm", size.pictogram_mm);
  }

  Facts voice_facts(const Messages& messages, const ShelfItem& item,
                    const LabelElements& elements) const {
    const std::string& language = messages.language();
    const StatementVoice how = {language,
                                rules_.id == "hazcom" ? StatementLaw::hazcom : StatementLaw::clp,
                                item.product.form, protection_parts(item.product.protection)};
    const auto in_language = [&](std::string text) {
      Words words = plain(std::move(text));
      if (language != messages_.language()) words.language = language;
      return words;
    };
    Facts facts(container_voice_shape());
    if (language != messages_.language()) {
      facts.set("name", in_language(messages.text("product." + item.product.id + ".name")));
    }
    if (elements.signal != Product::Signal::none) {
      facts.set("signal", in_language(tables_.statements.signal_word(elements.signal, language)));
    }
    for (const auto* const codes : {&elements.hazards, &elements.supplements}) {
      for (const std::string& code : *codes) {
        Facts line(text_list);
        line.set("text", in_language(tables_.statements.text(code, how)));
        facts.add("hazards", std::move(line));
      }
    }
    std::string precautions;
    for (const std::string& code : elements.precautions) {
      precautions += (precautions.empty() ? "" : " ") + tables_.statements.text(code, how);
    }
    facts.set("precautions", in_language(std::move(precautions)));
    return facts;
  }

  void add_checks(Facts& facts, const Package& package, const ShelfItem& item,
                  const std::vector<std::string>& codes, std::vector<Diagnostic>& warnings) const {
    const bool is_for_public = package.stays == Package::Stays::with_owner;
    const ClosureNeeds needs = closure_needs(codes, tables_.hazards);
    const bool gives_off_gas =
        item.product.form == Form::liquid && item.product.in_group("chlorine");
    std::vector<std::string> asked;
    std::string english;
    const auto ask = [&](bool is_needed, const char* name, const char* words) {
      if (!is_needed) return;
      Facts line(text_list);
      line.set("text", messages_.words(fmt::format("container.check.{}", name)));
      facts.add("checks", std::move(line));
      english += (english.empty() ? "" : ", ") + std::string(words);
    };
    ask(is_for_public && needs.child_resistant, "child_resistant", "a child-resistant closure");
    ask(is_for_public && needs.tactile_mark, "tactile_mark", "a tactile mark");
    ask(gives_off_gas, "vented_cap", "a vented cap");
    if (!english.empty()) {
      warnings.push_back(
          {fmt::format("{} may leave the shop only with {}", package.product, english),
           package.where,
           {},
           "look at the container before it is handed over"});
    }
    warn_of_ufi(package, item, codes, warnings);
  }

  // Source: CLP Article 29(4a) and Annex VIII: hazardous mixtures carry a UFI, substances none.
  void warn_of_ufi(const Package& package, const ShelfItem& item,
                   const std::vector<std::string>& codes, std::vector<Diagnostic>& warnings) const {
    const bool is_mixture = item.product.form == Form::liquid || item.product.parts.empty();
    const bool is_placed = package.stays != Package::Stays::in_workplace;
    if (rules_.id != "clp" || !package.ufi.empty() || codes.empty()) return;
    if (!is_mixture || !is_placed) return;
    warnings.push_back(
        {fmt::format("{} is a hazardous mixture, and its label shows no UFI", package.product),
         package.where,
         {},
         "add \"ufi\" as its supplier was given it; none can be made up"});
  }

  const SheetSources& sources_;
  const LabelTables& tables_;
  const LabelRules& rules_;
  const Messages& messages_;
  const FactRequest& request_;
  Wording wording_;
};

void refuse_owner(const Package& package, const Product& product, Problems& problems) {
  if (package.stays != Package::Stays::with_owner || !product.in_group("sanitizer")) return;
  problems.add(
      {fmt::format("{} is a sanitizer, and a container label is no label for an owner's package: "
                   "registered and authorised products are not re-labelled",
                   product.id),
       package.where,
       {},
       "leave it in its maker's package and print a dose_tag; for a container that stays in the "
       "trade or the workplace add \"stays_in\": \"trade\" or \"workplace\""});
}

void refuse_supplier(const Package& package, const LabelRules& rules, Problems& problems) {
  const std::vector<std::string> missing = missing_of_supplier(package.supplier, rules);
  if (missing.empty()) return;
  problems.add({fmt::format("the rules {} ask for the supplier's name, address and phone, and {} "
                            "is missing",
                            rules.id, fmt::join(missing, " and ")),
                package.supplier_where,
                {},
                "give it in heading.prepared_by of the shop's file, or as the product's supplier"});
}

void refuse_languages(const LabelRules& rules, const Messages& messages, const FactRequest& request,
                      Problems& problems) {
  for (const std::string& needed : rules.languages) {
    const bool is_there =
        messages.language() == needed ||
        std::any_of(request.more_languages.begin(), request.more_languages.end(),
                    [&](const Messages* more) { return more->language() == needed; });
    if (is_there) continue;
    problems.add(
        {fmt::format("the rules {} ask for a label in \"{}\", and this one is in \"{}\"", rules.id,
                     needed, messages.language()),
         {},
         {},
         fmt::format("add it: \"language\": [ \"{}\", \"{}\" ]", needed, messages.language())});
  }
}

std::vector<Package> wanted_packages(const SheetSources& sources, const FactRequest& request) {
  std::vector<Package> wanted;
  std::vector<std::string> known;
  for (const Package& package : sources.packages) {
    known.push_back(package.product);
    if (request.product.empty() || package.product == request.product) wanted.push_back(package);
  }
  if (!wanted.empty()) return wanted;
  const std::string help =
      "say what the container holds: { \"product\": \"dry_acid\", \"package\": \"500 g\" }";
  if (known.empty() || request.product.empty()) {
    throw Error(
        Diagnostic{"no product on the shelf has a package, so there is no container to "
                   "label",
                   "/shelf",
                   {},
                   help});
  }
  throw Error(Diagnostic{fmt::format("there is no package of {} on the shelf", request.product),
                         "/shelf",
                         {},
                         fmt::format("{}; {}", suggestion(request.product, known), help)});
}

}  // namespace

const Shape& container_shape() { return container; }
const Shape& container_voice_shape() { return voice; }

FactSets container_facts(const SheetSources& sources, const Messages& messages,
                         const FactRequest& request) {
  const LabelRules& rules = label_rules_named(sources.labels->rules, sources.rules);
  const std::vector<Package> packages = wanted_packages(sources, request);
  const ContainerMaker maker(sources, rules, messages, request);
  const Facts plan = plan_facts(sources, messages);
  FactSets labels;
  Problems problems;
  refuse_languages(rules, messages, request, problems);
  for (const Package& package : packages) {
    const ShelfItem item{package.as_labelled, {}, {}};
    refuse_owner(package, item.product, problems);
    refuse_supplier(package, rules, problems);
    try {
      labels.value.push_back(maker.make(plan, package, item, labels.warnings));
    } catch (const Error& error) {
      for (Diagnostic found : error.diagnostics()) {
        if (found.where.empty()) found.where = package.where;
        problems.add(std::move(found));
      }
    }
  }
  problems.throw_if_any();
  return labels;
}

}  // namespace tub::sheets
