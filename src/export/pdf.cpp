// Finished pages as a tagged PDF/A-1b file: drawn by libharu, finished by libqpdf.
#include "export/pdf.h"

#include <fmt/format.h>

#include "base/error.h"
#include "export/pdf_drawing.h"
#include "export/pdf_finishing.h"

namespace tub::exporting {
namespace {

// An array of a PDF/A-1 file has at most 8,191 members (ISO 19005-1, 6.1.12), and the structure
// tree lists two a page.
constexpr std::size_t most_pages = 4095;

void require_writable_count(std::size_t pages) {
  if (pages >= 1 && pages <= most_pages) return;
  throw Error(
      Diagnostic{.message = fmt::format("one PDF holds 1 to {} pages, not {}", most_pages, pages),
                 .where = {},
                 .trace = {},
                 .help = "print the job in parts",
                 .fault = Fault::machine});
}

}  // namespace

std::string to_pdf(std::span<const Page> pages, const FontSet& fonts, const PdfResources& resources,
                   const PdfProperties& properties) {
  require_writable_count(pages.size());
  return finish_pdf(draw_pdf(pages, fonts), pages, resources, properties, fonts);
}

}  // namespace tub::exporting
