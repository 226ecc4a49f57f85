// Hand-made pages and files that the export tests share.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "export/pdf.h"
#include "layout/pages/page.h"

namespace tub::exporting {

/// The prepared faces of the build tree.
const FontSet& test_fonts();

/// What the build has prepared for every PDF.
const PdfResources& test_resources();

std::string read_file(const std::string& path);

/// A card in small: headings, a paragraph over lines with a soft hyphen at a break, a list, a
/// table with heads and a spanning cell, figures, a phrase in German, every kind of item, every
/// role, the typographic characters that sheets use.
Page sample_page();

/// Two pages, the second in another language and size, to be trimmed.
std::vector<Page> sample_pages();

/// The pages as a PDF whose properties need every kind of escape.
std::string sample_pdf(std::span<const Page> pages);

}  // namespace tub::exporting
