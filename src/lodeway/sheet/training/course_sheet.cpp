#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lodeway/learn/course/timetable.hpp"
#include "lodeway/sheet/training/training_page.hpp"
#include "lodeway/units/text.hpp"

namespace lodeway::sheet {

namespace {
using namespace training;

/// "57" of a reference is 5.7 tenths of a square of 1 km.
std::string tenths(const std::string& two, units::Language l) {
  return units::decimals(l, fmt::format("{}.{}", two[0], two[1]));
}

void desk(Column& c, const learn::TrainingDay& day) {
  const auto l = day.language;
  c.heading(in(l, "Desk: set the bearing", "Am Tisch: Richtung einstellen"),
            in(l, "map piece and compass only; strike the letter of what the dial shows",
               "nur Kartenstück und Kompass; streicht den Buchstaben an, den der Kompass zeigt"));
  const double half = 0.5 * wide;
  for (std::size_t i = 0; i < day.settings.size(); ++i) {
    const bool left = i % 2 == 0;
    if (left) c.need(10.5);
    const auto& s = day.settings[i];
    const double x = edge + (left ? 0 : half);
    c.page().fitted(
        fmt::format("{}. {} {} {}", i + 1, s.from_words, in(l, "to", "nach"), s.to_words),
        {x, c.y()}, half - 4, words(9), Anchor::left, 0.6);
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

/// In which order to go, where that is not the order of the rows.
void go_in_order(Column& c, units::Language l, const char* letter,
                 const std::vector<std::size_t>& order) {
  if (order.size() > 1 && !std::ranges::is_sorted(order))
    c.paragraph(said(l, "Least walking between them: {}. Ask in which order you go.",
                     "Am wenigsten Weg dazwischen: {}. Fragt, in welcher Folge ihr geht.",
                     order_words(letter, order)),
                9);
  c.y() += 1.5;
}

void outside(Column& c, const learn::TrainingDay& day) {
  const auto l = day.language;
  const auto table = learn::timetable_of(day);
  if (!day.paces.empty()) {
    c.heading(in(l, "Pace", "Schritte"), in(l, "taped; count double paces, twice each",
                                            "abgemessen; zählt Doppelschritte, je zweimal"));
    for (std::size_t i = 0; i < day.paces.size(); ++i) {
      const auto& p = day.paces[i];
      row(c, fmt::format("P{}", i + 1),
          said(l, "{:.0f} m, {}, from {}", "{:.0f} m, {}, ab {}", p.length_m,
               pace_words(p.ground, l), reference(p.from)),
          {{in(l, "run 1", "Lauf 1"), 22}, {in(l, "run 2", "Lauf 2"), 22}});
    }
  }
  if (!day.bearings.empty()) {
    c.heading(in(l, "Open bearing", "Kompasslauf"),
              in(l, "straight from ring to cross; a peg stands there, hidden",
                 "geradewegs vom Ring zum Kreuz; dort steht verdeckt ein Pflock"));
    c.paragraph(in(l,
                   "Before you go: set the dial, measure the mm, work out the double paces; ask "
                   "which catching feature you do not pass, and write it down. Sight on something "
                   "at most 50 m ahead, go to it, sight again. Write each stream, wall or path as "
                   "you cross it. No peg at your count: stop there, that is your end.",
                   "Vor dem Losgehen: Kompass einstellen, mm messen, Doppelschritte ausrechnen; "
                   "fragt, an welcher Auffanglinie ihr nicht vorbeigeht, und schreibt sie auf. "
                   "Peilt etwas an, das höchstens 50 m vor euch liegt, geht hin, peilt neu. "
                   "Schreibt jeden Bach, jede Mauer, jeden Pfad beim Kreuzen auf. Kein Pflock bei "
                   "eurer Zahl: haltet dort an, das ist euer Ende."),
                9);
    go_in_order(c, l, "B", table.bearings);
    for (std::size_t i = 0; i < day.bearings.size(); ++i) {
      const auto& b = day.bearings[i];
      row(c, fmt::format("B{}", i + 1),
          said(l, "from {} to {}", "von {} nach {}", reference(b.from), reference(b.peg)),
          {{in(l, "dial", "Kompass"), 13},
           {"mm", 10},
           {in(l, "double paces", "DS"), 19},
           {in(l, "not past", "nicht vorbei an"), 25},
           {in(l, "lines crossed", "Linien gekreuzt"), 32}});
    }
  }
  if (!day.features.empty()) {
    c.heading(in(l, "Features", "Merkmale"),
              in(l, "say when you stand on it, and how you know",
                 "sagt, wann ihr darauf steht, und woran ihr es erkennt"));
    go_in_order(c, l, "F", table.features);
    for (std::size_t i = 0; i < day.features.size(); ++i) {
      const auto& f = day.features[i];
      const auto from =
          f.attack_point ? in(l, "from the attack point", "vom Ansatzpunkt") : in(l, "from", "von");
      row(c, fmt::format("F{}", i + 1),
          said(l, "{} {} ({}): find {} at {}", "{} {} ({}): findet {} bei {}", from, f.from_words,
               reference(f.from), f.words, reference(f.at)),
          {{in(l, "sure?", "gewiss?"), 22}});
    }
  }
}
}  // namespace

std::vector<Drawing> draw_course_sheet(const TrainingPaper& paper, const TextMeasure& measure) {
  const auto& day = paper.day;
  const auto l = day.language;
  Column c(in(l, "Training day: courses", "Übungstag: Aufgaben"), paper.code, exercise_foot(l),
           measure);
  c.caution(
      {in(l, "Nobody goes alone. Every pair stays in sight of an instructor or is followed.",
          "Niemand geht allein. Jedes Paar bleibt in Sicht einer Ausbilderin oder eines Ausbilders "
          "oder wird begleitet."),
       in(l,
          "Lost, or 30 minutes gone on one course: stop, six blasts a minute, stay where you "
          "are.",
          "Verirrt, oder 30 Minuten an einer Aufgabe: anhalten, sechs Pfiffe in der Minute, am Ort "
          "bleiben."),
       in(l,
          "Past the count and no peg: go no further than the catching feature named to you. "
          "Stop there.",
          "Über die Zahl hinaus und kein Pflock: nicht weiter als bis zur Auffanglinie, die man "
          "euch genannt hat. Dort anhalten."),
       day.roads_known
           ? in(l,
                "Keep off main roads and railways; where one stops you, stop before it. The map "
                "piece "
                "draws "
                "all roads alike. On any road: one behind the other, facing the traffic.",
                "Bleibt von Hauptstraßen und Bahnen weg; hält euch eine auf, bleibt davor stehen. "
                "Das "
                "Kartenstück zeichnet alle Straßen gleich. Auf jeder Straße: hintereinander, dem "
                "Verkehr "
                "entgegen.")
           : in(l,
                "The map piece has no roads and railways: there may be some. Stop "
                "before each, and ask. On any road: one behind the other, facing the "
                "traffic.",
                "Das Kartenstück hat keine Straßen und Bahnen: es kann welche geben. "
                "Haltet vor jeder an und fragt. Auf jeder Straße: hintereinander, dem "
                "Verkehr entgegen."),
       in(l,
          "A stream: over it only where one step or dry stones take you. In doubt do not cross: "
          "stop and whistle.",
          "Ein Bach: nur hinüber, wo ein Schritt oder trockene Steine reichen. Im Zweifel nicht "
          "hinüber: anhalten und pfeifen."),
       in(l, "Lightning, strong wind, cold hands, failing light: we stop. No course is worth it.",
          "Gewitter, starker Wind, kalte Hände, schwindendes Licht: wir hören auf. Keine Aufgabe "
          "ist es wert.")});
  const double off = day.magnetic_from_grid_deg;
  const bool add = off < 0;
  c.paragraph(said(
      l,
      add ? "Begins at {}. Map piece 1:25 000. To a grid bearing add {:.1f}° for the dial."
          : "Begins at {}. Map piece 1:25 000. From a grid bearing take off {:.1f}° for the dial.",
      add ? "Beginnt bei {}. Kartenstück 1:25 000. Für den Kompass zählt zu einer Gitterpeilung "
            "{:.1f}° dazu."
          : "Beginnt bei {}. Kartenstück 1:25 000. Für den Kompass nehmt von einer Gitterpeilung "
            "{:.1f}° weg.",
      day.from_words, std::abs(off)));
  const auto begin = reference(day.from);
  c.paragraph(
      said(l,
           "{} on the map piece: from line {} go {} tenths of a square east, from line {} {} "
           "tenths north. That is Start.",
           "{} auf dem Kartenstück: von Linie {} aus {} Zehntel eines Quadrats nach Osten, "
           "von Linie {} aus {} Zehntel nach Norden. Das ist Start.",
           begin, begin.substr(0, 2), tenths(begin.substr(2, 2), l), begin.substr(5, 2),
           tenths(begin.substr(7, 2), l)),
      9);
  c.paragraph(
      in(l,
         "Order: set the map, lines, forks, pace, a bearing to a mark in sight, 400 m unseen, "
         "catching feature and aiming off, attack point, contours, relocation, poor sight.",
         "Reihenfolge: Karte nach Norden drehen, Linien, Abzweige, Schritte, Peilung zu einem "
         "sichtbaren "
         "Ziel, 400 m ohne Sicht, Auffanglinie und Abseitszielen, Ansatzpunkt, Höhenlinien, "
         "Standortbestimmung, schlechte Sicht."),
      9);
  if (!day.settings.empty()) desk(c, day);
  outside(c, day);
  if (day.forks) {
    c.heading(in(l, "Forks", "Abzweige"),
              said(l, "the walk on the map piece, along its arrows, forks 1 to {}, {}",
                   "der Weg auf dem Kartenstück, den Pfeilen nach, Abzweige 1 bis {}, {}",
                   day.forks->forks.size(), units::length_text(day.forks->length_m)));
    c.paragraph(in(l,
                   "Lead by the map. The instructor walks behind and says nothing. When you think "
                   "you are wrong, stop and say so.",
                   "Führt nach der Karte. Wer ausbildet, geht hinterher und schweigt. Glaubt ihr "
                   "euch falsch, haltet an und sagt es."));
    if (day.forks->road_m > 0)
      c.paragraph(said(l, "Traffic: {} of it are road.", "Verkehr: {} davon sind Straße.",
                       units::length_text(day.forks->road_m)));
  }
  if (!day.drops.empty()) {
    c.heading(in(l, "Where are we?", "Wo sind wir?"),
              in(l, "led here without the map; five minutes each",
                 "ohne Karte an den Ort gebracht; je fünf Minuten"));
    c.paragraph(in(l,
                   "Then you get the map piece: write what you see, and draw on it one line round "
                   "all the ground that you may stand on.",
                   "Dann bekommt ihr das Kartenstück: schreibt auf, was ihr seht, und zieht darauf "
                   "eine Linie um alles Gelände, auf dem ihr stehen könntet."),
                9);
    c.y() += 1.5;
    for (std::size_t i = 0; i < day.drops.size(); ++i) {
      row(c, fmt::format("D{}", i + 1),
          said(l, "last sure place: ring D{}, {} ({})", "letzter bekannter Ort: Ring D{}, {} ({})",
               i + 1, day.drops[i].sure_words, reference(day.drops[i].sure)),
          {{in(l, "height, m", "Höhe, m"), 18},
           {in(l, "falls to, °", "fällt nach, °"), 20},
           {in(l, "bearing to", "Peilung zu"), 24}});
    }
  }
  if (!day.times.empty()) {
    c.heading(in(l, "Distance by time", "Strecke nach Zeit"),
              in(l, "watch only; along the line drawn on the map piece",
                 "nur mit der Uhr; entlang der Linie auf dem Kartenstück"));
    for (std::size_t i = 0; i < day.times.size(); ++i)
      row(c, fmt::format("T{}", i + 1),
          said(l, "{} to {}; say before you set out how many minutes",
               "{} nach {}; sagt vor dem Losgehen, wie viele Minuten",
               reference(day.times[i].line.front()), reference(day.times[i].line.back())),
          {{in(l, "guessed", "geschätzt"), 24}, {in(l, "true", "tatsächlich"), 24}});
  }
  return c.take();
}

}  // namespace lodeway::sheet
