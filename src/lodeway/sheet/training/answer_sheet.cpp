#include <cmath>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "lodeway/sheet/training/training_page.hpp"
#include "lodeway/units/text.hpp"

namespace lodeway::sheet {

namespace {
using namespace training;
using Mistake = learn::SettingItem::Mistake;

std::string mistake_words(Mistake m) {
  switch (m) {
    case Mistake::none:
      return "right";
    case Mistake::back:
      return "back bearing";
    case Mistake::wrong_sign:
      return "magnetic with the wrong sign";
    case Mistake::grid:
      return "grid, not magnetic";
    case Mistake::next:
      return "the next one like it";
  }
  return "";
}

void line(Column& c, const std::string& name, const std::string& rich) {
  const auto type = words(9);
  const double leading = 4.1, room = wide - 11;
  c.need(leading * c.page().lines_needed(rich, room, type) + 1);
  c.page().text(name, {edge, c.y()}, words(9.5, true));
  c.y() = c.page().paragraph(rich, {edge + 11, c.y()}, room, type, leading) + 0.8;
}
}  // namespace

std::vector<Drawing> draw_answer_sheet(const TrainingPaper& paper, const TextMeasure& measure) {
  const auto& day = paper.day;
  Column c("Training day: answers, for instructors", paper.code, exercise_foot, measure);
  c.caution(
      {"Walk every course before you set it. The map does not show everything that hurts.",
       "Courses keep ground over 30° and ground to keep off outside three novice sigmas and "
       "60 m of their line, and have a catching feature beyond. That is worked out, not seen.",
       "Two instructors, whistles, time-out 30 minutes, a shelter and first aid."});
  const auto magnetic = [&](units::GridBearing b) {
    return units::MagneticBearing::degrees(b.in_degrees() - day.magnetic_from_grid_deg);
  };
  const auto paces = [&](double metres) {
    return fmt::format("{:.0f} double paces", units::double_paces(metres, paper.stride_m));
  };
  if (!day.settings.empty()) {
    c.heading("Desk", "right letter; what the wrong ones are");
    for (std::size_t i = 0; i < day.settings.size(); ++i) {
      const auto& s = day.settings[i];
      std::string right, wrong;
      for (std::size_t a = 0; a < s.answers.size(); ++a) {
        const auto letter = std::string(1, static_cast<char>('A' + a));
        if (s.answers[a].mistake == Mistake::none) {
          right = letter;
        } else {
          wrong += fmt::format(", {} {}", letter, mistake_words(s.answers[a].mistake));
        }
      }
      line(c, fmt::format("{}", i + 1), fmt::format("{} ({}){}", right, dial(s.right), wrong));
    }
  }
  if (!day.bearings.empty()) {
    c.heading("Open bearing", "put a peg at the end before, out of sight of the start");
    for (std::size_t i = 0; i < day.bearings.size(); ++i) {
      const auto& b = day.bearings[i];
      line(c, fmt::format("B{}", i + 1),
           fmt::format(
               "{} to {}: {} on the dial, {:.0f} m, {:.0f} mm, {}. Up {:.0f} m, down {:.0f} m. "
               "Beyond: {}, {:.0f} m past the peg. A novice pair ends {:.0f} m across, {:.0f} m "
               "along (one sigma). 7 m across is 1°. Crosses: {}.{}",
               reference(b.from), reference(b.peg), dial(magnetic(b.bearing)), b.length_m,
               units::map_mm(b.length_m, 25000), paces(b.length_m), b.climb_m, b.descent_m,
               b.catches, b.catches_beyond_m, b.cross_sigma_m, b.along_sigma_m,
               b.crosses.empty() ? "nothing" : fmt::format("{}", fmt::join(b.crosses, ", ")),
               b.may_plant ? " A wrong bearing (30°) may be planted here; tell them after." : ""));
    }
  }
  if (!day.features.empty()) {
    c.heading("Features");
    for (std::size_t i = 0; i < day.features.size(); ++i) {
      const auto& f = day.features[i];
      line(c, fmt::format("F{}", i + 1),
           fmt::format(
               "{} at {}: from {} {} on the dial, {:.0f} m, {}; seen from {:.0f} m. {} in 100 "
               "practised pairs come into sight and know it.",
               f.words, reference(f.at), f.from_words, dial(magnetic(f.bearing)), f.length_m,
               paces(f.length_m), f.seen_from_m, units::of_hundred(1 - f.difficulty)));
    }
  }
  if (day.forks) {
    c.heading("Forks", "turn from straight on, right is +; hard is 100");
    for (std::size_t i = 0; i < day.forks->forks.size(); ++i) {
      const auto& f = day.forks->forks[i];
      line(c, fmt::format("{}", i + 1),
           fmt::format("{} at {:.0f} m: right {:+.0f}° ({}), wrong {:+.0f}° ({}), hard {:.0f}",
                       reference(f.at), f.at_m, f.turn_deg, f.right, f.wrong_turn_deg, f.wrong,
                       100 * f.difficulty));
    }
  }
  if (!day.drops.empty()) {
    c.heading("Where are we?");
    for (std::size_t i = 0; i < day.drops.size(); ++i) {
      const auto& d = day.drops[i];
      line(c, fmt::format("D{}", i + 1),
           fmt::format(
               "{}; {:.0f} m high, falls to {} on the dial, {:.0f}°. From {}: {:.0f} m. Height, "
               "fall and steepness leave ground like a circle of {:.0f} m ({}).",
               reference(d.at), d.height_m, dial(magnetic(d.falls)), d.slope_deg, d.sure_words,
               earth::grid_distance_m(d.at, d.sure), d.radius_m,
               d.radius_m <= 150   ? "easy"
               : d.radius_m <= 300 ? "middle"
                                   : "hard"));
    }
  }
  if (!day.times.empty()) {
    c.heading("Distance by time", "stretches of the fork walk");
    for (std::size_t i = 0; i < day.times.size(); ++i)
      line(c, fmt::format("T{}", i + 1),
           fmt::format("{} to {}, {:.0f} m", reference(day.times[i].line.front()),
                       reference(day.times[i].line.back()), day.times[i].length_m));
  }
  for (const auto& missing : day.missing) line(c, "", "Not here: " + missing);
  return c.take();
}

}  // namespace lodeway::sheet
