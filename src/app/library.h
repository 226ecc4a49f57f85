// Every table, template and font that the program works with, read from its data folders.
#pragma once

#include <vector>

#include "app/data_folder.h"
#include "job/catalogue.h"
#include "layout/font.h"
#include "layout/stock.h"

namespace tub {

// Each throws: Error if a file is missing or at fault.

SpeciesTable load_species(const DataFolders& folders);
FontSet load_fonts(const DataFolders& folders);
std::vector<Stock> load_stocks(const DataFolders& folders);

/// What jobs may name, with the characters that both faces have.
Catalogue load_catalogue(const DataFolders& folders, const FontSet& fonts);

}  // namespace tub
