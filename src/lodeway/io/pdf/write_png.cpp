#include "lodeway/io/pdf/write_png.hpp"

#include <cairo.h>

#include "lodeway/io/pdf/out_file.hpp"
#include "lodeway/io/pdf/render.hpp"

namespace lodeway::io {
namespace {

cairo_status_t to_file(void* file, const unsigned char* data, unsigned length) {
  return static_cast<OutFile*>(file)->write(data, length) ? CAIRO_STATUS_SUCCESS
                                                          : CAIRO_STATUS_WRITE_ERROR;
}

}  // namespace

Result<void> write_png(const sheet::Drawing& drawing, const std::filesystem::path& path,
                       double dpi) {
  const auto surface = paint_surface(drawing, dpi);
  if (!surface) return fail_in(path.string(), surface.error());
  OutFile file(path.string());
  if (auto ok = file.fault(); !ok) return ok;
  const cairo_status_t status = cairo_surface_write_to_png_stream(surface->get(), to_file, &file);
  if (auto ok = file.fault(); !ok) return ok;
  if (status != CAIRO_STATUS_SUCCESS) {
    return fail(FaultCode::io_failed,
                path.string() + ": cannot be drawn: " + cairo_status_to_string(status));
  }
  return file.finish();
}

}  // namespace lodeway::io
