#include <fmt/format.h>

#include "lodeway/sheet/training/training_page.hpp"

namespace lodeway::sheet {

namespace {
using namespace training;

/// Boxes of 9 mm: a gloved hand strikes one.
void boxes(Page& page, double x, double y, int count, double size = 9) {
  for (int i = 0; i < count; ++i)
    page.frame(x + i * (size + 1.5), y - size + 2.5, size, size, {ink::night, 0.4});
}

void pegs(Column& c, const learn::TrainingDay& day) {
  c.heading("Open bearing", "strike the side, write the metres; 7 m across is 1° at 400 m");
  for (const char* pair : {"A", "B", "C"}) {
    for (std::size_t i = 0; i < day.bearings.size(); ++i) {
      c.need(13);
      auto& p = c.page();
      const double y = c.y() + 3;
      p.text(fmt::format("B{}", i + 1), {edge, y}, words(12, true));
      p.text(fmt::format("pair {}", pair), {edge + 11, y}, words(9.5));
      double x = edge + 28;
      for (const char* side : {"left", "right"}) {
        p.frame(x, y - 6.5, 15, 9, {ink::night, 0.4});
        p.text(side, {x + 7.5, y - 0.6}, words(9.5), Anchor::middle);
        x += 16.5;
      }
      p.frame(x, y - 6.5, 24, 9, {ink::night, 0.7});
      p.text("m", {x + 22, y - 0.6}, words(8.5, false, ink::stone), Anchor::right);
      x += 32;
      for (const char* side : {"short", "long"}) {
        p.frame(x, y - 6.5, 15, 9, {ink::night, 0.4});
        p.text(side, {x + 7.5, y - 0.6}, words(9.5), Anchor::middle);
        x += 16.5;
      }
      p.frame(x, y - 6.5, 24, 9, {ink::night, 0.7});
      p.text("m", {x + 22, y - 0.6}, words(8.5, false, ink::stone), Anchor::right);
      c.y() += 11.5;
    }
  }
}

void tally(Column& c, const std::string& name, const std::string& yes, int count) {
  for (const char* pair : {"A", "B", "C"}) {
    c.need(13);
    auto& p = c.page();
    const double y = c.y() + 3;
    p.text(fmt::format("pair {}", pair), {edge, y}, words(9.5));
    boxes(p, edge + 16, y - 1, count);
    c.y() += 11.5;
  }
  c.paragraph(
      fmt::format("{}: strike a box for each {}; a ring for each that was not; leave blank what "
                  "was not tried.",
                  name, yes),
      8.5);
}
}  // namespace

std::vector<Drawing> draw_marking_sheet(const TrainingPaper& paper, const TextMeasure& measure) {
  const auto& day = paper.day;
  Column c("Training day: marks", paper.code, exercise_foot, measure);
  c.paragraph(
      "Date ____________   Clear / cloud / night / snow   Who is A ____________ B ____________ "
      "C ____________",
      10.5);
  c.paragraph(
      "A box left empty is not 0: it says that this was not done. Strike with one stroke; write "
      "figures large.",
      9);
  if (!day.bearings.empty()) pegs(c, day);
  if (!day.features.empty()) {
    c.heading("Features", fmt::format("F1 to F{}", day.features.size()));
    tally(c, "Features", "end known for what it is", static_cast<int>(day.features.size()));
  }
  if (day.forks) {
    c.heading("Forks", "metres until a wrong one is noticed, beside");
    tally(c, "Forks", "right branch", static_cast<int>(day.forks->forks.size()));
  }
  int lines = 0;
  for (const auto& b : day.bearings) lines += static_cast<int>(b.crosses.size());
  if (lines > 0) {
    c.heading("Lines crossed", "from the card that was marked at once");
    tally(c, "Lines", "line noticed and named", std::min(lines, 14));
  }
  if (!day.paces.empty()) {
    c.heading("Pace", "double paces, two runs each, each of the party");
    for (std::size_t i = 0; i < day.paces.size(); ++i) {
      c.need(13);
      const double y = c.y() + 3;
      c.page().text(fmt::format("P{} {}", i + 1, learn::pace_ground_name(day.paces[i].ground)),
                    {edge, y}, words(9.5, true));
      for (int k = 0; k < 6; ++k)
        c.page().frame(edge + 30 + 25.0 * k, y - 6.5, 22, 9, {ink::night, 0.4});
      c.y() += 11.5;
    }
  }
  if (!day.drops.empty()) {
    c.heading("Where are we?", "off by: height m, fall °, bearing °; inside the area drawn?");
    for (std::size_t i = 0; i < day.drops.size(); ++i) {
      c.need(13);
      const double y = c.y() + 3;
      c.page().text(fmt::format("D{}", i + 1), {edge, y}, words(12, true));
      for (int k = 0; k < 3; ++k)
        c.page().frame(edge + 16 + 32.0 * k, y - 6.5, 28, 9, {ink::night, 0.4});
      c.page().text("inside", {edge + 116, y}, words(9.5));
      boxes(c.page(), edge + 130, y - 1, 3);
      c.y() += 11.5;
    }
  }
  if (!day.times.empty()) {
    c.heading("Distance by time", "guessed, true; minutes");
    for (std::size_t i = 0; i < day.times.size(); ++i) {
      c.need(13);
      const double y = c.y() + 3;
      c.page().text(fmt::format("T{}", i + 1), {edge, y}, words(12, true));
      for (int k = 0; k < 6; ++k)
        c.page().frame(edge + 16 + 26.0 * k, y - 6.5, 23, 9, {ink::night, 0.4});
      c.y() += 11.5;
    }
  }
  c.paragraph(
      fmt::format("Then type them into marks.toml ({}) and run: lodeway learn PARTY --marks "
                  "marks.toml",
                  paper.code),
      9);
  return c.take();
}

}  // namespace lodeway::sheet
