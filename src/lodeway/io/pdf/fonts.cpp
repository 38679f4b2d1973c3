#include "lodeway/io/pdf/fonts.hpp"

#include <pango/pangocairo.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace lodeway::io {
namespace {

struct FaceFont {
  sheet::Face face;
  const char* family;  // the second name serves what the first has no glyph for
  const char* first;   // the family that must be there
  const char* package;
  PangoStyle style;
  PangoWeight weight;
};

constexpr std::array<FaceFont, 6> face_fonts{{
    {sheet::Face::words, "Noto Sans", "Noto Sans", "fonts-noto-core", PANGO_STYLE_NORMAL,
     PANGO_WEIGHT_NORMAL},
    {sheet::Face::words_bold, "Noto Sans", "Noto Sans", "fonts-noto-core", PANGO_STYLE_NORMAL,
     PANGO_WEIGHT_BOLD},
    {sheet::Face::words_italic, "Noto Sans", "Noto Sans", "fonts-noto-core", PANGO_STYLE_ITALIC,
     PANGO_WEIGHT_NORMAL},
    {sheet::Face::figures, "B612,Noto Sans", "B612", "fonts-b612", PANGO_STYLE_NORMAL,
     PANGO_WEIGHT_NORMAL},
    {sheet::Face::figures_bold, "B612,Noto Sans", "B612", "fonts-b612", PANGO_STYLE_NORMAL,
     PANGO_WEIGHT_BOLD},
    {sheet::Face::water, "Noto Serif", "Noto Serif", "fonts-noto-core", PANGO_STYLE_ITALIC,
     PANGO_WEIGHT_NORMAL},
}};

struct FreeDescription {
  void operator()(PangoFontDescription* d) const { pango_font_description_free(d); }
};
using Description = std::unique_ptr<PangoFontDescription, FreeDescription>;

Description describe(const FaceFont& f, double size_mm) {
  Description d(pango_font_description_new());
  pango_font_description_set_family_static(d.get(), f.family);
  pango_font_description_set_style(d.get(), f.style);
  pango_font_description_set_weight(d.get(), f.weight);
  pango_font_description_set_absolute_size(d.get(), size_mm * PANGO_SCALE);
  return d;
}

}  // namespace

std::string one_line(const std::string& text) {
  std::unique_ptr<char, void (*)(void*)> valid(
      g_utf8_make_valid(text.data(), static_cast<gssize>(text.size())), g_free);
  std::string out(valid.get());
  for (char& c : out) {
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7f) c = ' ';
  }
  return out;
}

void Unref::operator()(void* object) const { g_object_unref(object); }

Fonts::Fonts()
    : map_(pango_cairo_font_map_new()), context_(pango_font_map_create_context(map_.get())) {
  std::unique_ptr<cairo_font_options_t, void (*)(cairo_font_options_t*)> options(
      cairo_font_options_create(), cairo_font_options_destroy);
  cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
  cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
  cairo_font_options_set_antialias(options.get(), CAIRO_ANTIALIAS_GRAY);
  pango_cairo_context_set_font_options(context_.get(), options.get());
  pango_context_set_round_glyph_positions(context_.get(), FALSE);
}

Result<void> Fonts::check() const {
  for (const FaceFont& f : face_fonts) {
    Description wanted(pango_font_description_new());
    pango_font_description_set_family_static(wanted.get(), f.first);
    pango_font_description_set_absolute_size(wanted.get(), 10 * PANGO_SCALE);
    Owned<PangoFont> font(pango_font_map_load_font(map_.get(), context_.get(), wanted.get()));
    const Description found(font ? pango_font_describe(font.get()) : nullptr);
    const char* family = found ? pango_font_description_get_family(found.get()) : nullptr;
    if (family == nullptr || std::string_view(family) != f.first) {
      return fail(FaultCode::bad_input, std::string("fonts: expected the family ") + f.first +
                                            ", not found: install the Debian package " + f.package);
    }
  }
  return {};
}

Owned<PangoLayout> Fonts::line(const std::string& text, sheet::Face face, double size_mm) const {
  Owned<PangoLayout> layout(pango_layout_new(context_.get()));
  const auto* const f = std::ranges::find(face_fonts, face, &FaceFont::face);
  const Description d = describe(f == face_fonts.end() ? face_fonts[0] : *f, size_mm);
  pango_layout_set_font_description(layout.get(), d.get());
  pango_layout_set_single_paragraph_mode(layout.get(), TRUE);
  const std::string clean = one_line(text);
  pango_layout_set_text(layout.get(), clean.c_str(), static_cast<int>(clean.size()));
  return layout;
}

double width_mm(PangoLayout* layout) {
  PangoRectangle logical;
  pango_layout_line_get_extents(pango_layout_get_line_readonly(layout, 0), nullptr, &logical);
  return static_cast<double>(logical.width) / PANGO_SCALE;
}

}  // namespace lodeway::io
