// The whole program in one place: a job in, finished pages out.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "app/library.h"
#include "job/job.h"
#include "layout/labels/impose.h"
#include "layout/pages/page.h"
#include "planning/plan.h"

namespace tub::app {

/// What the pages are for: a device that prints in colour, or one of a single ink.
enum class Device { in_colour, one_ink };

/// A sheet to be printed, with everything chosen.
struct Print {
  std::string sheet;
  std::vector<std::string> templates;  ///< the sheet itself, or the labels on a label sheet
  Stock stock;
  std::string language;
  std::string product{};                      ///< only the labels of this product; empty: of all
  std::vector<std::string> more_languages{};  ///< on the same label
  int copies = 1;                             ///< of each label
  Imposition imposition{};
  Device device = Device::in_colour;
  std::string where{};  ///< the job asks for it; empty: the command line does
};

/// Throws: Error if the water cannot exist
Plan plan_of(const Job& job, const Catalogue& catalogue);

/// A job in, finished pages out: everything the program does, in order.
///
/// The warnings say what a label had to leave out, and what to know before it is used.
/// Throws: Error if a template, a language or a style is at fault, more is asked for than is
/// printed
///         at once, a sheet does not fit, or a label
///         must not be printed
Outcome<std::vector<Page>> run(const Job& job, std::span<const Print> prints,
                               const Library& library);

/// One page for each stock of the prints, to measure by where the printer puts what is printed.
///
/// Throws: Error if a language is at fault, or a stock is too small for the words
std::vector<Page> alignment_pages(std::span<const Print> prints, const Library& library);

}  // namespace tub::app
