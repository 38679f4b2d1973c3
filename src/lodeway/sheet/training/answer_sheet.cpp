#include <algorithm>
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
/// The dial's bearing by the references that stand on the sheets, where it is off that of the
/// places by so much that a marker would wonder: on a short leg 5 m to the side are some degrees.
constexpr double wonder_deg = 1.5;
std::string by_references(const learn::TrainingDay& day, earth::GridPoint from,
                          earth::GridPoint to) {
  const auto shown = [](earth::GridPoint p) {
    return earth::GridPoint{10 * std::floor(p.east_m / 10 + 0.5),
                            10 * std::floor(p.north_m / 10 + 0.5)};
  };
  const auto printed = earth::grid_bearing(shown(from), shown(to));
  if (std::abs((printed - earth::grid_bearing(from, to)).in_degrees()) < wonder_deg) return {};
  return said(
      day.language, " ({} by the references)", " ({} nach den Angaben)",
      dial(units::MagneticBearing::degrees(printed.in_degrees() - day.magnetic_from_grid_deg)));
}
/// Whether some pairs walk on so far that they come to the catching feature.
constexpr double reach_sigmas = 3;
bool comes_to_catch(const learn::BearingCourse& b) {
  return b.catches_beyond_m < reach_sigmas * b.along_sigma_m;
}
/// Where somebody has to stand who goes with no pair.
bool needs_third(const learn::BearingCourse& b) { return b.road_beside_m || comes_to_catch(b); }
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
         "Ground over 30° and ground to keep off lie further from a course than three times a "
         "beginner pair's usual miss and 60 m. A catching feature lies 50 to 200 m past each peg; "
         "where it is nearer than three times that miss, the course says so. That is worked out, "
         "not seen.",
         "Gelände über 30° und zu meidendes Gelände liegen weiter von einer Aufgabe als das "
         "Dreifache dessen, was ein Anfängerpaar gewöhnlich danebenliegt, und 60 m. Eine "
         "Auffanglinie liegt 50 bis 200 m hinter jedem Pflock; wo sie näher ist als dieses "
         "Dreifache, sagt es die Aufgabe. Das ist gerechnet, nicht gesehen."),
      in(l,
         "No course goes along or over a main road, a railway, or a road of which the map does "
         "not "
         "say how busy it is, except where a course says so: it begins there, or is stopped there.",
         "Keine Aufgabe führt auf oder über eine Hauptstraße, eine Bahn oder eine Straße, von der "
         "die Karte nicht sagt, wie befahren sie ist, außer wo es die Aufgabe sagt: sie "
         "beginnt dort, oder wird dort aufgehalten.") +
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
  if (std::ranges::any_of(day.bearings, needs_third))
    first.emplace_back(in(l,
                          "One of you goes with each pair: where a course needs a third person, "
                          "and there is none, leave it out.",
                          "Mit jedem Paar geht jemand von euch: wo eine Aufgabe eine dritte Person "
                          "braucht und keine da ist, lasst sie weg."));
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
         "References are to the nearest 10 m; pegs are given to the metre on the ground's grid. "
         "Signs after a name: as on the marking sheet.",
         "Angaben sind auf 10 m gerundet; Pflöcke stehen auf den Meter im Gitter des "
         "Geländes. Zeichen hinter einem Namen: wie auf dem Blatt der Wertung."),
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
      if (comes_to_catch(b))
        road =
            in(l, " Within three times that: some pairs come to it, a third person stands there.",
               " Näher als das Dreifache: einige Paare kommen hin, dort steht eine dritte "
               "Person.");
      if (b.road_catches)
        road += in(l, " A road or railway: they stop before it.",
                   " Eine Straße oder Bahn: sie halten davor an.");
      if (b.road_beside_m && *b.road_beside_m < crossed_m) {
        road +=
            said(l, " Crosses {}, which the map has as quiet: a third person stands there.",
                 " Kreuzt {}, auf der Karte ruhig: dort steht eine dritte Person.", b.road_words);
      } else if (b.road_beside_m &&
                 !(b.road_catches && comes_to_catch(b) && b.road_words == b.catches)) {
        road += said(l, " {} lies {:.0f} m beside: a third person stands there.",
                     " {} liegt {:.0f} m daneben: dort steht eine dritte Person.", b.road_words,
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
                  "{} to the peg at {}: {} on the dial{}, {:.0f} m, {:.0f} mm, {}. Up {:.0f} m, "
                  "down {:.0f} m. Crosses: {}. 7 m across is 1°. Beyond: {}, {:.0f} m past the "
                  "peg. "
                  "A beginner pair usually misses by {:.0f} m across, {:.0f} m along.{}{}",
                  "{} zum Pflock bei {}: {} am Kompass{}, {:.0f} m, {:.0f} mm, {}. Aufwärts {:.0f} "
                  "m, abwärts {:.0f} m. Kreuzt: {}. 7 m quer sind 1°. Dahinter: {}, {:.0f} m nach "
                  "dem Pflock. Ein Anfängerpaar liegt gewöhnlich {:.0f} m quer und {:.0f} m längs "
                  "daneben.{}{}",
                  full_reference(b.from), full_reference(b.peg), dial(magnetic(b.bearing)),
                  by_references(day, b.from, b.peg), b.length_m, units::map_mm(b.length_m, 25000),
                  paces(b.length_m), b.climb_m, b.descent_m,
                  b.crosses.empty() ? in(l, "nothing", "nichts")
                                    : fmt::format("{}", fmt::join(b.crosses, ", ")),
                  b.catches, b.catches_beyond_m, b.cross_sigma_m, b.along_sigma_m, road,
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
                "{} at {}: from {} {} on the dial{}, {:.0f} m, {}; seen from {:.0f} m. {} in 100 "
                "practised pairs come into sight and know it.{}",
                "{} bei {}: von {} {} am Kompass{}, {:.0f} m, {}; zu sehen ab {:.0f} m. {} von 100 "
                "geübten Paaren kommen in Sicht und erkennen es.{}",
                f.words, reference(f.at), f.from_words, dial(magnetic(f.bearing)),
                by_references(day, f.from, f.at), f.length_m, paces(f.length_m), f.seen_from_m,
                units::of_hundred(1 - f.difficulty),
                f.like_near ? in(l, " Another like it stands within 200 m.",
                                 " Ein gleiches steht innerhalb von 200 m.")
                            : "") +
               (f.road ? said(l, " {} is on the way: see them off it.",
                              " {} liegt am Weg: bringt sie davon weg.", f.road_words)
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
