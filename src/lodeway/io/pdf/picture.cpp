#include "lodeway/io/pdf/picture.hpp"

#include <cairo.h>

#include <algorithm>
#include <cstddef>

#include "lodeway/io/pdf/render.hpp"

namespace lodeway::io {

namespace {

Surface make_surface(cairo_format_t format, int wide, int high) {
  return {cairo_image_surface_create(format, wide, high), cairo_surface_destroy};
}

std::uint32_t* row_of(cairo_surface_t* surface, int row) {
  return reinterpret_cast<std::uint32_t*>(cairo_image_surface_get_data(surface) +
                                          static_cast<std::ptrdiff_t>(row) *
                                              cairo_image_surface_get_stride(surface));
}

std::size_t pixel_at(const Picture& p, int x, int y) {
  return (static_cast<std::size_t>(y) * static_cast<std::size_t>(p.wide) +
          static_cast<std::size_t>(x)) *
         4;
}

cairo_status_t to_string(void* text, const unsigned char* data, unsigned length) {
  static_cast<std::string*>(text)->append(reinterpret_cast<const char*>(data), length);
  return CAIRO_STATUS_SUCCESS;
}

}  // namespace

Result<Picture> paint(const sheet::Drawing& drawing, double dpi) {
  const auto surface = paint_surface(drawing, dpi);
  if (!surface) return std::unexpected(surface.error());
  cairo_surface_flush(surface->get());
  Picture out{cairo_image_surface_get_width(surface->get()),
              cairo_image_surface_get_height(surface->get()),
              {}};
  out.rgba.resize(static_cast<std::size_t>(out.wide) * static_cast<std::size_t>(out.high) * 4);
  std::uint8_t* to = out.rgba.data();
  for (int y = 0; y < out.high; ++y) {
    const std::uint32_t* from = row_of(surface->get(), y);
    for (int x = 0; x < out.wide; ++x, to += 4) {
      to[0] = static_cast<std::uint8_t>(from[x] >> 16U);
      to[1] = static_cast<std::uint8_t>(from[x] >> 8U);
      to[2] = static_cast<std::uint8_t>(from[x]);
      to[3] = 255;
    }
  }
  return out;
}

void darken(Picture& picture) {
  // Lightness l = (max + min) / 2 becomes 1 - l while max - min stays: every channel moves alike.
  // The darkest is kept a little off black, as the page's own dark ground is.
  constexpr int floor_of_dark = 22;
  for (std::size_t i = 0; i + 3 < picture.rgba.size(); i += 4) {
    std::uint8_t* p = picture.rgba.data() + i;
    const int most = std::max({p[0], p[1], p[2]}), least = std::min({p[0], p[1], p[2]});
    const int shift = 255 - most - least;
    for (int k = 0; k < 3; ++k) {
      const int v = p[k] + shift;
      p[k] = static_cast<std::uint8_t>(floor_of_dark + v * (255 - floor_of_dark) / 255);
    }
  }
}

Result<std::string> png_bytes(const Picture& picture, int x, int y, int wide, int high) {
  if (x < 0 || y < 0 || wide < 1 || high < 1 || x > picture.wide - wide || y > picture.high - high)
    return fail(FaultCode::bad_input, "the part of the picture does not lie inside it");
  bool opaque = true;
  for (int r = 0; r < high && opaque; ++r) {
    for (int c = 0; c < wide && opaque; ++c)
      opaque = picture.rgba[pixel_at(picture, x + c, y + r) + 3] == 255;
  }
  const Surface surface =
      make_surface(opaque ? CAIRO_FORMAT_RGB24 : CAIRO_FORMAT_ARGB32, wide, high);
  if (const auto status = cairo_surface_status(surface.get()); status != CAIRO_STATUS_SUCCESS)
    return fail(FaultCode::io_failed, cairo_status_to_string(status));
  for (int r = 0; r < high; ++r) {
    std::uint32_t* to = row_of(surface.get(), r);
    for (int c = 0; c < wide; ++c) {
      const std::uint8_t* p = picture.rgba.data() + pixel_at(picture, x + c, y + r);
      const std::uint32_t a = p[3];
      const auto pre = [a](std::uint32_t v) { return (v * a + 127) / 255; };
      to[c] = a << 24U | pre(p[0]) << 16U | pre(p[1]) << 8U | pre(p[2]);
    }
  }
  cairo_surface_mark_dirty(surface.get());
  std::string out;
  const auto status = cairo_surface_write_to_png_stream(surface.get(), to_string, &out);
  if (status != CAIRO_STATUS_SUCCESS)
    return fail(FaultCode::io_failed, cairo_status_to_string(status));
  return out;
}

}  // namespace lodeway::io
