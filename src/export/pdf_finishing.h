// Makes libharu's pages a good file: tagged PDF/A-1b.
#pragma once

#include <span>
#include <string>

#include "export/pdf_drawing.h"
#include "export/pdf_properties.h"
#include "export/pdf_resources.h"

namespace tub::exporting {

/// The drawing with all that libharu leaves out or writes badly: tags, metadata, language, page
/// boxes, colour profile, readable character maps, dates and file identifier that depend on the
/// contents alone.
///
/// Throws: Error (the machine's fault) with libqpdf's message
std::string finish_pdf(const Drawing& drawing, std::span<const Page> pages,
                       const PdfResources& resources, const PdfProperties& properties,
                       const FontSet& fonts);

}  // namespace tub::exporting
