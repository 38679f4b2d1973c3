#include <fmt/format.h>

#include "lodeway/sheet/training/training_page.hpp"
#include "lodeway/units/text.hpp"

namespace lodeway::sheet {

namespace {
using namespace training;

void desk(Column& c, const learn::TrainingDay& day) {
  c.heading("Desk: set the bearing",
            "map and compass only; strike the letter of what the dial shows");
  const double half = 0.5 * wide;
  for (std::size_t i = 0; i < day.settings.size(); ++i) {
    const bool left = i % 2 == 0;
    if (left) c.need(10.5);
    const auto& s = day.settings[i];
    const double x = edge + (left ? 0 : half);
    c.page().fitted(fmt::format("{}. {} to {}", i + 1, s.from_words, s.to_words), {x, c.y()},
                    half - 4, words(9), Anchor::left, 0.6);
    for (std::size_t a = 0; a < s.answers.size(); ++a) {
      c.page().text(fmt::format("{} {}", static_cast<char>('A' + a), dial(s.answers[a].bearing)),
                    {x + 4 + 20.5 * static_cast<double>(a), c.y() + 4.4}, figures(9.5));
    }
    if (!left || i + 1 == day.settings.size()) c.y() += 10.2;
  }
}

/// Name, a line of words, and blanks to be filled in.
void row(Column& c, const std::string& name, const std::string& what,
         const std::vector<std::pair<std::string, double>>& blanks) {
  c.need(8);
  c.page().text(name, {edge, c.y()}, words(10.5, true));
  double room = wide - 12;
  for (const auto& [label, w] : blanks) room -= w + 3;
  c.page().fitted(what, {edge + 12, c.y()}, room - 2, words(9.5), Anchor::left, 0.65);
  double x = edge + 12 + room;
  for (const auto& [label, w] : blanks) {
    c.page().text(label, {x, c.y()}, words(8, false, ink::stone));
    c.page().stroke({{x, c.y() + 1.2}, {x + w, c.y() + 1.2}}, {ink::stone, 0.25});
    x += w + 3;
  }
  c.y() += 7;
}
}  // namespace

std::vector<Drawing> draw_course_sheet(const TrainingPaper& paper, const TextMeasure& measure) {
  const auto& day = paper.day;
  Column c("Training day: courses", paper.code, exercise_foot, measure);
  c.caution({
      "Nobody goes alone. Every pair stays in sight of an instructor or is followed.",
      "Lost, or 30 minutes gone on one course: stop, six blasts a minute, stay where you are.",
      "Past the count and no peg: go no further than the catching feature named to you. Stop "
      "there.",
      "Lightning, strong wind, cold hands, failing light: we stop. No course is worth it.",
  });
  c.paragraph(fmt::format(
      "Begins at {}. Map piece 1:25 000. From a grid bearing take {:.1f}° {} for the dial.",
      day.from_words, std::abs(day.magnetic_from_grid_deg),
      day.magnetic_from_grid_deg >= 0 ? "off" : "on, that is add,"));
  c.paragraph(
      "Order: set the map, lines, forks, pace, a bearing to a mark in sight, 400 m unseen, "
      "catching "
      "feature and aiming off, attack point, contours, relocation, poor sight.",
      9);
  if (!day.settings.empty()) desk(c, day);
  if (!day.paces.empty()) {
    c.heading("Pace", "taped; count double paces, twice each");
    for (std::size_t i = 0; i < day.paces.size(); ++i) {
      const auto& p = day.paces[i];
      row(c, fmt::format("P{}", i + 1),
          fmt::format("{:.0f} m, {}, from {}", p.length_m, learn::pace_ground_name(p.ground),
                      reference(p.from)),
          {{"run 1", 22}, {"run 2", 22}});
    }
  }
  if (!day.bearings.empty()) {
    c.heading("Open bearing",
              "to a hidden peg; sightings of 50 m; mark each line at once as you cross it");
    for (std::size_t i = 0; i < day.bearings.size(); ++i) {
      const auto& b = day.bearings[i];
      row(c, fmt::format("B{}", i + 1),
          fmt::format("from {} to {}", reference(b.from), reference(b.peg)),
          {{"dial", 18}, {"mm", 16}, {"paces", 18}, {"lines crossed", 40}});
    }
  }
  if (!day.features.empty()) {
    c.heading("Features", "say when you stand on it, and how you know");
    for (std::size_t i = 0; i < day.features.size(); ++i) {
      const auto& f = day.features[i];
      row(c, fmt::format("F{}", i + 1),
          fmt::format("{} {}: find {} at {}", f.attack_point ? "from the attack point" : "from",
                      f.from_words, f.words, reference(f.at)),
          {{"sure?", 18}});
    }
  }
  if (day.forks) {
    c.heading("Forks",
              fmt::format("the walk drawn on the map piece, {} forks, {}", day.forks->forks.size(),
                          units::length_text(day.forks->length_m)));
    c.paragraph(
        "Lead by the map. The instructor walks behind and says nothing. When you think you "
        "are wrong, stop and say so.");
  }
  if (!day.drops.empty()) {
    c.heading("Where are we?", "led here without the map; five minutes each");
    for (std::size_t i = 0; i < day.drops.size(); ++i) {
      row(c, fmt::format("D{}", i + 1),
          fmt::format("last sure place: {}. Draw the area you are in.", day.drops[i].sure_words),
          {{"height", 18}, {"falls to", 18}, {"bearing to", 24}});
    }
  }
  if (!day.times.empty()) {
    c.heading("Distance by time", "watch only; along the fork walk");
    for (std::size_t i = 0; i < day.times.size(); ++i)
      row(c, fmt::format("T{}", i + 1), "say before you set out how many minutes",
          {{"guessed", 24}, {"true", 24}});
  }
  for (const auto& missing : day.missing) c.paragraph("Not here: " + missing, 8.5);
  return c.take();
}

}  // namespace lodeway::sheet
