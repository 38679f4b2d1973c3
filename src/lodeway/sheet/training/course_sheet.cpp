#include <algorithm>
#include <cmath>

#include <fmt/format.h>
#include <fmt/ranges.h>

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
            in(l, "map piece and compass only; cross the letter of the bearing that is right",
               "nur Kartenstück und Kompass; kreuzt den Buchstaben der richtigen Richtung an"));
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

/// What may hurt on the way: said under the row, to those who go. The names of the lines that are
/// crossed are theirs to find.
void warn(Column& c, units::Language l, bool water, const std::string& road) {
  std::string out;
  if (water) out = in(l, "Water on the way: ask first.", "Wasser am Weg: fragt zuerst.");
  if (!road.empty()) out += (out.empty() ? "" : " ") + road;
  if (out.empty()) return;
  c.y() -= 2.6;
  c.page().fitted(out, {edge + 12, c.y()}, wide - 12, words(9, true), Anchor::left, 0.6);
  c.y() += 6;
}

std::string road_warning(const learn::BearingCourse& b, units::Language l) {
  if (b.road_catches)
    return said(l, "{} is the catching feature: stop before it.",
                "Auffanglinie ist {}: haltet davor an.", b.catches);
  if (b.road_beside_m)
    return said(l, "{} is near: stop before it.", "{} ist nahe: haltet davor an.", b.road_words);
  return {};
}

/// When each pair does what, a line for each.
void times(Column& c, const learn::TrainingDay& day, const learn::Timetable& table) {
  const auto l = day.language;
  c.heading(in(l, "Times", "Zeiten"),
            said(l, "from the beginning; first {} min of cautions for all",
                 "ab Beginn; zuerst {} min Warnungen für alle", learn::briefing_min));
  const bool both = !day.settings.empty() && !day.paces.empty();
  for (int pair = 0; pair < learn::pair_count; ++pair) {
    std::string row;
    for (const auto& s : table.slots) {
      if (s.pair != pair) continue;
      row += fmt::format("{}{} {}", row.empty() ? "" : ", ", learn::hours(s.begin_min),
                         s.station == learn::Station::base && !both
                             ? base_words(day)
                             : learn::station_words(s.station, l));
    }
    c.paragraph(
        fmt::format("{} {}: {}", in(l, "Pair", "Paar"), static_cast<char>('A' + pair), row));
  }
}

/// What is learnt, in the order of teaching; only what this sheet holds.
std::string taught(const learn::TrainingDay& day) {
  const auto l = day.language;
  std::vector<std::string> out{in(l, "set the map", "Karte nach Norden drehen")};
  if (day.forks) out.emplace_back(in(l, "lines, forks", "Linien, Abzweige"));
  if (!day.settings.empty())
    out.emplace_back(in(l, "bearings from the map", "Richtungen aus der Karte"));
  if (!day.paces.empty()) out.emplace_back(in(l, "pace", "Schritte"));
  if (!day.bearings.empty())
    out.emplace_back(in(l, "400 m unseen, catching feature", "400 m ohne Sicht, Auffanglinie"));
  if (!day.features.empty()) out.emplace_back(in(l, "attack point", "Ansatzpunkt"));
  if (!day.drops.empty())
    out.emplace_back(in(l, "contours, relocation", "Höhenlinien, Standortbestimmung"));
  if (!day.times.empty()) out.emplace_back(in(l, "distance by time", "Strecke nach Zeit"));
  return fmt::format("{}", fmt::join(out, ", "));
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

void outside(Column& c, const learn::TrainingDay& day, const learn::Timetable& table,
             double stride_m) {
  const auto l = day.language;
  if (!day.paces.empty()) {
    c.heading(in(l, "Pace", "Schritte"), in(l, "taped; count double paces, twice each",
                                            "abgemessen; zählt Doppelschritte, je zweimal"));
    for (std::size_t i = 0; i < day.paces.size(); ++i) {
      const auto& p = day.paces[i];
      row(c, fmt::format("P{}", i + 1),
          said(l, "{:.0f} m, {}, from {}, dial {}, to {}",
               "{:.0f} m, {}, ab {}, Kompass {}, bis {}", p.length_m, pace_words(p.ground, l),
               reference(p.from),
               dial(units::MagneticBearing::degrees(earth::grid_bearing(p.from, p.to).in_degrees() -
                                                    day.magnetic_from_grid_deg)),
               reference(p.to)),
          {{in(l, "run 1", "Lauf 1"), 22}, {in(l, "run 2", "Lauf 2"), 22}});
    }
  }
  if (!day.bearings.empty()) {
    c.need(62);  // what to do and the rows on one page
    c.heading(in(l, "Open bearing", "Kompasslauf"),
              in(l, "straight from ring to cross; a peg stands there, hidden",
                 "geradewegs vom Ring zum Kreuz; dort steht verdeckt ein Pflock"));
    c.paragraph(said(l,
                     "Before you go: set the dial, measure the mm, work out the double paces "
                     "(not paced yet: {:.0f} for 200 m); ask which catching feature will stop you; "
                     "write it under \"stop at\". Sight on something at most 50 m ahead, go to it, "
                     "sight again. Write each stream, wall or path as you cross it. No peg at your "
                     "count: stop, that is your end. Never pass the catching feature.",
                     "Vor dem Losgehen: Kompass einstellen, mm messen, Doppelschritte ausrechnen "
                     "(noch nicht gezählt: {:.0f} auf 200 m); fragt, welche Auffanglinie euch "
                     "aufhält; schreibt sie unter „Halt an“. Peilt etwas an, das höchstens 50 m "
                     "vor euch liegt, geht hin, peilt neu. Schreibt jeden Bach, jede Mauer, jeden "
                     "Pfad beim Kreuzen auf. Kein Pflock bei eurer Zahl: anhalten, das ist euer "
                     "Ende. Nie an der Auffanglinie vorbei.",
                     units::double_paces(200, stride_m)),
                9);
    go_in_order(c, l, "B", table.bearings);
    for (std::size_t i = 0; i < day.bearings.size(); ++i) {
      const auto& b = day.bearings[i];
      row(c, fmt::format("B{}", i + 1),
          said(l, "from {} to {}", "von {} nach {}", reference(b.from), reference(b.peg)),
          {{in(l, "dial", "Kompass"), 13},
           {"mm", 10},
           {in(l, "double paces", "DS"), 19},
           {in(l, "stop at", "Halt an"), 25},
           {in(l, "lines crossed", "Linien gekreuzt"), 32}});
      warn(c, l, b.water, road_warning(b, l));
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
      warn(c, l, f.water,
           f.road ? said(l, "{} is on the way: wait until you are seen off it.",
                         "{} liegt am Weg: wartet, bis man euch davon wegbringt.", f.road_words)
                  : "");
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
      {in(l,
          "Nobody goes alone. On every course an instructor follows you or has you in sight; at "
          "the start a pair stays there, together.",
          "Niemand geht allein. Bei jeder Aufgabe folgt euch, wer ausbildet, oder hat euch in "
          "Sicht; am Start bleibt ein Paar dort, zusammen."),
       in(l,
          "Lost, or 30 minutes gone on one course: stop, six blasts a minute, stay where you "
          "are.",
          "Verirrt, oder 30 Minuten an einer Aufgabe: anhalten, sechs Pfiffe in der Minute, am Ort "
          "bleiben."),
       in(l, "No peg at your count: stop. Never pass the catching feature.",
          "Kein Pflock bei eurer Zahl: anhalten. Nie an der Auffanglinie vorbei."),
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
          "ist es wert."),
       in(l, "Carry: whistle, watch, compass, pencil.",
          "Dabei haben: Pfeife, Uhr, Kompass, Bleistift.")});
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
  c.paragraph(said(l, "Taught in this order: {}.", "Gelehrt in dieser Folge: {}.", taught(day)), 9);
  const auto table = learn::timetable_of(day);
  times(c, day, table);
  if (!day.settings.empty()) desk(c, day);
  outside(c, day, table, paper.stride_m);
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
                   "Hand in the map piece first. You get it back there: write what you see, and "
                   "draw on it one line round all the ground that you may stand on.",
                   "Gebt zuerst das Kartenstück ab. Dort bekommt ihr es zurück: schreibt auf, was "
                   "ihr seht, und zieht darauf eine Linie um alles Gelände, auf dem ihr stehen "
                   "könntet."),
                9);
    c.y() += 1.5;
    for (std::size_t i = 0; i < day.drops.size(); ++i) {
      row(c, fmt::format("D{}", i + 1),
          said(l, "last sure place: ring D{}, {} ({})", "letzter bekannter Ort: Ring D{}, {} ({})",
               i + 1, day.drops[i].sure_words, reference(day.drops[i].sure)),
          {});
      c.y() -= 0.5;
      row(c, "", "",
          {{in(l, "height guessed, m", "Höhe geschätzt, m"), 38},
           {in(l, "slope falls towards, °", "Hang fällt nach, °"), 42},
           {in(l, "steepness, °", "Steilheit, °"), 30},
           {in(l, "bearing, ° to", "Peilung, ° zu"), 46}});
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
