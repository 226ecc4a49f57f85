#include "labels/statements.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "base/nearest.h"
#include "base/node.h"
#include "base/text.h"
#include "planning/tables/data_row.h"

namespace tub::labels {
namespace {

const Names statement_languages = {"en", "es", "fr", "de"};
const Names forms = {"dust", "vapour"};
const Names statement_fields = {"code", "form", "hazcom", "en", "es", "fr", "de"};
const Names parts = {"gloves", "clothing", "eyes", "face"};
const Names joints = {"before", "between", "last", "after"};
constexpr std::string_view protection_code = "P280";

std::string form_of(Form form) { return form == Form::liquid ? "vapour" : "dust"; }

[[noreturn]] void refuse(std::string message, std::string help) {
  throw Error(Diagnostic{.message = std::move(message),
                         .where = {},
                         .trace = {"writing a container label's statements"},
                         .help = std::move(help)});
}

}  // namespace

/// Reads the file's parts into the table.
class StatementReader {
 public:
  static LabelStatements read(const Node& root) {
    static const Names fields = {"_about",       "_source",    "_licence",
                                 "signal_words", "protection", "statements"};
    root.allow_only(fields);
    LabelStatements table;
    if (const auto words = root.require("signal_words")) {
      table.danger_ = texts(*words, "danger");
      table.warning_ = texts(*words, "warning");
    }
    if (const auto protection = root.require("protection")) {
      for (const Names& group : {parts, joints}) {
        for (const std::string& name : group) table.protection_[name] = texts(*protection, name);
      }
    }
    for (const Node& row : data_row::items(root, "statements")) add(row, table);
    return table;
  }

 private:
  static LabelStatements::Texts texts(const Node& row) {
    LabelStatements::Texts found;
    for (const std::string& language : statement_languages)
      found[language] = data_row::text(row, language);
    return found;
  }
  static LabelStatements::Texts texts(const Node& parent, std::string_view name) {
    const auto row = parent.require(name);
    return row ? texts(*row) : LabelStatements::Texts{};
  }
  static void add(const Node& row, LabelStatements& table) {
    row.allow_only(statement_fields);
    std::string key = data_row::text(row, "code");
    if (const auto form = row.find("form")) key += " " + form->one_of(forms).value_or("");
    LabelStatements::Texts found = texts(row);
    if (const auto american = row.find("hazcom")) found["hazcom"] = american->text().value_or("");
    if (!table.statements_.emplace(key, std::move(found)).second) {
      row.problem(fmt::format("the statement {} stands twice", key));
    }
  }
};

LabelStatements LabelStatements::parse(std::string_view text, const std::string& file) {
  Problems problems;
  LabelStatements table = StatementReader::read(Node::parse(text, file, problems));
  problems.throw_if_any();
  return table;
}

std::string LabelStatements::text(std::string_view code, const StatementVoice& voice) const {
  if (std::find(statement_languages.begin(), statement_languages.end(), voice.language) ==
      statement_languages.end()) {
    refuse(fmt::format("there are no statements in the language \"{}\"", voice.language),
           suggestion(voice.language, statement_languages));
  }
  if (code == protection_code) return protection_text(voice);
  auto found = statements_.find(std::string(code));
  if (found == statements_.end()) {
    found = statements_.find(fmt::format("{} {}", code, form_of(voice.form)));
  }
  if (found == statements_.end()) {
    refuse(fmt::format("there is no statement {}", code), suggestion(code, codes()));
  }
  const Texts& texts = found->second;
  const bool is_american = voice.law == StatementLaw::hazcom && voice.language == "en";
  const auto american = texts.find("hazcom");
  return is_american && american != texts.end() ? american->second : texts.at(voice.language);
}

std::string LabelStatements::protection_text(const StatementVoice& voice) const {
  if (voice.protection.empty()) {
    refuse("the statement P280 needs to know what to wear", "name the product's protection");
  }
  const auto word = [&](const std::string& name) {
    return protection_.at(name).at(voice.language);
  };
  std::string list;
  for (std::size_t i = 0; i < voice.protection.size(); ++i) {
    if (i > 0) list += word(i + 1 == voice.protection.size() ? "last" : "between");
    list += word(voice.protection[i]);
  }
  return word("before") + list + word("after");
}

std::string LabelStatements::signal_word(Product::Signal signal,
                                         const std::string& language) const {
  return (signal == Product::Signal::danger ? danger_ : warning_).at(language);
}

std::vector<std::string> LabelStatements::codes() const {
  Names all = {std::string(protection_code)};
  for (const auto& [key, texts] : statements_) {
    const std::string code = key.substr(0, key.find(' '));
    if (all.back() != code) all.push_back(code);
  }
  return all;
}

std::vector<std::string> protection_parts(std::span<const std::string> signs) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 5> table = {
      {{"gloves", "gloves"},
       {"acid_gloves", "gloves"},
       {"apron", "clothing"},
       {"goggles", "eyes"},
       {"face_shield", "face"}}};
  Names found;
  for (const auto& [sign, part] : table) {
    const bool is_worn = std::find(signs.begin(), signs.end(), sign) != signs.end();
    if (is_worn && std::find(found.begin(), found.end(), part) == found.end()) {
      found.emplace_back(part);
    }
  }
  return found;
}

}  // namespace tub::labels
