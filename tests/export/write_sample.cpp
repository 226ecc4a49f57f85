// Writes the hand-made pages as files, for checks by other programs: PREFIX.pdf, PREFIX.txt and
// PREFIX-1.png and so on.
#include <fstream>
#include <iostream>

#include "export/dump.h"
#include "export/pdf.h"
#include "export/png.h"
#include "export_test.h"

int main(int argc, char** argv) {
  if (argc != 2) {
    std::cerr << "usage: write_sample PREFIX\n";
    return 2;
  }
  const std::string prefix = argv[1];
  const std::vector<tub::exporting::Page> pages = tub::exporting::sample_pages();
  std::ofstream(prefix + ".pdf", std::ios::binary) << tub::exporting::sample_pdf(pages);
  std::ofstream(prefix + ".txt", std::ios::binary) << tub::exporting::dump_text(pages);
  for (const tub::exporting::Page& page : pages)
    std::ofstream(prefix + "-" + std::to_string(page.number) + ".png", std::ios::binary)
        << tub::exporting::to_png(page, tub::exporting::test_fonts(), 144);
  return 0;
}
