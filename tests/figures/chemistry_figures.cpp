// Draws the figures of docs/chemistry.md into a folder: usage: chemistry_figures SOURCE FOLDER
#include <fmt/format.h>

#include <cmath>
#include <fstream>
#include <iostream>
#include <iterator>
#include <string>

#include "app/library.h"
#include "base/error.h"
#include "chemistry/operations.h"
#include "document/document.h"
#include "export/svg.h"
#include "job/shape/job_format.h"
#include "layout/pages/lay_out.h"
#include "planning/water/start_water.h"

namespace {

using namespace tub;

std::string text_of(const std::string& path) {
  std::ifstream file(path);
  return {std::istreambuf_iterator<char>(file), {}};
}

Water example_water(const std::string& source, const std::string& name,
                    const Catalogue& catalogue) {
  const std::string path = source + "/examples/" + name + ".json";
  const Job job = read_job({text_of(path), path}, std::nullopt, catalogue).value;
  return start_water(job.request.water, catalogue.planning, catalogue.species).water;
}

Chart index_chart(const std::string& source, const Catalogue& catalogue) {
  Chart chart;
  chart.height_mm = 58;
  chart.alt = "Saturation index of four example waters over temperature, closed to the air";
  chart.x = {plain("water temperature, °C"), 5, 40, 5, 0};
  chart.y = {plain("saturation index of calcite"), -2, 1, 0.5, 1};
  for (const std::string name : {"moorland", "quince-row", "chalk", "desert"}) {
    const Water water = example_water(source, name, catalogue);
    Chart::Line line{plain(name), {}};
    for (double at_c = 5; at_c <= 40; at_c += 1)
      line.points.push_back(
          {at_c, read(heat(water, celsius(at_c)), catalogue.species).saturation_index});
    chart.lines.push_back(std::move(line));
  }
  return chart;
}

Chart hypochlorous_chart(const SpeciesTable& species) {
  Chart chart;
  chart.height_mm = 58;
  chart.alt = "Hypochlorous acid of 3 mg/L of free chlorine over pH at 25 °C, by cyanuric acid";
  chart.x = {plain("pH"), 6.5, 8.5, 0.5, 1};
  chart.y = {plain("log10 of hypochlorous acid, mg/L as Cl2"), -2.5, 0.5, 0.5, 1};
  for (const double cyanuric_acid : {0.0, 30.0, 50.0, 100.0}) {
    Chart::Line line{plain(fmt::format("{:.0f} mg/L", cyanuric_acid)), {}};
    for (double ph = 6.5; ph < 8.51; ph += 0.05) {
      Readings readings;
      readings.ph = ph;
      readings.total_alkalinity_mg_l = 120;
      readings.chloride_mg_l = 150;
      readings.free_chlorine_mg_l = 3;
      readings.cyanuric_acid_mg_l = cyanuric_acid;
      const Water water = water_from_readings(readings, Balance::sodium, species);
      line.points.push_back({ph, std::log10(read(water, species).hocl_mg_l)});
    }
    chart.lines.push_back(std::move(line));
  }
  return chart;
}

// The chart alone on a page of its own size.
std::string picture(const Chart& chart, const Library& library) {
  Document document;
  document.sheet = "chemistry_figure";
  document.title = chart.alt;
  document.language = "en";
  Block block;
  block.content = chart;
  document.blocks = {block};
  const Stock stock = {"figure", 150, 96};
  const auto pages = lay_out(document, library.style("card"), stock, library.fonts());
  return to_svg(pages.front(), library.fonts());
}

}  // namespace

int main(int count, char** words) {
  if (count != 3) {
    std::cerr << "usage: chemistry_figures SOURCE FOLDER\n";
    return 2;
  }
  try {
    const Library library(find_data_folders(std::nullopt));
    const std::string folder = words[2];
    std::ofstream(folder + "/chemistry-index.svg")
        << picture(index_chart(words[1], library.catalogue()), library);
    std::ofstream(folder + "/chemistry-hocl.svg")
        << picture(hypochlorous_chart(library.catalogue().species), library);
    return 0;
  } catch (const Error& error) {
    std::cerr << error.what();
    return 1;
  }
}
