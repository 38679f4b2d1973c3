#pragma once
/// A drawing as pixels in memory, and pixels as a PNG: map tiles and previews, without a file.
#include <cstdint>
#include <string>
#include <vector>

#include "lodeway/result/result.hpp"
#include "lodeway/sheet/draw/drawing.hpp"

namespace lodeway::io {

/// Row 0 on top; four bytes a pixel: red, green, blue, opacity (not premultiplied).
struct Picture {
  int wide = 0, high = 0;
  std::vector<std::uint8_t> rgba;
};

/// White ground. Sides are rounded to whole pixels.
/// Faults: bad_input (dpi not above 0; a side above 20 000 pixels; no size; a font family missing).
[[nodiscard]] Result<Picture> paint(const sheet::Drawing& drawing, double dpi);

/// Light and dark change places, hue and saturation stay (the lightness of HSL): for a dark room.
void darken(Picture& picture);

/// PNG, 8 bits; with an opacity channel only where the picture has one that is not full.
/// The part of `wide` x `high` pixels whose upper left is (x, y). Faults: bad_input (the part does
/// not lie inside), io_failed (no memory).
[[nodiscard]] Result<std::string> png_bytes(const Picture& picture, int x, int y, int wide,
                                            int high);
[[nodiscard]] inline Result<std::string> png_bytes(const Picture& picture) {
  return png_bytes(picture, 0, 0, picture.wide, picture.high);
}

}  // namespace lodeway::io
