#pragma once
/// Paper of a training day: for those who learn (course sheet, map piece), for the instructors
/// (answer sheet, marking sheet). A4, in grey too. The same day draws the same commands.
#include <string>
#include <vector>

#include "lodeway/learn/course/training_day.hpp"
#include "lodeway/sheet/draw/drawing.hpp"

namespace lodeway::sheet {

/// `code` stands on every sheet: marks of another ground or day are noticed by it.
struct TrainingPaper {
  const learn::TrainingDay& day;
  const walking::Ground& ground;
  std::string code;
  double stride_m = 0.8;  ///< for the paces on the answer sheet
};

/// All in the day's language.
///
/// What to do, in the order in which it is taught, with cautions first and no answers.
[[nodiscard]] std::vector<Drawing> draw_course_sheet(const TrainingPaper& paper,
                                                     const TextMeasure& measure);
/// References, bearings, paces, catching features, which mistake each wrong answer is.
[[nodiscard]] std::vector<Drawing> draw_answer_sheet(const TrainingPaper& paper,
                                                     const TextMeasure& measure);
/// Boxes to be struck with cold hands: two a peg, tallies for yes and no.
[[nodiscard]] std::vector<Drawing> draw_marking_sheet(const TrainingPaper& paper,
                                                      const TextMeasure& measure);
/// 1:25 000 about the start: starts, ends and the fork walk from its start to its end; drops are not
/// on it.
[[nodiscard]] Drawing draw_map_piece(const TrainingPaper& paper, const TextMeasure& measure);

}  // namespace lodeway::sheet
