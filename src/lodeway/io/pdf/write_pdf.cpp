#include "lodeway/io/pdf/write_pdf.hpp"

#include <cairo-pdf.h>
#include <fmt/format.h>

#include <memory>

#include "lodeway/io/pdf/fonts.hpp"
#include "lodeway/io/pdf/out_file.hpp"
#include "lodeway/io/pdf/render.hpp"

namespace lodeway::io {
namespace {

constexpr double point_per_mm = 72 / 25.4;
constexpr double max_side_mm = 5000;  // PDF readers stop at 200 inches

cairo_status_t to_file(void* file, const unsigned char* data, unsigned length) {
  return static_cast<OutFile*>(file)->write(data, length) ? CAIRO_STATUS_SUCCESS
                                                          : CAIRO_STATUS_WRITE_ERROR;
}

struct FreeSurface {
  void operator()(cairo_surface_t* s) const { cairo_surface_destroy(s); }
};
struct FreeContext {
  void operator()(cairo_t* c) const { cairo_destroy(c); }
};

}  // namespace

Result<void> write_pdf(std::span<const sheet::Drawing> pages, const std::filesystem::path& path,
                       std::chrono::year_month_day created) {
  if (pages.empty()) {
    return fail(FaultCode::bad_input, path.string() + ": expected at least one page, got none");
  }
  for (const sheet::Drawing& page : pages) {
    if (!(page.width_mm > 0 && page.width_mm <= max_side_mm && page.height_mm > 0 &&
          page.height_mm <= max_side_mm)) {
      return fail(FaultCode::bad_input,
                  fmt::format("{}: page sides: expected above 0 and at most {} mm, got {} x {}",
                              path.string(), max_side_mm, page.width_mm, page.height_mm));
    }
  }
  const Fonts fonts;
  if (auto ok = fonts.check(); !ok) return ok;
  OutFile file(path.string());
  if (auto ok = file.fault(); !ok) return ok;

  const std::unique_ptr<cairo_surface_t, FreeSurface> surface(cairo_pdf_surface_create_for_stream(
      to_file, &file, pages[0].width_mm * point_per_mm, pages[0].height_mm * point_per_mm));
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_TITLE,
                                 one_line(pages[0].title).c_str());
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATOR, "Lodeway");
  const std::string date =
      fmt::format("{:04}-{:02}-{:02}T00:00:00Z", static_cast<int>(created.year()),
                  static_cast<unsigned>(created.month()), static_cast<unsigned>(created.day()));
  cairo_pdf_surface_set_metadata(surface.get(), CAIRO_PDF_METADATA_CREATE_DATE, date.c_str());
  {
    const std::unique_ptr<cairo_t, FreeContext> context(cairo_create(surface.get()));
    for (const sheet::Drawing& page : pages) {
      cairo_pdf_surface_set_size(surface.get(), page.width_mm * point_per_mm,
                                 page.height_mm * point_per_mm);
      cairo_save(context.get());
      cairo_scale(context.get(), point_per_mm, point_per_mm);
      render(context.get(), page, fonts);
      cairo_restore(context.get());
      cairo_show_page(context.get());
    }
  }
  cairo_surface_finish(surface.get());
  if (auto ok = file.fault(); !ok) return ok;
  if (const auto status = cairo_surface_status(surface.get()); status != CAIRO_STATUS_SUCCESS) {
    return fail(FaultCode::io_failed,
                path.string() + ": cannot be drawn: " + cairo_status_to_string(status));
  }
  return file.finish();
}

}  // namespace lodeway::io
