#pragma once
/// Inside io/pdf only: a Drawing onto a Cairo context whose unit is the millimetre.
#include "lodeway/io/pdf/fonts.hpp"
#include "lodeway/sheet/drawing.hpp"

typedef struct _cairo cairo_t;

namespace lodeway::io {

void render(cairo_t* to, const sheet::Drawing& drawing, const Fonts& fonts);

}  // namespace lodeway::io
