// The prepared faces as Cairo font faces.
#include "export/cairo_faces.h"

#include <cairo-ft.h>
#include <cairo.h>
#include <fmt/format.h>

#include "base/error.h"

namespace tub::exporting {
namespace {

// What Cairo's face lives on. Cairo keeps scaled fonts in a cache of its own beyond the last
// reference of ours, so this is freed when Cairo says so.
struct Backing {
  explicit Backing(const Font& font_) : font(font_) {}
  Backing(const Backing&) = delete;
  Backing& operator=(const Backing&) = delete;
  ~Backing() {
    if (face != nullptr) FT_Done_Face(face);
    if (library != nullptr) FT_Done_FreeType(library);
  }

  Font font;
  FT_Library library = nullptr;
  FT_Face face = nullptr;
};

std::unique_ptr<Backing> open(const Font& font) {
  auto backing = std::make_unique<Backing>(font);
  const std::string& bytes = backing->font.bytes();
  FT_Error failure = FT_Init_FreeType(&backing->library);
  if (failure == 0)
    failure = FT_New_Memory_Face(backing->library, reinterpret_cast<const FT_Byte*>(bytes.data()),
                                 static_cast<FT_Long>(bytes.size()), 0, &backing->face);
  if (failure != 0)
    throw Error(Diagnostic{
        .message =
            fmt::format("the face {} cannot be read (FreeType error {})", font.name(), failure),
        .where = {},
        .trace = {},
        .help = "build or install the program again: its prepared faces are damaged",
        .fault = Fault::machine});
  return backing;
}

}  // namespace

void CairoFaceDeleter::operator()(cairo_font_face_t* face) const { cairo_font_face_destroy(face); }

CairoFace cairo_face(const Font& font) {
  static const cairo_user_data_key_t key{};
  std::unique_ptr<Backing> backing = open(font);
  CairoFace face(cairo_ft_font_face_create_for_ft_face(backing->face, FT_LOAD_NO_HINTING));
  const cairo_status_t status = cairo_font_face_set_user_data(
      face.get(), &key, backing.get(),
      [](void* held) { const std::unique_ptr<Backing> owner(static_cast<Backing*>(held)); });
  if (status == CAIRO_STATUS_SUCCESS) static_cast<void>(backing.release());  // Cairo's from here on
  return face;
}

}  // namespace tub::exporting
