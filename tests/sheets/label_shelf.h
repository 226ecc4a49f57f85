// A job with everything that labels are made from, and its labels laid out.
#pragma once

#include <string>
#include <vector>

#include "document/document.h"
#include "layout/labels/stock.h"
#include "layout/pages/page.h"
#include "planning/heading.h"
#include "planning/package.h"
#include "planning/plan.h"
#include "planning/pours/top_up.h"
#include "planning/request.h"
#include "sheets/template/sheet_sources.h"

namespace tub::sheets::test {

using namespace layout;  // what is printed is laid out as well

/// Plans the request. What `sources` refers to lives here.
struct Shelf {
  explicit Shelf(PlanRequest a_request);

  SheetSources sources() const;

  PlanRequest request;
  Plan plan;
  std::vector<TopUpReading> more;
  Heading heading;
  std::vector<Package> packages;
  std::string rules = "clp";
};

/// Every product that there is; the sequestrant with a dose.
std::vector<ShelfItem> every_product();

/// The pages, each piece with as little given up as lets it fit, and how much that was at most.
struct Printed {
  std::vector<Page> pages;
  int turn = 0;
};

/// Throws: Error if a piece does not fit with all given up
Printed printed(const SheetSources& sources, const std::string& sheet, const std::string& tag,
                const Stock& stock);

/// Nothing overlaps, nothing is outside, every element has its place.
void check_pages(const std::vector<Page>& pages);

/// All words of a label or hazard sheet, a line for each text.
std::string read_aloud(const Document& label);

std::string words_on(const std::vector<Page>& pages);

}  // namespace tub::sheets::test
