// The parts that are the same in every PDF, prepared when the program is built.
#include "export/pdf_resources.h"

namespace tub::exporting {

PdfResources read_pdf_resources(const std::function<std::string(const std::string&)>& file) {
  const auto tables = [&file](const std::string& face) {
    return PdfFaceTables{file(face + ".tounicode"), file(face + ".cidtogid"),
                         file(face + ".cidset")};
  };
  return {tables("regular"), tables("bold"), file("srgb.icc")};
}

}  // namespace tub::exporting
