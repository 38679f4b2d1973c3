#pragma once
/// Internal to training: one column of rows that runs on to a next page.
#include <string>
#include <vector>

#include "lodeway/sheet/draw/page.hpp"
#include "lodeway/sheet/map/map_frame.hpp"
#include "lodeway/sheet/training/training_sheets.hpp"
#include "lodeway/units/said.hpp"

namespace lodeway::sheet::training {

inline constexpr double page_w = 210, page_h = 297, edge = 14, wide = page_w - 2 * edge,
                        low = page_h - 16;

[[nodiscard]] inline Type words(double points, bool bold = false, const Ink& ink = ink::text) {
  return {bold ? Face::words_bold : Face::words, points * mm_per_point, ink};
}
[[nodiscard]] inline Type figures(double points, bool bold = false) {
  return {bold ? Face::figures_bold : Face::figures, points * mm_per_point, ink::text};
}

using units::in, units::said;

[[nodiscard]] const char* exercise_foot(units::Language language);
/// "level", "eben".
[[nodiscard]] const char* pace_words(learn::PaceGround ground, units::Language language);

class Column {
 public:
  /// `code` stands at the upper right, `foot` below, on every page.
  Column(std::string title, std::string code, std::string foot, const TextMeasure& measure);
  /// Room for so many millimetres below, on a new page if need be.
  void need(double mm);
  void heading(const std::string& words, const std::string& note = {});
  void paragraph(const std::string& rich, double points = 9.5);
  /// A box with a dark edge: what comes first.
  void caution(const std::vector<std::string>& sentences);
  [[nodiscard]] Page& page() { return pages_.back(); }
  [[nodiscard]] double& y() { return y_; }
  [[nodiscard]] std::vector<Drawing> take();

 private:
  void begin();
  std::string title_, code_, foot_;
  const TextMeasure& measure_;
  std::vector<Page> pages_;
  double y_ = 0;
};

/// "4123 3456": to the nearest 10 m.
[[nodiscard]] std::string reference(earth::GridPoint p);
/// "E 597412 N 4919038": to the metre, for who lays a peg.
[[nodiscard]] std::string full_reference(earth::GridPoint p);
/// The bearing as it stands on a dial: "044°".
[[nodiscard]] std::string dial(units::MagneticBearing b);

/// "B3, B1, B2" in the order that walks least between them.
[[nodiscard]] std::string order_words(const char* letter, const std::vector<std::size_t>& order);

/// What there is to do at the start: "desk, pace".
[[nodiscard]] const char* base_words(const learn::TrainingDay& day);

/// One line of what the map's signs are, those of masts and lines that the piece in `frame` has.
void draw_key(Page& page, const MapFrame& frame, const walking::Ground& ground, Mm at,
              units::Language language);

/// Who is where when, as bars along the hours: pairs, then instructors.
void draw_timetable(Column& column, const learn::TrainingDay& day);

}  // namespace lodeway::sheet::training
