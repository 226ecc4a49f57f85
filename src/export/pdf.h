// Finished pages as a tagged PDF/A-1b file.
#pragma once

#include <span>
#include <string>

#include "export/pdf_properties.h"
#include "export/pdf_resources.h"
#include "layout/pages/page.h"

namespace tub::exporting {

/// The pages as one file: PDF 1.4, PDF/A-1b, tagged, fonts embedded, no scaling when printed.
/// The same pages, faces, resources and properties give the same bytes.
///
/// pages:  1 to 4,095; longer runs are written in parts (200 pages take about 60 MB meanwhile)
/// Throws: Error (the machine's fault) naming the page if a library reports an error or a face
///         lacks a character; Error if there are too many pages
/// Source: ISO 32000-1, 14.8 (tags); ISO 19005-1 (PDF/A-1)
std::string to_pdf(std::span<const Page> pages, const FontSet& fonts, const PdfResources& resources,
                   const PdfProperties& properties);

}  // namespace tub::exporting
