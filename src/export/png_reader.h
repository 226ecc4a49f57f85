// Pictures from outside: a PNG file's bytes as pixels.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "export/cairo_handles.h"

namespace tub::exporting {

/// A picture on white paper: rows from the top, three bytes a pixel (red, green, blue).
struct Picture24 {
  int width = 0;
  int height = 0;
  std::string rgb;
};

/// The picture of a PNG file; nothing if the bytes are none or are damaged.
std::optional<Picture24> read_png(std::string_view bytes);

/// The same as Cairo draws it.
///
/// Throws: Error (the machine's fault) if the bytes are none or are damaged
Surface surface_of_png(std::string_view bytes);

}  // namespace tub::exporting
