// The whole program in one place: a job in, finished pages out.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "app/library.h"
#include "job/job.h"
#include "layout/page.h"
#include "planning/plan.h"

namespace tub {

/// A sheet to be printed, with everything chosen.
struct Print {
  std::string sheet;
  Stock stock;
  std::string language;
};

/// Throws: Error if the water cannot exist
Plan plan_of(const Job& job, const Catalogue& catalogue);

/// A job in, finished pages out: everything the program does, in order.
///
/// Throws: Error if a template, a language or a style is at fault, or a sheet does not fit
std::vector<Page> run(const Job& job, std::span<const Print> prints, const Library& library);

}  // namespace tub
