// Cairo's objects with an owner.
#include "export/cairo_handles.h"

#include <cairo.h>

namespace tub::exporting {

void SurfaceDeleter::operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
void ContextDeleter::operator()(cairo_t* context) const { cairo_destroy(context); }

}  // namespace tub::exporting
