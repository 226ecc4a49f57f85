#include "job/names.h"

#include <algorithm>

namespace tub {

std::span<const SanitizerEntry> sanitizer_entries() {
  static const std::vector<SanitizerEntry> rows = {
      {"dichlor",
       "granules of dichlor before and after use; cyanuric acid builds up",
       {"dichlor_dihydrate", "dichlor_anhydrous"},
       true},
      {"dichlor_then_hypochlorite",
       "dichlor until cyanuric acid reaches its limit, then hypochlorite",
       {"dichlor_dihydrate", "dichlor_anhydrous"}},
      {"sodium_hypochlorite", "liquid chlorine", {"sodium_hypochlorite"}, true},
      {"calcium_hypochlorite", "granular chlorine that adds calcium", {"calcium_hypochlorite"}},
      {"two_step_bromine", "a bank of bromide, woken by an oxidiser", {"sodium_bromide"}},
      {"bromine_tablets", "tablets in a floater", {"bromine_tablets"}},
  };
  return rows;
}

const SanitizerEntry* sanitizer_entry(std::string_view id) {
  const auto rows = sanitizer_entries();
  const auto found = std::find_if(rows.begin(), rows.end(),
                                  [&](const SanitizerEntry& row) { return row.id == id; });
  return found == rows.end() ? nullptr : &*found;
}

std::vector<std::string> known_products() {
  return {"sodium_bicarbonate",
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
}

std::vector<std::string> known_sheets() {
  return {"startup_card", "upkeep_card",     "water_log",   "cabinet_label",
          "dose_tag",     "container_label", "label_sheet", "hazard_sheet",
          "dose_chart",   "drain_card",      "worksheet"};
}

std::vector<std::string> known_labels() { return {"cabinet_label", "dose_tag", "container_label"}; }

std::vector<std::string> known_stocks() {
  return {"a4",
          "letter",
          "a3",
          "label_50x30",
          "label_74x52",
          "label_52x74",
          "label_52x80",
          "label_70x100",
          "label_74x105",
          "label_100x150",
          "label_105x148",
          "label_4x6in"};
}

std::vector<std::string> known_languages() { return {"en", "es", "fr", "de"}; }

std::vector<std::string> known_uses() { return {"private", "rented", "public"}; }

std::vector<std::string> known_methods() { return {"strip", "drop_kit", "photometer"}; }

std::vector<std::string> known_measures() {
  return {"grams", "grams_and_us_spoons", "grams_and_metric_spoons", "ounces",
          "ounces_and_us_spoons"};
}

}  // namespace tub
