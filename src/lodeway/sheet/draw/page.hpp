#pragma once
/// The hand that draws: short calls that add commands to a Drawing, and lay text into given widths.
#include <string>
#include <utility>
#include <vector>

#include "lodeway/sheet/draw/drawing.hpp"
#include "lodeway/sheet/draw/ink.hpp"

namespace lodeway::sheet {

struct Pen {
  Ink ink = ink::text;
  double width_mm = 0.2;
  std::vector<double> dash_mm = {};
  bool round = false;
};

/// How a run of text looks.
struct Type {
  Face face = Face::words;
  double size_mm = 3;
  Ink ink = ink::text;
  double halo_mm = 0;
};

inline constexpr double mm_per_point = 25.4 / 72;

// Marks inside a rich text, which plain() keeps out of anything that comes from outside.
inline constexpr char bold_on = '\1', figures_on = '\2', plain_on = '\3';

class Page {
 public:
  Page(double width_mm, double height_mm, std::string title, const TextMeasure& measure);

  void stroke(std::vector<Mm> line, const Pen& pen, bool closed = false);
  void strokes(std::vector<std::vector<Mm>> lines, const Pen& pen, bool closed = false);
  void fill(std::vector<std::vector<Mm>> rings, const Ink& ink);
  void shape(std::vector<std::vector<Mm>> rings, const Ink& ink, const Pen& edge);
  void box(double x, double y, double w, double h, const Ink& ink);
  void frame(double x, double y, double w, double h, const Pen& pen);
  void clip(double x, double y, double w, double h);
  void unclip();
  void add(Command command) { drawing_.commands.push_back(std::move(command)); }

  /// One line on the baseline; answers its width.
  double text(std::string words, Mm at, const Type& type, Anchor anchor = Anchor::left,
              double turn_deg = 0);
  /// The same within `max_mm`: made smaller down to `least` of its size, then cut with an ellipsis.
  double fitted(std::string words, Mm at, double max_mm, const Type& type,
                Anchor anchor = Anchor::left, double least = 0.75);
  /// Words (with bold_on … marks) wrapped into `width_mm`, first baseline at `at.y`; at most
  /// `max_lines`, the last cut with an ellipsis. Answers the baseline after the last line.
  double paragraph(const std::string& rich, Mm at, double width_mm, const Type& type,
                   double leading_mm, int max_lines = 99);
  /// As many lines as paragraph() would take, at most `max_lines`.
  [[nodiscard]] int lines_needed(const std::string& rich, double width_mm, const Type& type,
                                 int max_lines = 99) const;

  /// The width of the widest word: a column narrower than this cuts it.
  [[nodiscard]] double longest_word(const std::string& words, const Type& type) const;
  [[nodiscard]] double width(const std::string& words, const Type& type) const;
  /// The words, or their beginning and an ellipsis, within `max_mm`.
  [[nodiscard]] std::string cut(const std::string& words, double max_mm, const Type& type) const;
  [[nodiscard]] const TextMeasure& measure() const { return measure_; }
  [[nodiscard]] Drawing& drawing() { return drawing_; }
  [[nodiscard]] const Drawing& drawing() const { return drawing_; }
  [[nodiscard]] Drawing take() { return std::move(drawing_); }

 private:
  /// Without control characters; letters that the fonts lack are dots, and noted.
  std::string fit_to_print(std::string words, Face face);
  struct Piece {
    std::string words;
    Face face;
    double width = 0;
    bool blank_before = false;
  };
  [[nodiscard]] std::vector<std::vector<Piece>> wrap(const std::string& rich, double width_mm,
                                                     const Type& type, int max_lines) const;
  Drawing drawing_;
  const TextMeasure& measure_;
};

/// The drawing made larger or smaller as a whole.
[[nodiscard]] Drawing scaled(const Drawing& drawing, double factor);

/// A closed ring near to a circle.
[[nodiscard]] std::vector<Mm> circle(Mm centre, double radius_mm);

}  // namespace lodeway::sheet
