#pragma once
/// A page as drawing commands in millimetres, origin top left, y downwards; no file format.
#include <cstdint>
#include <string>
#include <variant>
#include <vector>

namespace lodeway::sheet {

struct Mm {
  double x = 0, y = 0;
  friend bool operator==(const Mm&, const Mm&) = default;
};

struct Ink {
  std::uint8_t red = 0, green = 0, blue = 0;
  double alpha = 1;
  friend bool operator==(const Ink&, const Ink&) = default;
};

enum class Face : unsigned char { words, words_bold, words_italic, figures, figures_bold, water };

/// One run of points. `rings` are filled by the even-odd rule when `fill` is set.
struct PathCommand {
  std::vector<std::vector<Mm>> rings;
  bool closed = false;
  double width_mm = 0;  ///< 0: not stroked
  Ink stroke;
  bool fill = false;
  Ink fill_ink;
  std::vector<double> dash_mm;  ///< empty: solid
  bool round_ends = false;
};

enum class Anchor : unsigned char { left, middle, right };

/// One line of text. `at` is on the baseline.
struct TextCommand {
  std::string text;  ///< UTF-8
  Mm at;
  double size_mm = 3;  ///< em
  Face face = Face::words;
  Ink ink;
  Anchor anchor = Anchor::left;
  double turn_deg = 0;  ///< clockwise on the page
  double halo_mm = 0;   ///< white halo around the letters, each side
};

/// A grey or coloured picture under the lines: relief shade.
struct ImageCommand {
  Mm at;
  double width_mm = 0, height_mm = 0;
  int rows = 0, cols = 0;
  std::vector<std::uint8_t> rgba;  ///< row 0 on top, 4 bytes a pixel, not premultiplied
};

struct ClipCommand {
  Mm at;
  double width_mm = 0, height_mm = 0;
};  ///< until UnclipCommand
struct UnclipCommand {};

using Command = std::variant<PathCommand, TextCommand, ImageCommand, ClipCommand, UnclipCommand>;

struct Drawing {
  double width_mm = 210, height_mm = 297;
  std::string title;
  std::vector<Command> commands;
  /// Texts of which the fonts lack letters, each once; on the page a dot stands for such a letter.
  std::vector<std::string> unreadable;
};

/// How wide a line of text will be: given by whoever owns the fonts (io), so that layout needs
/// none.
class TextMeasure {
 public:
  virtual ~TextMeasure() = default;
  [[nodiscard]] virtual double width_mm(const std::string& text, Face face,
                                        double size_mm) const = 0;
  /// True when every character has a glyph in the face or its fall-backs.
  [[nodiscard]] virtual bool covers(const std::string& text, Face face) const = 0;
};

}  // namespace lodeway::sheet
