// How much a job may ask for. Whatever is in a job of the largest size, it is answered within about
// two seconds and 200 MB; each row says what is far more than anybody needs.
#pragma once

#include <cstddef>

#include "base/modules.h"

namespace tub::job::limits {

/// A job or a shop's file, in bytes. A long job with a hundred readings has about 10 kB.
inline constexpr std::size_t file_bytes = std::size_t{1} << 20U;

/// Products on a shelf: twice as many as the program knows.
inline constexpr std::size_t shelf = 40;

/// Retests and visits: one a day from one change of the water to the next, three months and more.
inline constexpr std::size_t readings = 100;

/// Sheets of a job: each of the eight in four languages, and some to spare.
inline constexpr std::size_t sheets = 50;

/// Benches and steps in one tub.
inline constexpr std::size_t benches = 20;

/// Hazard statements of one product: the longest safety data sheets list about fifteen.
inline constexpr std::size_t hazard_statements = 30;

/// Printers of a shop.
inline constexpr std::size_t printers = 20;

/// Labels and pages that one run prints, copies counted: fifty sheets of eight labels.
inline constexpr int printed = 400;

/// Pages as pictures: each is a file of its own.
inline constexpr std::size_t picture_files = 100;

/// Pixels of all pictures of one run: a page of A4 at 600 dots per inch has 34.8 million.
inline constexpr double pixels = 36e6;

}  // namespace tub::job::limits
