#include "lodeway/sheet/notes/debrief_page.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "lodeway/sheet/training/training_page.hpp"
#include "lodeway/sheet/words.hpp"

namespace lodeway::sheet {

namespace {
using namespace training;

/// The band as a bar, the walked minutes as a stroke: seen before it is read.
void bar(Page& page, double x, double y, double w, double most, const learn::LegDebrief& leg) {
  const auto at = [&](double minutes) { return x + w * std::min(1.0, minutes / most); };
  page.box(at(leg.low_min), y - 3, at(leg.high_min) - at(leg.low_min), 3.4, ink::lamp_pale);
  page.frame(at(leg.low_min), y - 3, at(leg.high_min) - at(leg.low_min), 3.4, {ink::stone, 0.2});
  page.stroke({{at(leg.middle_min), y - 3}, {at(leg.middle_min), y + 0.4}}, {ink::stone, 0.2});
  if (leg.walked)
    page.stroke({{at(leg.minutes), y - 4}, {at(leg.minutes), y + 1.4}}, {ink::night, 0.9});
}
}  // namespace

std::vector<Drawing> draw_debrief(const DebriefPaper& paper, const TextMeasure& measure) {
  const auto l = paper.plan.trip.language;
  Column c(in(l, "Debrief: ", "Nachbesprechung: ") + paper.plan.trip.name,
           date_text(paper.plan.trip.date, l),
           in(l, "For talking over. It blames nobody: it says what to train.",
              "Zum Besprechen. Es beschuldigt niemanden: es sagt, was zu üben ist."),
           measure);
  const auto& d = paper.debrief;
  const auto length = [&](double m) { return length_text(m, paper.plan.trip.lengths); };
  c.paragraph(
      said(l, "{} of {} legs took as long as 8 of 10 such parties take.{}",
           "{} von {} Abschnitten dauerten so lang, wie 8 von 10 solchen Gruppen brauchen.{}",
           d.inside, d.judged,
           d.figures_do_not_fit()
               ? in(l,
                    " That is too few: the figures do not fit this party. Learn from its tracks "
                    "before the next trip.",
                    " Das sind zu wenige: die Zahlen passen nicht zu dieser Gruppe. Lernt vor der "
                    "nächsten Tour aus ihren Aufzeichnungen.")
               : ""),
      11);
  double most = 1;
  for (const auto& leg : d.legs) most = std::max({most, leg.high_min, leg.minutes});
  c.heading(in(l, "Minutes", "Minuten"),
            in(l, "bar: 8 of 10; thin stroke: expected; thick stroke: walked, stops taken out",
               "Balken: 8 von 10; dünner Strich: erwartet; dicker Strich: gegangen, ohne Halte"));
  for (std::size_t i = 0; i < d.legs.size(); ++i) {
    const auto& leg = d.legs[i];
    c.need(8);
    c.page().text(fmt::format("{}", i + 1), {edge, c.y()}, figures(11, true));
    c.page().fitted(
        fmt::format("{} {} {}", paper.legs[i].from, in(l, "to", "nach"), paper.legs[i].to),
        {edge + 8, c.y()}, 74, words(9.5), Anchor::left, 0.65);
    c.page().text(
        leg.walked ? fmt::format("{:.0f}", leg.minutes) : in(l, "not walked", "nicht gegangen"),
        {edge + 98, c.y()}, figures(10, true), Anchor::right);
    bar(c.page(), edge + 102, c.y(), wide - 102, most, leg);
    c.y() += 6.4;
  }
  bool any = false;
  for (std::size_t i = 0; i < d.legs.size(); ++i) {
    for (const auto& left : d.legs[i].left) {
      if (!any) c.heading(in(l, "Where the way was left", "Wo der Weg verlassen wurde"));
      any = true;
      c.paragraph(said(
          l,
          "Leg {}: after {}, at {}; up to {} beside it; {}. What did you see? When did you doubt?",
          "Abschnitt {}: nach {}, bei {}; bis {} daneben; {}. Was habt ihr gesehen? Wann habt ihr "
          "gezweifelt?",
          i + 1, length(left.at_m), reference(left.at), length(left.furthest_m),
          left.regained_m ? said(l, "met again after {}", "nach {} wieder erreicht",
                                 length(*left.regained_m))
                          : in(l, "not met again", "nicht wieder erreicht")));
    }
  }
  any = false;
  for (std::size_t i = 0; i < d.legs.size(); ++i) {
    for (const auto t : d.legs[i].passed) {
      if (!any)
        c.heading(in(l, "Passed: seen? known?", "Vorbeigekommen: gesehen? erkannt?"),
                  in(l, "strike what was; seen.toml takes the sums",
                     "anstreichen, was zutrifft; die Summen kommen in seen.toml"));
      any = true;
      c.need(8);
      c.page().fitted(said(l, "leg {}, {}: ", "Abschnitt {}, {}: ", i + 1,
                           length(paper.legs[i].ticks[t].at_m)) +
                          paper.legs[i].ticks[t].what,
                      {edge, c.y()}, wide - 54, words(9.5));
      for (const auto& [x, label] : {std::pair{wide - 48.0, in(l, "seen", "gesehen")},
                                     {wide - 22.0, in(l, "known", "erkannt")}}) {
        c.page().frame(edge + x, c.y() - 4, 5, 5, {ink::night, 0.35});
        c.page().text(label, {edge + x + 6.5, c.y()}, words(9));
      }
      c.y() += 6.6;
    }
  }
  for (const auto& note : paper.notes) c.paragraph(note, 9);
  return c.take();
}

}  // namespace lodeway::sheet
