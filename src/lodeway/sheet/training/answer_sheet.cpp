#include <cmath>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "lodeway/learn/course/codes.hpp"
#include "lodeway/sheet/training/training_page.hpp"
#include "lodeway/units/text.hpp"

namespace lodeway::sheet {

namespace {
using namespace training;

/// Rounded, and never minus nothing.
double whole(double degrees) { return std::round(degrees) + 0.0; }
/// Steps of 40 m along the line see a road that crosses it from at most half of that.
constexpr double crossed_m = 20;
using Mistake = learn::SettingItem::Mistake;

const char* mistake_words(Mistake m, units::Language l) {
  switch (m) {
    case Mistake::none:
      return in(l, "right", "richtig");
    case Mistake::back:
      return in(l, "back bearing", "Rückpeilung");
    case Mistake::wrong_sign:
      return in(l, "declination with the wrong sign", "Missweisung mit falschem Vorzeichen");
    case Mistake::grid:
      return in(l, "grid, not magnetic", "Gitter, nicht magnetisch");
    case Mistake::next:
      return in(l, "the next one like it", "der nächste seiner Art");
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
  const auto l = day.language;
  Column c(in(l, "Training day: answers, for instructors", "Übungstag: Lösungen, für Ausbilder"),
           paper.code, exercise_foot(l), measure);
  std::vector<std::string> first;
  if (!day.roads_known)
    first.emplace_back(
        in(l,
           "This map has no road, railway, track or path at all: it knows of none. Cliffs, rivers "
           "and fences may be missing too. The rules about them could not be checked here. Set no "
           "course without another map.",
           "Diese Karte hat keine Straße, keine Bahn, keinen Weg: sie weiß von keinen. Felswände, "
           "Flüsse und Zäune können auch fehlen. Die Regeln dafür ließen sich hier nicht prüfen. "
           "Legt keine Aufgabe ohne eine andere Karte."));
  const std::vector<std::string> always{
      in(l, "Walk every course before you set it. The map does not show everything that hurts.",
         "Geht jede Aufgabe vorher ab. Die Karte zeigt nicht alles, was gefährlich ist."),
      in(l,
         "Courses keep ground over 30° and ground to keep off outside three novice sigmas and "
         "60 m of their line, and have a catching feature beyond. That is worked out, not seen.",
         "Die Aufgaben halten Gelände über 30° und zu meidendes Gelände außerhalb von drei "
         "Anfänger-Sigma und 60 m neben ihrer Linie und haben eine Auffanglinie dahinter. Das ist "
         "gerechnet, nicht gesehen."),
      in(l,
         "No course goes along or over a main road, a railway, or a road of which the map does "
         "not "
         "say how busy it is.",
         "Keine Aufgabe führt auf oder über eine Hauptstraße, eine Bahn oder eine Straße, von der "
         "die Karte nicht sagt, wie befahren sie ist.") +
          std::string(day.roads_told
                          ? in(l,
                               " Where it says quiet, nobody has counted: look before you set the "
                               "course, and see the pairs across.",
                               " Wo sie ruhig sagt, hat niemand gezählt: seht vorher nach und "
                               "bringt die Paare hinüber.")
                          : in(l, " This ground says it of no road.",
                               " Dieses Gelände sagt es von keiner.")),
      in(l, "Two instructors, whistles, time-out 30 minutes, a shelter and first aid.",
         "Zwei Ausbilder, Pfeifen, Abbruch nach 30 Minuten, ein Wetterschutz und Erste Hilfe.")};
  // Of roads that the map cannot have, nothing is claimed.
  constexpr std::size_t about_roads = 2;
  for (std::size_t i = 0; i < always.size(); ++i) {
    if (day.roads_known || i != about_roads) first.push_back(always[i]);
  }
  c.caution(first);
  const auto magnetic = [&](units::GridBearing b) {
    return units::MagneticBearing::degrees(b.in_degrees() - day.magnetic_from_grid_deg);
  };
  const auto paces = [&](double metres) {
    return said(l, "{:.0f} double paces", "{:.0f} Doppelschritte",
                units::double_paces(metres, paper.stride_m));
  };
  draw_timetable(c, day);
  c.paragraph(
      in(l,
         "References are squares of 10 m; pegs are given to the metre on the ground's grid. "
         "The signs after a name are those of the marking sheet and of marks.toml.",
         "Angaben sind Quadrate von 10 m; Pflöcke stehen auf den Meter im Gitter des "
         "Geländes. Die Zeichen hinter einem Namen stehen auch auf dem Blatt der Wertung und in "
         "marks.toml."),
      9);
  const auto coded = [&](const std::string& name) {
    return fmt::format("[{}] ", learn::course_signs(paper.code, name));
  };
  if (!day.settings.empty()) {
    c.heading(in(l, "Desk", "Am Tisch"), in(l, "right letter; what the wrong ones are",
                                            "richtiger Buchstabe; was die falschen sind"));
    for (std::size_t i = 0; i < day.settings.size(); ++i) {
      const auto& s = day.settings[i];
      std::string right, wrong;
      for (std::size_t a = 0; a < s.answers.size(); ++a) {
        const auto letter = std::string(1, static_cast<char>('A' + a));
        if (s.answers[a].mistake == Mistake::none) {
          right = letter;
        } else {
          wrong += fmt::format(", {} {}", letter, mistake_words(s.answers[a].mistake, l));
        }
      }
      line(c, fmt::format("{}", i + 1), fmt::format("{} ({}){}", right, dial(s.right), wrong));
    }
  }
  if (!day.paces.empty()) {
    c.heading(in(l, "Pace", "Schritte"), in(l, "tape it from the first to the second reference",
                                            "von der ersten zur zweiten Angabe abmessen"));
    for (std::size_t i = 0; i < day.paces.size(); ++i) {
      const auto& p = day.paces[i];
      line(c, fmt::format("P{}", i + 1),
           coded(fmt::format("P{}", i + 1)) + said(l, "{}: {} to {}, {:.0f} m, slope {:.0f}°",
                                                   "{}: {} nach {}, {:.0f} m, Neigung {:.0f}°",
                                                   pace_words(p.ground, l), full_reference(p.from),
                                                   full_reference(p.to), p.length_m, p.slope_deg));
    }
  }
  if (!day.bearings.empty()) {
    c.heading(in(l, "Open bearing", "Kompasslauf"),
              in(l, "put a peg at the end before, out of sight of the start",
                 "vorher einen Pflock ans Ende setzen, verdeckt vom Start"));
    for (std::size_t i = 0; i < day.bearings.size(); ++i) {
      const auto& b = day.bearings[i];
      std::string road;
      if (b.road_catches)
        road = in(l, " That is a road or railway: they stop before it.",
                  " Das ist eine Straße oder Bahn: sie halten davor an.");
      if (b.road_beside_m && *b.road_beside_m < crossed_m) {
        road += in(l, " Crosses a road that the map has as quiet: one of you stands there.",
                   " Kreuzt eine Straße, die auf der Karte ruhig ist: dort steht jemand von euch.");
      } else if (b.road_beside_m) {
        road += said(l, " A road or railway lies {:.0f} m beside: one of you stands there.",
                     " Eine Straße oder Bahn liegt {:.0f} m daneben: dort steht jemand von euch.",
                     *b.road_beside_m);
      }
      if (b.water)
        road += in(l, " Crosses water: look at it that day; high or fast, leave it out.",
                   " Kreuzt Wasser: seht es euch an dem Tag an; hoch oder schnell, lasst es weg.");
      line(
          c, fmt::format("B{}", i + 1),
          coded(fmt::format("B{}", i + 1)) +
              said(
                  l,
                  "{} to the peg at {}: {} on the dial, {:.0f} m, {:.0f} mm, {}. Up {:.0f} m, down "
                  "{:.0f} m. "
                  "Beyond: {}, {:.0f} m past the peg. A novice pair ends {:.0f} m across, {:.0f} m "
                  "along (one sigma). 7 m across is 1°. Crosses: {}.{}{}",
                  "{} zum Pflock bei {}: {} am Kompass, {:.0f} m, {:.0f} mm, {}. Aufwärts {:.0f} "
                  "m, abwärts "
                  "{:.0f} m. Dahinter: {}, {:.0f} m nach dem Pflock. Ein Anfängerpaar endet {:.0f} "
                  "m "
                  "quer, {:.0f} m längs (ein Sigma). 7 m quer sind 1°. Kreuzt: {}.{}{}",
                  full_reference(b.from), full_reference(b.peg), dial(magnetic(b.bearing)),
                  b.length_m, units::map_mm(b.length_m, 25000), paces(b.length_m), b.climb_m,
                  b.descent_m, b.catches, b.catches_beyond_m, b.cross_sigma_m, b.along_sigma_m,
                  b.crosses.empty() ? in(l, "nothing", "nichts")
                                    : fmt::format("{}", fmt::join(b.crosses, ", ")),
                  road,
                  b.may_plant
                      ? in(l, " A wrong bearing (30°) may be planted here; tell them after.",
                           " Hier darf eine falsche Richtung (30°) vorgegeben werden; danach "
                           "sagen.")
                      : ""));
    }
  }
  if (!day.features.empty()) {
    c.heading(in(l, "Features", "Merkmale"));
    for (std::size_t i = 0; i < day.features.size(); ++i) {
      const auto& f = day.features[i];
      line(c, fmt::format("F{}", i + 1),
           said(l,
                "{} at {}: from {} {} on the dial, {:.0f} m, {}; seen from {:.0f} m. {} in 100 "
                "practised pairs come into sight and know it.{}",
                "{} bei {}: von {} {} am Kompass, {:.0f} m, {}; zu sehen ab {:.0f} m. {} von 100 "
                "geübten Paaren kommen in Sicht und erkennen es.{}",
                f.words, reference(f.at), f.from_words, dial(magnetic(f.bearing)), f.length_m,
                paces(f.length_m), f.seen_from_m, units::of_hundred(1 - f.difficulty),
                f.like_near ? in(l, " Another like it stands within 200 m.",
                                 " Ein gleiches steht innerhalb von 200 m.")
                            : "") +
               (f.road ? in(l, " A road or railway is on the way: see them off it.",
                            " Eine Straße oder Bahn liegt am Weg: bringt sie davon weg.")
                       : "") +
               (f.water ? in(l, " Water on the way: look at it first.",
                             " Wasser am Weg: seht es euch zuerst an.")
                        : ""));
    }
  }
  if (day.forks) {
    c.heading(in(l, "Forks", "Abzweige"),
              in(l, "in the order of the walk; turn from straight on, right is +; hard is 100",
                 "in der Folge des Weges; Knick gegen geradeaus, rechts ist +; schwer ist 100"));
    if (day.forks->road_m > 0)
      c.paragraph(
          said(l,
               "Traffic: {} of the walk are roads that the map has as quiet. Look before you "
               "set it.",
               "Verkehr: {} des Weges sind Straßen, die auf der Karte ruhig sind. Seht "
               "vorher nach.",
               units::length_text(day.forks->road_m)),
          9);
    for (std::size_t i = 0; i < day.forks->forks.size(); ++i) {
      const auto& f = day.forks->forks[i];
      line(c, fmt::format("{}", i + 1),
           said(l, "{} at {:.0f} m: right {:+.0f}° ({}), wrong {:+.0f}° ({}), hard {:.0f}",
                "{} bei {:.0f} m: richtig {:+.0f}° ({}), falsch {:+.0f}° ({}), schwer {:.0f}",
                reference(f.at), f.at_m, whole(f.turn_deg), f.right, whole(f.wrong_turn_deg),
                f.wrong, 100 * f.difficulty));
    }
  }
  if (!day.drops.empty()) {
    c.heading(in(l, "Where are we?", "Wo sind wir?"));
    for (std::size_t i = 0; i < day.drops.size(); ++i) {
      const auto& d = day.drops[i];
      line(c, fmt::format("D{}", i + 1),
           said(l,
                "{}; {:.0f} m high, falls to {} on the dial, {:.0f}°. From {}: {:.0f} m. Height, "
                "fall and steepness leave ground like a circle of {:.0f} m ({}).",
                "{}; {:.0f} m hoch, fällt nach {} am Kompass, {:.0f}°. Von {}: {:.0f} m. Höhe, "
                "Fallrichtung und Steilheit lassen Gelände wie einen Kreis von {:.0f} m ({}).",
                full_reference(d.at), d.height_m, dial(magnetic(d.falls)), d.slope_deg,
                d.sure_words, earth::grid_distance_m(d.at, d.sure), d.radius_m,
                d.radius_m <= 150   ? in(l, "easy", "leicht")
                : d.radius_m <= 300 ? in(l, "middle", "mittel")
                                    : in(l, "hard", "schwer")));
    }
  }
  if (!day.times.empty()) {
    c.heading(
        in(l, "Distance by time", "Strecke nach Zeit"),
        in(l, "stretches of the line on the map piece", "Stücke der Linie auf dem Kartenstück"));
    for (std::size_t i = 0; i < day.times.size(); ++i)
      line(c, fmt::format("T{}", i + 1),
           said(l, "{} to {}, {:.0f} m", "{} nach {}, {:.0f} m",
                reference(day.times[i].line.front()), reference(day.times[i].line.back()),
                day.times[i].length_m));
  }
  for (const auto& missing : day.missing)
    line(c, "", in(l, "Not here: ", "Nicht hier: ") + missing);
  return c.take();
}

}  // namespace lodeway::sheet
