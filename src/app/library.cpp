#include "app/library.h"

namespace tub {

SpeciesTable load_species(const DataFolders& folders) {
  return parsed(read_own_file(folders, "data/species.json"), SpeciesTable::parse);
}

}  // namespace tub
