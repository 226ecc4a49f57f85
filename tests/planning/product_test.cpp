// Products: what their rows say, and what a label's strength makes of them.
#include "planning/tables/product.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <set>

#include "base/text.h"
#include "chemistry/species_table.h"
#include "data_files.h"
#include "project_text.h"

namespace {

using tub::Error;
using tub::planning::Product;
using tub::planning::with_strength;

constexpr double cl2_molar_mass = 70.9;

std::vector<Product> all_products() {
  return tub::planning::parse_products(tub::project_text("src/planning/data/products.json"),
                                       "products.json");
}

Product product(const std::string& id) {
  for (const Product& row : all_products()) {
    if (row.id == id) return row;
  }
  FAIL("no product " + id);
  return {};
}

double number(const std::string& text) { return *tub::to_number(text); }

double fraction_of(const Product& row, const std::string& formula) {
  for (const Product::Part& part : row.parts) {
    if (part.formula == formula) return part.mass_fraction;
  }
  return 0;
}

std::string complaint(const std::string& id, double strength, const std::string& basis) {
  try {
    with_strength(product(id), strength, basis);
    return "";
  } catch (const Error& error) {
    return error.what();
  }
}

}  // namespace

TEST_CASE("every generic chemical that a job may name has a row") {
  // Source: the identifiers that the job format promises.
  const std::vector<std::string> promised = {"sodium_bicarbonate",
                                             "soda_ash",
                                             "dry_acid",
                                             "muriatic_acid",
                                             "calcium_chloride_dihydrate",
                                             "calcium_chloride_anhydrous",
                                             "dichlor_dihydrate",
                                             "dichlor_anhydrous",
                                             "trichlor",
                                             "sodium_hypochlorite",
                                             "calcium_hypochlorite",
                                             "sodium_bromide",
                                             "bromine_tablets",
                                             "peroxymonosulfate",
                                             "sequestrant",
                                             "cyanuric_acid",
                                             "borax",
                                             "boric_acid"};
  std::set<std::string> found;
  for (const Product& row : all_products()) found.insert(row.id);
  for (const std::string& id : promised) CHECK(found.count(id) == 1);
}

TEST_CASE("molar masses and hazard codes of products are those of the substances") {
  for (const auto& row : tub::planning::testing::reference_rows("substances.csv")) {
    const Product found = product(row.at("product"));
    INFO(found.id);
    CHECK(found.parts.front().formula == row.at("formula"));
    CHECK(found.parts.front().molar_mass == Approx(number(row.at("molar_mass"))).margin(5e-4));
    if (row.at("h_statements").empty()) continue;
    auto codes = tub::split(row.at("h_statements"), ' ');
    std::sort(codes.begin(), codes.end());
    auto ours = found.hazard_statements;
    std::sort(ours.begin(), ours.end());
    CHECK(ours == codes);
  }
}

TEST_CASE("a strength as chlorine counts what the formula can give") {
  for (const auto& row : tub::planning::testing::reference_rows("substances.csv")) {
    if (row.at("available_chlorine_percent").empty()) continue;
    const Product found = product(row.at("product"));
    for (const Product::StrengthBasis& basis : found.strengths) {
      if (basis.name.find("as Cl2") == std::string::npos) continue;
      INFO(found.id << " " << basis.name);
      CHECK(basis.per_mass_fraction ==
            Approx(number(row.at("available_chlorine_percent"))).margin(0.005));
    }
  }
}

TEST_CASE("no gram of product holds more than a gram") {
  for (const Product& row : all_products()) {
    for (const Product::StrengthBasis& basis : row.strengths) {
      for (const double share : {0.25, 0.5, 1.0}) {
        const Product labelled = with_strength(row, share * basis.most, basis.name);
        double sum = 0;
        for (const Product::Part& part : labelled.parts) {
          CHECK(part.mass_fraction >= 0);
          sum += part.mass_fraction;
        }
        INFO(row.id << " " << share * basis.most << " " << basis.name);
        CHECK(sum <= 1 + 1e-9);
      }
    }
  }
}

TEST_CASE("a hydrate labelled above the pure hydrate has lost water") {
  // 77 % CaCl2: x of the dihydrate (75.49 %) and 1 - x of the anhydrous (100 %).
  const Product flake = with_strength(product("calcium_chloride_dihydrate"), 77, "% w/w as CaCl2");
  const double dihydrate = fraction_of(flake, "CaCl2:2H2O");
  CHECK(dihydrate + fraction_of(flake, "CaCl2") == Approx(1));
  CHECK(dihydrate * 110.978 / 147.008 + fraction_of(flake, "CaCl2") == Approx(0.77));
  const Product dichlor = with_strength(product("dichlor_dihydrate"), 56, "% w/w as Cl2");
  CHECK(2 * cl2_molar_mass *
            (fraction_of(dichlor, "NaCl2Cy:2H2O") / 255.971 +
             fraction_of(dichlor, "NaCl2Cy") / 219.941) ==
        Approx(0.56));
  // Asked again with a weaker label, the water is back.
  const Product weak = with_strength(dichlor, 55, "% w/w as Cl2");
  CHECK(weak.parts.size() == 1);
  CHECK(fraction_of(weak, "NaCl2Cy:2H2O") == Approx(0.55 * 255.971 / (2 * cl2_molar_mass)));
}

TEST_CASE("the trade per cent of hypochlorite is grams of chlorine in 100 mL") {
  // 12.5 g Cl2 in 100 mL of 1.17 g/mL: 10.68 % w/w as Cl2, times 1.0499 as NaOCl.
  // Source: definitions of trade per cent; density from memory.
  const Product bleach = with_strength(product("sodium_hypochlorite"), 12.5, "g/100 mL as Cl2");
  CHECK(*bleach.density_g_ml == Approx(1.17));
  CHECK(fraction_of(bleach, "NaOCl") == Approx(0.125 / 1.17 * 1.0499).epsilon(1e-4));
  CHECK(fraction_of(bleach, "NaCl") / 58.44 == Approx(fraction_of(bleach, "NaOCl") / 74.439));
  CHECK(fraction_of(bleach, "NaOH") > 0);
  const Product same = with_strength(bleach, 12.5 / 1.17, "% w/w as Cl2");
  CHECK(same.strength == Approx(12.5));
  CHECK(fraction_of(same, "NaOCl") == Approx(fraction_of(bleach, "NaOCl")));
}

TEST_CASE("doses agree with the exact figures of the operators' rules") {
  // Source: exact stoichiometry beside handbook rules, grams per 1000 L for 1 mg/L.
  const auto grams_per_mg_l = [](const Product& row) {
    double cl2 = 0;
    for (const Product::Part& part : row.parts) {
      const double moles = part.formula == "Ca(OCl)2" || part.formula.find("Cl2Cy") == 2 ? 2
                           : part.formula == "Cl3Cy"                                     ? 3
                                                                                         : 0;
      cl2 += moles * cl2_molar_mass * part.mass_fraction / part.molar_mass;
    }
    return 1 / cl2;
  };
  const std::string as_cl2 = "% w/w as Cl2";
  CHECK(grams_per_mg_l(with_strength(product("calcium_hypochlorite"), 65, as_cl2)) ==
        Approx(1.53847).epsilon(1e-4));
  CHECK(grams_per_mg_l(with_strength(product("dichlor_dihydrate"), 56, as_cl2)) ==
        Approx(1.78572).epsilon(1e-4));
  CHECK(grams_per_mg_l(with_strength(product("dichlor_anhydrous"), 62, as_cl2)) ==
        Approx(1.61291).epsilon(1e-4));
  CHECK(grams_per_mg_l(with_strength(product("trichlor"), 90, as_cl2)) ==
        Approx(1.11111).epsilon(1e-4));
}

TEST_CASE("31.45 % acid has ten moles in a litre") {
  // Source: 1.149 g/mL at 30 % and 1.159 at 32 %, 20 °C, in an encyclopaedia after Perry; 1.156 between.
  const Product acid = with_strength(product("muriatic_acid"), 31.45, "% w/w as HCl");
  CHECK(1000 * *acid.density_g_ml * fraction_of(acid, "HCl") / 36.458 ==
        Approx(9.97).margin(0.01));
}

TEST_CASE("a strength that no product of the kind has is refused with the most") {
  CHECK(complaint("dichlor_dihydrate", 62, "% w/w as Cl2") ==
        "error: no dichlor_dihydrate is as strong as 62 % w/w as Cl2; the most is 56.5\n"
        "  help:  check the figure and its basis on the label; or is it dichlor_anhydrous, "
        "an oxidiser?\n");
  CHECK(complaint("muriatic_acid", -3, "% w/w as HCl") ==
        "error: the strength of muriatic_acid must be above 0, found -3 % w/w as HCl\n"
        "  help:  copy the strength from the label\n");
  CHECK(complaint("muriatic_acid", 31.45, "% w/w as Cl2") ==
        "error: the strength of muriatic_acid is not given in \"% w/w as Cl2\"\n"
        "  help:  did you mean % w/w as HCl?\n");
  CHECK(complaint("sequestrant", 5, "% w/w as HEDP") ==
        "error: the strength of sequestrant is not given in \"% w/w as HEDP\"\n"
        "  help:  leave the strength out\n");
  CHECK(complaint("sodium_hypochlorite", std::nan(""), "g/100 mL as Cl2") != "");
}

TEST_CASE("nobody is told that a mask protects from the fumes of a liquid") {
  for (const Product& row : all_products()) {
    INFO(row.id);
    const auto& signs = row.protection;
    CHECK(std::count(signs.begin(), signs.end(), "goggles") == 1);
    const bool masked = std::count(signs.begin(), signs.end(), "mask") == 1;
    CHECK(masked == (row.form != tub::planning::Form::liquid));
  }
  CHECK(product("muriatic_acid").handling ==
        std::vector<std::string>{"outdoors", "wind_at_back", "no_mask_protects", "no_metal"});
  CHECK(product("trichlor").harms_shells.front() == "acrylic");
}

TEST_CASE("a level teaspoon holds what published measures of its product say") {
  constexpr double teaspoon_ml = 4.929;  // 21 CFR 101.9 rounds it to 5
  const auto grams = [&](const char* id) { return *product(id).bulk_density_g_ml * teaspoon_ml; };
  // Source: USDA National Nutrient Database for Standard Reference, household measures, food 18372
  CHECK(grams("sodium_bicarbonate") == Approx(4.6).margin(0.05));
  // Source: label of a registered dichlor of 56 %, seen in a reprint: 0.17 oz
  CHECK(grams("dichlor_dihydrate") == Approx(0.17 * 28.3495).margin(0.03));
  // Source: NIOCHIM, Soda ash: properties: dense grade 1.00 to 1.05 g/mL
  CHECK(*product("soda_ash").bulk_density_g_ml >= 1.00);
  CHECK(*product("soda_ash").bulk_density_g_ml <= 1.05);
  // Source: a trader's page on flakes of 77 to 80 %: 50 to 60 lb/ft3
  const auto range = *product("calcium_chloride_dihydrate").bulk_density_range_g_ml;
  constexpr double pound_per_cubic_foot = 0.0160185;  // g/mL
  CHECK(range.low == Approx(50 * pound_per_cubic_foot).margin(0.01));
  CHECK(range.high == Approx(60 * pound_per_cubic_foot).margin(0.01));
  // Source: engineering bulk density tables: fine boric acid 55 lb/ft3
  CHECK(*product("boric_acid").bulk_density_g_ml ==
        Approx(55 * pound_per_cubic_foot).margin(0.005));
}

TEST_CASE("a product row with faults reports them all at their places") {
  const std::string text = R"({"molar_masses_g_mol": {"NaBr": 102.894}, "products": [
    {"id": "a", "form": "dust", "purposes": [], "parts": [{"formula": "NaI"}], "strengths": [],
     "groups": [], "protection": [], "handling": [], "danger": "", "harms_shells": [],
     "hazard_statements": [], "pictograms": [], "signal": "none", "bulk_density_g_ml": 1,
     "sources": {"composition": {"hearsay": "x"}, "hazards": {"published": ""}}}]})";
  std::string found;
  try {
    tub::planning::parse_products(text, "p.json");
  } catch (const Error& error) {
    found = error.what();
  }
  CHECK(found.find("\"dust\" is not known here\n  where: p.json: /products/0/form") !=
        std::string::npos);
  CHECK(found.find("the formula \"NaI\" has no molar mass") != std::string::npos);
  CHECK(found.find("the field \"hearsay\" is not known here") != std::string::npos);
  CHECK(found.find("the source is empty") != std::string::npos);
  CHECK(found.find("the field \"bulk_density\" is missing") != std::string::npos);
  CHECK(found.find("the field \"protection\" is missing") != std::string::npos);
}

TEST_CASE("every part of a product is a compound that the water knows, of the same mass") {
  const tub::planning::SpeciesTable species = tub::planning::SpeciesTable::parse(
      tub::project_text("src/chemistry/data/species.json"), "species.json");
  for (const Product& row : all_products()) {
    std::vector<Product::Part> parts = row.parts;
    if (row.drier_form) parts.push_back(*row.drier_form);
    for (const Product::Part& part : parts) {
      INFO(row.id << " " << part.formula);
      CHECK(species.compound(part.formula).molar_mass == Approx(part.molar_mass).margin(2e-3));
    }
  }
}
