// The harmonised blocks, field by field, and what a package's strength makes of them.
#include "labels/classified_substances.h"

#include <catch2/catch.hpp>

#include "base/text.h"
#include "label_data.h"

namespace tub::labels {
namespace {

/// A limit as Annex VI prints it: "Skin Irrit. 2; H315: 10.0% ≤ C < 25.0%".
std::string printed(const ConcentrationLimit& limit) {
  const std::string what =
      limit.hazard_class.empty() ? limit.code : limit.hazard_class + "; " + limit.code;
  const std::string from = fixed(limit.from_percent, 1) + "%";
  if (!limit.below_percent) return what + ": C ≥ " + from;
  return what + ": " + from + " ≤ C < " + fixed(*limit.below_percent, 1) + "%";
}

/// The column of limits and factors, which the reference holds as printed, without its stars.
Names limits_of(const ClassifiedSubstance& substance) {
  Names texts;
  for (const ConcentrationLimit& limit : substance.limits) texts.push_back(printed(limit));
  for (const int factor : substance.m_factors) texts.push_back("M = " + std::to_string(factor));
  return texts;
}

/// The same column of the reference: "; " joins class and code, ';' separates entries.
Names reference_limits(const std::string& column) {
  Names texts;
  Names factors;
  for (const std::string& part : names_in(column)) {
    const std::string text = replaced(part, " ****", "");
    if (text == "*") continue;
    if (text.substr(0, 3) == "M =") {
      factors.push_back(text);
    } else if (!text.empty() && text.front() == ' ') {
      texts.back() += ";" + text;
    } else {
      texts.push_back(text);
    }
  }
  texts.insert(texts.end(), factors.begin(), factors.end());
  return texts;
}

/// The same for names, which may hold "; ".
std::string entry_class(const HarmonisedClass& row) { return row.hazard_class + "=" + row.code; }

TEST_CASE("every harmonised block is the table's, field by field") {
  const auto rows = reference_rows("substances.tsv", '\t');
  REQUIRE(rows.size() == 26);
  REQUIRE(classified_substances().size() == 26);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const ClassifiedSubstance& substance = classified_substances()[i];
    const Names& row = rows[i];
    CAPTURE(row.at(0));
    CHECK(substance.id == row.at(0));
    CHECK(substance.cas == row.at(1));
    CHECK(substance.ec == row.at(2));
    CHECK(substance.index_no == row.at(3));
    CHECK(substance.index_name == row.at(4));
    Names classes;
    for (const HarmonisedClass& item : substance.classification) {
      classes.push_back(entry_class(item));
    }
    CHECK(classes == names_in(row.at(5)));
    CHECK(substance.supplements == names_in(row.at(9)));
    CHECK(limits_of(substance) == reference_limits(row.at(10)));
    CHECK(substance.notes == names_in(row.at(11)));
  }
}

Names codes_of(const std::string& product, std::optional<PackageStrength> strength = {}) {
  return harmonised_codes(classified_substances(), product, strength);
}

PackageStrength acid(double percent) { return {percent, "% w/w as HCl", percent}; }

TEST_CASE("an acid's statements are those of its strength") {
  // Source: CLP Annex VI, index 017-002-01-X, specific concentration limits
  CHECK(codes_of("muriatic_acid", acid(31.45)) == Names{"H314", "H335"});
  CHECK(codes_of("muriatic_acid", acid(25)) == Names{"H314", "H335"});
  CHECK(codes_of("muriatic_acid", acid(24.9)) == Names{"H315", "H319", "H335"});
  CHECK(codes_of("muriatic_acid", acid(10)) == Names{"H315", "H319", "H335"});
}

TEST_CASE("a strength of which the entry says nothing is refused, never guessed") {
  CHECK(first_error([] { codes_of("muriatic_acid", acid(8)); }).message ==
        "the harmonised entry of hydrochloric acid says nothing of 8 %");
  CHECK(first_error([] { codes_of("muriatic_acid"); }).message ==
        "muriatic_acid is a solution, and its strength is not given");
  const Diagnostic bleach = first_error([] {
    codes_of("sodium_hypochlorite", PackageStrength{12.5, "g/100 mL as Cl2", 11.2});
  });
  CHECK(bleach.message ==
        "the harmonised entry of sodium hypochlorite solution does not say from which strength "
        "H314 holds");
  CHECK(bleach.help.find("\"hazard_statements\"") != std::string::npos);
}

TEST_CASE("a product without a harmonised entry is refused, never guessed") {
  for (const char* const product :
       {"peroxymonosulfate", "bromine_tablets", "sodium_bromide", "sequestrant"}) {
    CHECK(first_error([&] {
            codes_of(product);
          }).message.find("has no harmonised classification") != std::string::npos);
  }
}

TEST_CASE("a diluted powder is a mixture, a commercial grade is the substance") {
  CHECK(codes_of("dichlor_dihydrate") == Names{"H302", "H335", "H319", "H400", "H410", "EUH031"});
  CHECK(codes_of("dichlor_dihydrate", PackageStrength{56, "% w/w as Cl2", 101}) ==
        codes_of("dichlor_dihydrate"));
  CHECK(first_error([] {
          codes_of("dichlor_dihydrate", PackageStrength{40, "% w/w as Cl2", 72});
        }).message.find("is a mixture") != std::string::npos);
  CHECK(codes_of("dry_acid", PackageStrength{93, "% w/w as NaHSO4", 93}) == Names{"H318"});
  CHECK(first_error([] {
          codes_of("dry_acid", PackageStrength{60, "% w/w as NaHSO4", 60});
        }).message.find("sodium bisulfate of 60 % w/w as NaHSO4 is a mixture") == 0);
}

TEST_CASE("the dihydrate of calcium chloride shares the entry of its salt") {
  CHECK(codes_of("calcium_chloride_dihydrate") == Names{"H319"});
}

}  // namespace
}  // namespace tub::labels
