#pragma once
/// What the tests of paper share: plans made by hand, and looking at drawing commands.
#include <string>
#include <vector>

#include "lodeway/sheet/draw/drawing.hpp"
#include "lodeway/trip/plan.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::sheet {

[[nodiscard]] const TextMeasure& measure();
/// 12 km square of level ground, nothing on it.
[[nodiscard]] walking::Ground flat_ground();
/// The invented upland, made once.
[[nodiscard]] const walking::Ground& fells();

/// A way of `legs` legs of some 250 m, to the north-east and back by turns.
[[nodiscard]] trip::Plan plan_of(int legs, const std::string& name = "Hut");
/// Nine legs on the fells with all that paper can say: handrails, a dog-leg, aiming off, ticks,
/// stops, dangers, doubt, ways off, a day with twilight, words as long as real ones.
[[nodiscard]] trip::Plan full_plan(units::Language language = units::Language::english);

/// Upright box around a line of text, by the fonts themselves.
struct TextBox {
  double x0, y0, x1, y1;
};
[[nodiscard]] TextBox box_of(const TextCommand& text);
[[nodiscard]] std::vector<TextCommand> texts_of(const Drawing& drawing);
/// Fails the test for each line of text that is not on the page, 4 mm clear of its edges.
void expect_text_on_page(const Drawing& drawing);
/// How many pairs of lines of text lie on each other, turned as they are; each is a failure.
int overlaps(const Drawing& drawing);
/// Fails the test for each text that was cut.
void expect_nothing_cut(const Drawing& drawing);

}  // namespace lodeway::sheet
