/// Who is where when, on the answer sheet.
#include <fmt/format.h>

#include "lodeway/learn/course/timetable.hpp"
#include "lodeway/sheet/training/training_page.hpp"

namespace lodeway::sheet::training {

namespace {
constexpr double row_mm = 8.5, name_mm = 24;

/// Too narrow for two times: what it is and when it begins.
constexpr double narrow_mm = 17;

void bar(Page& p, double x, double y, double w, const std::string& above, const std::string& below,
         bool grey) {
  if (grey) p.box(x, y, w, row_mm - 1, ink::rule);
  p.frame(x, y, w, row_mm - 1, {ink::night, 0.35});
  p.fitted(above, {x + 0.8, y + 3.2}, w - 1.2, words(8, true), Anchor::left, 0.6);
  p.fitted(below, {x + 0.8, y + 6.5}, w - 1.2, figures(7), Anchor::left, 0.6);
}
}  // namespace

const char* base_words(const learn::TrainingDay& day) {
  if (day.settings.empty()) return in(day.language, "pace", "Schritte");
  if (day.paces.empty()) return in(day.language, "desk", "Tisch");
  return in(day.language, "desk, pace", "Tisch, Schritte");
}

std::string order_words(const char* letter, const std::vector<std::size_t>& order) {
  std::string out;
  for (const auto i : order) out += fmt::format("{}{}{}", out.empty() ? "" : ", ", letter, i + 1);
  return out;
}

void draw_timetable(Column& c, const learn::TrainingDay& day) {
  const auto l = day.language;
  const auto table = learn::timetable_of(day);
  c.heading(in(l, "Who is where when", "Wer wann wo ist"),
            said(l, "from the beginning, {} in all, first {} min of cautions; ways between counted",
                 "ab Beginn, zusammen {}, zuerst {} min Warnungen; Wege dazwischen gezählt",
                 learn::hours(table.minutes), learn::briefing_min));
  constexpr int rows = learn::pair_count + learn::instructor_count;
  c.need(rows * row_mm + 6);
  const double x0 = edge + name_mm, per_min = (wide - name_mm) / table.minutes, top = c.y() - 3;
  auto& p = c.page();
  const auto row_y = [&](int row) { return top + row * row_mm; };
  for (int row = 0; row < rows; ++row) {
    const int i = row - learn::pair_count;
    const auto name =
        row < learn::pair_count
            ? fmt::format("{} {}", in(l, "pair", "Paar"), static_cast<char>('A' + row))
            : fmt::format("{} {}", in(l, "instructor", "Ausbilder"), i + 1);
    p.fitted(name, {edge, row_y(row) + 5}, name_mm - 2, words(9, true));
    p.box(x0, row_y(row), learn::briefing_min * per_min, row_mm - 1, ink::stone);
  }
  for (const auto& s : table.slots) {
    const double x = x0 + s.begin_min * per_min, w = (s.end_min - s.begin_min) * per_min;
    auto when = learn::hours(s.begin_min);
    if (w > narrow_mm) when += "–" + learn::hours(s.end_min);
    const bool alone = s.instructor < 0, all = s.instructor >= learn::instructor_count;
    bar(p, x, row_y(s.pair), w,
        s.station == learn::Station::base ? base_words(day) : learn::station_words(s.station, l),
        alone || all ? when : fmt::format("{} ({})", when, s.instructor + 1), alone);
    for (int i = 0; i < learn::instructor_count && !alone; ++i) {
      if (all ? s.pair == 0 : i == s.instructor) {
        const auto with = all ? std::string(in(l, "all", "alle"))
                              : std::string(1, static_cast<char>('A' + s.pair));
        bar(p, x, row_y(learn::pair_count + i), w,
            fmt::format("{}: {}", with, learn::station_words(s.station, l)), when, false);
      }
    }
  }
  c.y() = row_y(rows) + 4;
  std::string orders;
  if (table.bearings.size() > 1) orders += order_words("B", table.bearings) + ". ";
  if (table.features.size() > 1) orders += order_words("F", table.features) + ". ";
  c.paragraph(in(l,
                 "In brackets which instructor goes with the pair. Grey: at the start without one; "
                 "the pair "
                 "stays there, together. A gap is a rest at the start. Two pairs at one thing: one "
                 "goes round the "
                 "other way.",
                 "In Klammern, wer mit dem Paar geht. Grau: am Start, ohne Begleitung; das Paar "
                 "bleibt dort "
                 "zusammen. Eine Lücke ist Pause am Start. Zwei Paare bei einer Sache: eines geht "
                 "andersherum.") +
                  (orders.empty() ? std::string()
                                  : said(l, " Order with least walking: {}",
                                         " Folge mit den kürzesten "
                                         "Wegen: {}",
                                         orders)),
              9);
  constexpr int half_day_min = 270;
  if (table.minutes > half_day_min)
    c.paragraph(
        in(l, "That is more than half a day: leave out what lies furthest off, or make it two.",
           "Das ist mehr als ein halber Tag: lasst weg, was am weitesten liegt, oder macht "
           "zwei daraus."),
        9);
}

}  // namespace lodeway::sheet::training
