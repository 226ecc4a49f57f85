// What a job may name: the rows of data and the templates that this version has.
#pragma once

#include <algorithm>
#include <string>
#include <vector>

#include "chemistry/species_table.h"
#include "job/read/everyday_words.h"
#include "planning/request.h"
#include "planning/tables/country.h"

namespace tub::job {

/// Everything outside the job that its reading needs; `app` fills it.
struct Catalogue {
  PlanningData planning;
  SpeciesTable species;
  std::vector<std::string> sheets;     ///< that this version can print
  std::vector<std::string> stocks;     ///< that it can print on
  std::vector<std::string> languages;  ///< that it has words in
  std::vector<char32_t> characters;    ///< that the prepared faces have, ascending
  EverydayWords words{};
  std::vector<Country> countries{};  ///< whose emergency numbers are known

  bool has_character(char32_t code_point) const {
    return std::binary_search(characters.begin(), characters.end(), code_point);
  }
};

}  // namespace tub::job
