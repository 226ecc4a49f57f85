// The prepared faces as Cairo font faces.
#pragma once

#include <memory>

#include "layout/type/font.h"

// NOLINTNEXTLINE(bugprone-reserved-identifier): as <cairo.h> declares it
typedef struct _cairo_font_face cairo_font_face_t;

namespace tub::exporting {

struct CairoFaceDeleter {
  void operator()(cairo_font_face_t* face) const;
};
using CairoFace = std::unique_ptr<cairo_font_face_t, CairoFaceDeleter>;

/// The face, read by FreeType without hinting. It keeps the font's bytes as long as Cairo needs it.
///
/// Throws: Error (the machine's fault) if FreeType cannot read it
CairoFace cairo_face(const Font& font);

}  // namespace tub::exporting
