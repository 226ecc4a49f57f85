#include "job/read/names.h"

namespace tub::job {

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

}  // namespace tub::job
