#include "lodeway/io/pdf/write_png.hpp"

#include <cairo.h>
#include <fmt/format.h>

#include <cmath>
#include <memory>

#include "lodeway/io/pdf/fonts.hpp"
#include "lodeway/io/pdf/out_file.hpp"
#include "lodeway/io/pdf/render.hpp"

namespace lodeway::io {
namespace {

constexpr double max_pixels = 20000;

cairo_status_t to_file(void* file, const unsigned char* data, unsigned length) {
  return static_cast<OutFile*>(file)->write(data, length) ? CAIRO_STATUS_SUCCESS
                                                          : CAIRO_STATUS_WRITE_ERROR;
}

}  // namespace

Result<void> write_png(const sheet::Drawing& drawing, const std::filesystem::path& path,
                       double dpi) {
  const double wide = std::round(drawing.width_mm / 25.4 * dpi);
  const double high = std::round(drawing.height_mm / 25.4 * dpi);
  if (!(wide >= 1 && wide <= max_pixels && high >= 1 && high <= max_pixels)) {
    return fail(FaultCode::bad_input,
                fmt::format("{}: picture sides: expected 1 to {} pixels, got {} x {}",
                            path.string(), max_pixels, wide, high));
  }
  const Fonts fonts;
  if (auto ok = fonts.check(); !ok) return ok;
  OutFile file(path);
  if (auto ok = file.fault(); !ok) return ok;
  const std::unique_ptr<cairo_surface_t, void (*)(cairo_surface_t*)> surface(
      cairo_image_surface_create(CAIRO_FORMAT_RGB24, static_cast<int>(wide),
                                 static_cast<int>(high)),
      cairo_surface_destroy);
  {
    const std::unique_ptr<cairo_t, void (*)(cairo_t*)> context(cairo_create(surface.get()),
                                                               cairo_destroy);
    cairo_set_source_rgb(context.get(), 1, 1, 1);
    cairo_paint(context.get());
    cairo_scale(context.get(), wide / drawing.width_mm, high / drawing.height_mm);
    render(context.get(), drawing, fonts);
  }
  const cairo_status_t status = cairo_surface_write_to_png_stream(surface.get(), to_file, &file);
  if (auto ok = file.fault(); !ok) return ok;
  if (status != CAIRO_STATUS_SUCCESS) {
    return fail(FaultCode::io_failed,
                path.string() + ": cannot be drawn: " + cairo_status_to_string(status));
  }
  return file.finish();
}

}  // namespace lodeway::io
