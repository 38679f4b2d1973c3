#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "lodeway/learn/course/codes.hpp"
#include "lodeway/sheet/training/training_page.hpp"

namespace lodeway::sheet {

namespace {
using namespace training;
constexpr std::array pairs{"A", "B", "C"};
constexpr double row_mm = 11.5;

/// "Forks [3FA2]"
std::string named(const char* heading, const std::string& code, const char* course) {
  return fmt::format("{} [{}]", heading, learn::course_signs(code, course));
}

std::string pair_words(units::Language l, const char* pair) {
  return fmt::format("{} {}", in(l, "pair", "Paar"), pair);
}

/// The four signs of a course's code, small under its name.
void signs(Page& page, const std::string& code, const std::string& course, double x, double y) {
  page.text(learn::course_signs(code, course), {x, y + 3.2}, figures(6.5));
}

/// Room to write in, with a small word at its right end.
void blank(Page& page, double x, double y, double w, const std::string& unit, bool heavy = false) {
  page.frame(x, y - 6.5, w, 9, {ink::night, heavy ? 0.7 : 0.4});
  if (!unit.empty())
    page.text(unit, {x + w - 1.5, y - 0.6}, words(8, false, ink::stone), Anchor::right);
}

/// Boxes of 9 mm: a gloved hand strikes one. Gives where they end.
double boxes(Page& page, double x, double y, int count) {
  for (int i = 0; i < count; ++i) page.frame(x + i * 10.5, y - 6.5, 9, 9, {ink::night, 0.4});
  return x + count * 10.5;
}

void side(Page& page, double x, double y, const char* name) {
  page.frame(x, y - 6.5, 15, 9, {ink::night, 0.4});
  page.text(name, {x + 7.5, y - 0.6}, words(9.5), Anchor::middle);
}

void desk(Column& c, const learn::TrainingDay& day, const std::string& code) {
  const auto l = day.language;
  c.heading(named(in(l, "Desk", "Am Tisch"), code, "desk"),
            said(l, "of {} bearings: how many were set, how many of these over 15° wrong",
                 "von {} Richtungen: wie viele eingestellt, wie viele davon über 15° falsch",
                 day.settings.size()));
  for (int person = 0; person < 2; ++person)
    c.page().text(said(l, "person {}", "Person {}", person + 1), {edge + 28 + 76.0 * person, c.y()},
                  words(8.5, true));
  c.y() += 4.5;
  for (const auto* pair : pairs) {
    c.need(13);
    const double y = c.y() + 3;
    c.page().text(pair_words(l, pair), {edge, y}, words(9.5));
    for (int person = 0; person < 2; ++person) {
      const double x = edge + 28 + 76.0 * person;
      blank(c.page(), x, y, 30, in(l, "set", "eingestellt"));
      blank(c.page(), x + 33, y, 30, in(l, "wrong", "falsch"), true);
    }
    c.y() += row_mm;
  }
}

void pegs(Column& c, const learn::TrainingDay& day, const std::string& code) {
  const auto l = day.language;
  c.heading(in(l, "Open bearing", "Kompasslauf"),
            in(l, "strike the side, write the metres; 7 m across is 1° at 400 m",
               "Seite anstreichen, Meter eintragen; 7 m quer sind 1° auf 400 m"));
  for (const auto* pair : pairs) {
    for (std::size_t i = 0; i < day.bearings.size(); ++i) {
      c.need(13);
      auto& p = c.page();
      const double y = c.y() + 3;
      const auto name = fmt::format("B{}", i + 1);
      p.text(name, {edge, y - 1}, words(12, true));
      signs(p, code, name, edge, y - 1);
      p.text(pair_words(l, pair), {edge + 11, y}, words(9.5));
      side(p, edge + 28, y, in(l, "left", "links"));
      side(p, edge + 44.5, y, in(l, "right", "rechts"));
      blank(p, edge + 61, y, 24, "m", true);
      side(p, edge + 93, y, in(l, "short", "zu kurz"));
      side(p, edge + 109.5, y, in(l, "long", "zu weit"));
      blank(p, edge + 126, y, 24, "m", true);
      c.y() += row_mm;
    }
  }
}

/// Heading, a row for each pair and what the boxes mean: on one page.
constexpr double tally_mm = 18 + 3 * row_mm + 8;

/// `after`: room for metres, where an error is noticed on the way.
void tally(Column& c, units::Language l, const std::string& explained, int count, bool after) {
  constexpr int in_row = 14;
  for (const auto* pair : pairs) {
    c.need(13);
    const double y = c.y() + 3;
    c.page().text(pair_words(l, pair), {edge, y}, words(9.5));
    const double x = boxes(c.page(), edge + 16, y, std::min(count, in_row));
    if (after) blank(c.page(), x + 3, y, edge + wide - x - 3, "m");
    c.y() += row_mm;
  }
  c.paragraph(
      explained + in(l, "; a ring for each that was not; leave blank what was not tried.",
                     "; einen Ring um jedes andere; was nicht versucht wurde, bleibt leer."),
      8.5);
}

/// For each pair so many blanks in one row, with the pair's letter over them.
void by_pair(Column& c, const std::string& name, const std::array<const char*, 2>& units,
             const std::string& code = {}, const std::string& course = {}) {
  c.need(13);
  const double y = c.y() + 3;
  c.page().text(name, {edge, y}, words(9.5, true));
  if (!course.empty()) signs(c.page(), code, course, edge, y);
  double x = edge + 27;
  for (const auto* pair : pairs) {
    c.page().text(pair, {x, y}, words(9.5));
    blank(c.page(), x + 4, y, 22, units[0]);
    blank(c.page(), x + 27.5, y, 22, units[1]);
    x += 52;
  }
  c.y() += row_mm;
}
}  // namespace

std::vector<Drawing> draw_marking_sheet(const TrainingPaper& paper, const TextMeasure& measure) {
  const auto& day = paper.day;
  const auto l = day.language;
  Column c(in(l, "Training day: marks", "Übungstag: Wertung"), paper.code, exercise_foot(l),
           measure);
  c.paragraph(in(l, "Date ____________  Ring one: clear / cloud / night / snow",
                 "Datum ____________  Eines einkreisen: klar / Wolken / Nacht / Schnee"),
              10.5);
  c.paragraph(in(l, "Pair A: ______________  Pair B: ______________  Pair C: ______________",
                 "Paar A: ______________  Paar B: ______________  Paar C: ______________"),
              10.5);
  c.paragraph(in(l,
                 "A box left empty is not 0: it says that this was not done. Strike with one "
                 "stroke; write figures large. The small signs are a course's own.",
                 "Ein leeres Feld ist keine 0: es sagt, dass dies nicht gemacht wurde. Mit einem "
                 "Strich anstreichen; Ziffern groß schreiben. Die kleinen Zeichen gehören zur "
                 "Aufgabe."),
              9);
  if (!day.settings.empty()) desk(c, day, paper.code);
  if (!day.bearings.empty()) pegs(c, day, paper.code);
  if (!day.features.empty()) {
    c.need(tally_mm);
    c.heading(named(in(l, "Features", "Merkmale"), paper.code, "features"),
              said(l, "F1 to F{}", "F1 bis F{}", day.features.size()));
    tally(c, l,
          in(l, "Strike a box for each end that was known for what it is",
             "Ein Feld anstreichen für jedes Ende, das als solches erkannt wurde"),
          static_cast<int>(day.features.size()), false);
  }
  if (day.forks) {
    c.need(tally_mm);
    c.heading(named(in(l, "Forks", "Abzweige"), paper.code, "forks"),
              in(l, "at the end of the row: metres until a wrong one is noticed",
                 "am Ende der Zeile: Meter, bis ein falscher bemerkt wird"));
    tally(
        c, l,
        in(l, "Strike a box for each right branch", "Ein Feld anstreichen für jeden richtigen Ast"),
        static_cast<int>(day.forks->forks.size()), true);
  }
  int lines = 0;
  std::string of_each;
  for (std::size_t i = 0; i < day.bearings.size(); ++i) {
    const auto crossed = day.bearings[i].crosses.size();
    lines += static_cast<int>(crossed);
    if (crossed > 0)
      of_each += fmt::format("{}B{}: {}", of_each.empty() ? "" : ", ", i + 1, crossed);
  }
  if (lines > 0) {
    c.need(tally_mm);
    c.heading(in(l, "Lines crossed", "Gekreuzte Linien"),
              said(l, "from the card that was marked at once; {}, in this order",
                   "vom Blatt, auf dem sofort vermerkt wurde; {}, in dieser Folge", of_each));
    tally(c, l,
          in(l, "Strike a box for each line that was noticed and named",
             "Ein Feld anstreichen für jede Linie, die bemerkt und benannt wurde"),
          lines, false);
  }
  const auto planted =
      std::ranges::find_if(day.bearings, [](const auto& b) { return b.may_plant; });
  if (planted != day.bearings.end()) {
    c.heading(in(l, "Planted bearing", "Falsch vorgegebene Richtung"),
              said(l, "30° off, on B{} only; metres until they doubt it; tell them after",
                   "30° daneben, nur auf B{}; Meter bis zum Zweifel; danach sagen",
                   planted - day.bearings.begin() + 1));
    c.need(13);
    const double y = c.y() + 3;
    double x = edge;
    for (const auto* pair : pairs) {
      c.page().text(pair_words(l, pair), {x, y}, words(9.5));
      blank(c.page(), x + 16, y, 34, "m");
      x += 60;
    }
    c.y() += row_mm;
  }
  if (!day.paces.empty()) {
    c.heading(in(l, "Pace", "Schritte"),
              in(l, "double paces, two runs each pair", "Doppelschritte, zwei Läufe je Paar"));
    for (std::size_t i = 0; i < day.paces.size(); ++i)
      by_pair(c, fmt::format("P{} {}", i + 1, pace_words(day.paces[i].ground, l)), {"1", "2"},
              paper.code, fmt::format("P{}", i + 1));
  }
  if (!day.drops.empty()) {
    c.heading(named(in(l, "Where are we?", "Wo sind wir?"), paper.code, "drops"),
              in(l, "off by; inside the area drawn? one row each pair",
                 "daneben um; in der gezeichneten Fläche? eine Zeile je Paar"));
    for (std::size_t i = 0; i < day.drops.size(); ++i) {
      for (const auto* pair : pairs) {
        c.need(13);
        const double y = c.y() + 3;
        c.page().text(fmt::format("D{}", i + 1), {edge, y}, words(12, true));
        c.page().text(pair_words(l, pair), {edge + 11, y}, words(9.5));
        blank(c.page(), edge + 28, y, 32, in(l, "height m", "Höhe m"));
        blank(c.page(), edge + 63, y, 32, in(l, "fall °", "Fall °"));
        blank(c.page(), edge + 98, y, 32, in(l, "bearing °", "Peilung °"));
        c.page().text(in(l, "inside", "darin"), {edge + 136, y}, words(9.5));
        (void)boxes(c.page(), edge + 150, y, 1);
        c.y() += row_mm;
      }
    }
  }
  if (!day.times.empty()) {
    c.heading(named(in(l, "Distance by time", "Strecke nach Zeit"), paper.code, "time"),
              in(l, "minutes, guessed and true", "Minuten, geschätzt und tatsächlich"));
    for (std::size_t i = 0; i < day.times.size(); ++i)
      by_pair(c, fmt::format("T{}", i + 1),
              {in(l, "guessed", "geschätzt"), in(l, "true", "tatsächlich")});
  }
  c.paragraph(said(l,
                   "The same evening: type them into the file of marks that came with these sheets "
                   "(day {}).",
                   "Am selben Abend: in die Liste der Wertung eintragen, die mit diesen Blättern "
                   "kam (Tag {}).",
                   paper.code),
              9);
  return c.take();
}

}  // namespace lodeway::sheet
