// libharu's document with an owner, the prepared faces in it, and its errors as exceptions.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "layout/type/font.h"

// NOLINTBEGIN(bugprone-reserved-identifier): as <hpdf.h> declares them
struct _HPDF_Doc_Rec;
struct _HPDF_Dict_Rec;
// NOLINTEND(bugprone-reserved-identifier)

namespace tub::exporting {

/// A document of libharu without compression: libqpdf compresses what it writes.
class HaruDocument {
 public:
  /// Throws: Error (the machine's fault) if there is no memory
  HaruDocument();
  HaruDocument(const HaruDocument&) = delete;
  HaruDocument& operator=(const HaruDocument&) = delete;
  ~HaruDocument();

  _HPDF_Doc_Rec* get() const { return document_; }

  /// The face as a font whose codes are the characters' numbers, its used glyphs embedded.
  ///
  /// font:   must outlive the document
  /// Throws: Error (the machine's fault) with libharu's error code
  _HPDF_Dict_Rec* add_face(const Font& font);

  /// Throws: Error (the machine's fault) with what was being done, if any call before this failed:
  ///         libharu keeps its first error until asked
  void require_no_error(const std::string& doing) const;

  /// The whole file. Throws: Error (the machine's fault)
  std::string bytes() const;

 private:
  struct Reader;
  std::vector<std::unique_ptr<Reader>> readers_;
  _HPDF_Doc_Rec* document_;
};

}  // namespace tub::exporting
