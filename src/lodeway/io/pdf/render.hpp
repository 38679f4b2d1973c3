#pragma once
/// Inside io/pdf only: a Drawing onto a Cairo context whose unit is the millimetre, or as pixels.
#include <memory>

#include "lodeway/io/pdf/fonts.hpp"
#include "lodeway/sheet/draw/drawing.hpp"

typedef struct _cairo cairo_t;
typedef struct _cairo_surface cairo_surface_t;

namespace lodeway::io {

void render(cairo_t* to, const sheet::Drawing& drawing, const Fonts& fonts);

using Surface = std::unique_ptr<cairo_surface_t, void (*)(cairo_surface_t*)>;

/// White ground, RGB, sides rounded to whole pixels.
/// Faults: bad_input (dpi not above 0; a side above 20 000 pixels; no size; a font family missing).
[[nodiscard]] Result<Surface> paint_surface(const sheet::Drawing& drawing, double dpi);

}  // namespace lodeway::io
