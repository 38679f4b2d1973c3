#pragma once
/// Inside io/pdf only: the faces of the sheet as Pango fonts, and one line of text made ready.
#include <memory>
#include <string>

#include "lodeway/result/result.hpp"
#include "lodeway/sheet/draw/drawing.hpp"

typedef struct _PangoContext PangoContext;
typedef struct _PangoLayout PangoLayout;
typedef struct _PangoFontMap PangoFontMap;

namespace lodeway::io {

struct Unref {
  void operator()(void* object) const;
};
template <class T>
using Owned = std::unique_ptr<T, Unref>;

/// A font map and a context whose unit is the millimetre: no hinting, no rounding, so that the same
/// text has the same width at every size and on every surface.
class Fonts {
 public:
  Fonts();
  /// Faults: bad_input, naming the Debian package, when a family is not installed.
  [[nodiscard]] Result<void> check() const;
  /// One line: control characters are blanks, broken UTF-8 is marked as such.
  [[nodiscard]] Owned<PangoLayout> line(const std::string& text, sheet::Face face,
                                        double size_mm) const;

 private:
  Owned<PangoFontMap> map_;
  Owned<PangoContext> context_;
};

/// Valid UTF-8 without control characters, which neither Pango nor a PDF's title can hold.
[[nodiscard]] std::string one_line(const std::string& text);

/// Advance width of the layout's one line, millimetres.
[[nodiscard]] double width_mm(PangoLayout* layout);

}  // namespace lodeway::io
