// What a PDF says about itself: title, language, date and the program that made it.
#pragma once

#include <string>

#include "layout/pages/page.h"

namespace tub::exporting {

/// What a PDF says about itself. The same properties and pages give the same bytes.
struct PdfProperties {
  std::string title;     ///< UTF-8, for the window's heading
  std::string language;  ///< of the text, as in BCP 47: "en", "de-AT"
  std::string author;    ///< may be empty, as the next two
  std::string subject;
  std::string keywords;  ///< such as the fingerprint of the job
  Date date;             ///< both dates of the file, at midnight UTC
  std::string producer;  ///< the program and its version
};

/// What a page says of the sheet it belongs to; a file of several sheets is named by its first
/// page.
PdfProperties properties_of(const Page& page, std::string producer);

/// "D:20260504000000+00'00'", the form of the document information.
std::string pdf_date(const Date& date);

/// The metadata packet, UTF-8 XML: what the document information says, and that the file is
/// PDF/A-1b.
///
/// Source: Adobe XMP specification (2005) part 1; ISO 19005-1, 6.7
std::string xmp_packet(const PdfProperties& properties);

}  // namespace tub::exporting
