// The parts that are the same in every PDF, prepared when the program is built.
#pragma once

#include <functional>
#include <string>

#include "layout/type/font.h"

namespace tub::exporting {

/// Streams about one prepared face, deflated. A code of the text is its character's number.
struct PdfFaceTables {
  std::string to_unicode;  ///< character of each code
  std::string cid_to_gid;  ///< glyph of each code
  std::string cid_set;     ///< which codes there are
};

struct PdfResources {
  PdfFaceTables regular;
  PdfFaceTables bold;
  std::string colour_profile;  ///< sRGB, an ICC profile, deflated

  const PdfFaceTables& face(Face face) const { return face == Face::bold ? bold : regular; }
};

/// The resources from the files that the build writes into share/tubwright/pdf.
///
/// file:   the bytes of the file of a name, such as "regular.tounicode"; throws if there is none
PdfResources read_pdf_resources(const std::function<std::string(const std::string&)>& file);

}  // namespace tub::exporting
