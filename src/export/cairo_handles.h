// Cairo's objects with an owner. For .cpp files that include <cairo.h>.
#pragma once

#include <memory>

#include "base/modules.h"

// NOLINTBEGIN(bugprone-reserved-identifier): as <cairo.h> declares them
typedef struct _cairo cairo_t;
typedef struct _cairo_surface cairo_surface_t;
// NOLINTEND(bugprone-reserved-identifier)

namespace tub::exporting {

struct SurfaceDeleter {
  void operator()(cairo_surface_t* surface) const;
};
struct ContextDeleter {
  void operator()(cairo_t* context) const;
};
using Surface = std::unique_ptr<cairo_surface_t, SurfaceDeleter>;
using Context = std::unique_ptr<cairo_t, ContextDeleter>;

}  // namespace tub::exporting
