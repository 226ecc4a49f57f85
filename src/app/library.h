// Every table, template and font that the program works with, read from its data folders.
#pragma once

#include "app/data_folder.h"
#include "chemistry/species_table.h"

namespace tub {

/// Throws: Error if a file is missing or at fault
SpeciesTable load_species(const DataFolders& folders);

}  // namespace tub
