// Every table, template and font that the program works with, read from its data folders.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "app/data_folder.h"
#include "export/pdf_resources.h"
#include "job/shape/catalogue.h"
#include "labels/tables.h"
#include "layout/labels/stock.h"
#include "layout/type/font.h"
#include "layout/type/style.h"
#include "sheets/template/messages.h"
#include "sheets/template/sheet_template.h"
#include "water/format.h"

namespace tub::app {

/// Throws: Error if the file is missing or at fault
SpeciesTable load_species(const DataFolders& folders);
WaterTables load_water_tables(const DataFolders& folders);

/// What jobs may name, and what sheets are made of. A file that is missing or at fault is an Error
/// of whoever asks for it.
class Library {
 public:
  explicit Library(DataFolders folders);

  const Catalogue& catalogue() const { return catalogue_; }
  const FontSet& fonts() const { return fonts_; }
  const std::vector<Stock>& stocks() const { return stocks_; }

  // REQUIRES: a name that the catalogue has.
  /// Read the first time that it is asked for, and kept.
  const SheetTemplate& sheet(const std::string& name) const;
  /// The language, complete for all sheets that there are.
  Messages language(const std::string& tag) const;
  Stock stock(const std::string& name) const;
  /// The stock that a sheet is meant for.
  ///
  /// Throws: Error, where the sheet's template names it, if the table of stocks lacks it
  Stock stock_of_sheet(const std::string& name) const;
  Style style(const std::string& name) const;
  PdfResources pdf_resources() const;
  LabelTables label_tables() const;

 private:
  DataFolders folders_;
  FontSet fonts_;
  std::vector<Stock> stocks_;
  Catalogue catalogue_;
  mutable std::map<std::string, SheetTemplate> sheets_;
};

}  // namespace tub::app
