#include "lodeway/io/pdf/render.hpp"

#include <fmt/format.h>
#include <pango/pangocairo.h>

#include <cmath>
#include <cstdint>
#include <cstring>
#include <numbers>

namespace lodeway::io {
namespace {

using namespace sheet;

void set_ink(cairo_t* c, const Ink& ink) {
  cairo_set_source_rgba(c, ink.red / 255.0, ink.green / 255.0, ink.blue / 255.0, ink.alpha);
}

class Renderer {
 public:
  Renderer(cairo_t* c, const Fonts& fonts) : c_(c), fonts_(fonts) {
    cairo_set_fill_rule(c_, CAIRO_FILL_RULE_EVEN_ODD);
  }

  void operator()(const PathCommand& path) {
    cairo_new_path(c_);
    for (const auto& ring : path.rings) {
      for (std::size_t i = 0; i < ring.size(); ++i) {
        if (i == 0)
          cairo_move_to(c_, ring[i].x, ring[i].y);
        else
          cairo_line_to(c_, ring[i].x, ring[i].y);
      }
      if (path.closed && !ring.empty()) cairo_close_path(c_);
    }
    if (path.fill) {
      set_ink(c_, path.fill_ink);
      if (path.width_mm > 0)
        cairo_fill_preserve(c_);
      else
        cairo_fill(c_);
    }
    if (path.width_mm > 0) {
      set_ink(c_, path.stroke);
      cairo_set_line_width(c_, path.width_mm);
      cairo_set_line_cap(c_, path.round_ends ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
      cairo_set_line_join(c_, path.round_ends ? CAIRO_LINE_JOIN_ROUND : CAIRO_LINE_JOIN_MITER);
      cairo_set_dash(c_, path.dash_mm.data(), static_cast<int>(path.dash_mm.size()), 0);
      cairo_stroke(c_);
    }
  }

  void operator()(const TextCommand& text) {
    if (text.text.empty() || !(text.size_mm > 0)) return;
    const Owned<PangoLayout> layout = fonts_.line(text.text, text.face, text.size_mm);
    PangoLayoutLine* line = pango_layout_get_line_readonly(layout.get(), 0);
    const double width = width_mm(layout.get());
    const double shift = text.anchor == Anchor::left     ? 0
                         : text.anchor == Anchor::middle ? -width / 2
                                                         : -width;
    cairo_save(c_);
    cairo_translate(c_, text.at.x, text.at.y);
    cairo_rotate(c_, text.turn_deg * std::numbers::pi / 180);
    if (text.halo_mm > 0) {
      cairo_new_path(c_);
      cairo_move_to(c_, shift, 0);
      pango_cairo_layout_line_path(c_, line);
      cairo_set_source_rgb(c_, 1, 1, 1);
      cairo_set_line_join(c_, CAIRO_LINE_JOIN_ROUND);
      cairo_set_dash(c_, nullptr, 0, 0);
      cairo_set_line_width(c_, 2 * text.halo_mm);
      cairo_stroke(c_);
    }
    set_ink(c_, text.ink);
    cairo_new_path(c_);
    cairo_move_to(c_, shift, 0);
    pango_cairo_show_layout_line(c_, line);
    cairo_restore(c_);
  }

  void operator()(const ImageCommand& image) {
    const std::size_t pixels =
        static_cast<std::size_t>(image.rows) * static_cast<std::size_t>(image.cols);
    if (image.rows <= 0 || image.cols <= 0 || image.rgba.size() != pixels * 4) return;
    cairo_surface_t* surface =
        cairo_image_surface_create(CAIRO_FORMAT_ARGB32, image.cols, image.rows);
    if (cairo_surface_status(surface) == CAIRO_STATUS_SUCCESS) {
      unsigned char* data = cairo_image_surface_get_data(surface);
      const int stride = cairo_image_surface_get_stride(surface);
      const std::uint8_t* from = image.rgba.data();
      for (int row = 0; row < image.rows; ++row) {
        unsigned char* to = data + static_cast<std::ptrdiff_t>(row) * stride;
        for (int col = 0; col < image.cols; ++col, from += 4, to += 4) {
          const std::uint32_t a = from[3];
          const auto pre = [a](std::uint32_t v) { return (v * a + 127) / 255; };
          const std::uint32_t argb =
              a << 24 | pre(from[0]) << 16 | pre(from[1]) << 8 | pre(from[2]);
          std::memcpy(to, &argb, 4);
        }
      }
      cairo_surface_mark_dirty(surface);
      cairo_save(c_);
      cairo_translate(c_, image.at.x, image.at.y);
      cairo_scale(c_, image.width_mm / image.cols, image.height_mm / image.rows);
      cairo_set_source_surface(c_, surface, 0, 0);
      cairo_pattern_set_filter(cairo_get_source(c_), CAIRO_FILTER_BILINEAR);
      cairo_rectangle(c_, 0, 0, image.cols, image.rows);
      cairo_fill(c_);
      cairo_restore(c_);
    }
    cairo_surface_destroy(surface);
  }

  void operator()(const ClipCommand& clip) {
    cairo_save(c_);
    ++clips_;
    cairo_rectangle(c_, clip.at.x, clip.at.y, clip.width_mm, clip.height_mm);
    cairo_clip(c_);
  }

  void operator()(const UnclipCommand&) {
    if (clips_ == 0) return;
    --clips_;
    cairo_restore(c_);
  }

  void close() {
    while (clips_ > 0) (*this)(UnclipCommand{});
  }

 private:
  cairo_t* c_;
  const Fonts& fonts_;
  int clips_ = 0;
};

}  // namespace

void render(cairo_t* to, const sheet::Drawing& drawing, const Fonts& fonts) {
  Renderer renderer(to, fonts);
  for (const Command& command : drawing.commands) std::visit(renderer, command);
  renderer.close();
}

Result<Surface> paint_surface(const sheet::Drawing& drawing, double dpi) {
  constexpr double max_pixels = 20000;
  const double wide = std::round(drawing.width_mm / 25.4 * dpi);
  const double high = std::round(drawing.height_mm / 25.4 * dpi);
  if (!(wide >= 1 && wide <= max_pixels && high >= 1 && high <= max_pixels)) {
    return fail(
        FaultCode::bad_input,
        fmt::format("picture sides: expected 1 to {} pixels, got {} x {}", max_pixels, wide, high));
  }
  const Fonts fonts;
  if (auto ok = fonts.check(); !ok) return std::unexpected(ok.error());
  Surface surface(cairo_image_surface_create(CAIRO_FORMAT_RGB24, static_cast<int>(wide),
                                             static_cast<int>(high)),
                  cairo_surface_destroy);
  const std::unique_ptr<cairo_t, void (*)(cairo_t*)> context(cairo_create(surface.get()),
                                                             cairo_destroy);
  cairo_set_source_rgb(context.get(), 1, 1, 1);
  cairo_paint(context.get());
  cairo_scale(context.get(), wide / drawing.width_mm, high / drawing.height_mm);
  render(context.get(), drawing, fonts);
  if (const auto status = cairo_status(context.get()); status != CAIRO_STATUS_SUCCESS)
    return fail(FaultCode::io_failed, cairo_status_to_string(status));
  return surface;
}

}  // namespace lodeway::io
