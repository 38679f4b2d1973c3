/// Why a leg and not the next best: its stretch searched once more without it.
#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/route/choose/choose_ways.hpp"
#include "lodeway/route/choose/judge_ways.hpp"
#include "lodeway/route/choose/way_parts.hpp"
#include "lodeway/route/legs/under_wires.hpp"
#include "lodeway/units/hundredths_up.hpp"
#include "lodeway/units/text.hpp"

namespace lodeway::route {

namespace {

using earth::GridPoint;
using walking::Choice;
using walking::Leg;
using walking::LegKind;

constexpr double same_end_m = 30, on_line_m = 15;
constexpr int most_told = 4;  // legs of the next best

bool same_leg(const Leg& a, const Leg& b) {
  return a.course.kind == b.course.kind && a.course.followed.name == b.course.followed.name &&
         earth::grid_distance_m(a.course.line.front(), b.course.line.front()) <= same_end_m &&
         earth::grid_distance_m(a.course.line.back(), b.course.line.back()) <= same_end_m;
}

double away_m(const std::vector<GridPoint>& line, GridPoint p) {
  double least = 1e300;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const double t = mapdata::nearest_fraction(line[i - 1], line[i], p);
    least = std::min(least, earth::grid_distance_m(line[i - 1] + t * (line[i] - line[i - 1]), p));
  }
  return least;
}

/// Is this leg, or a part of it, walked on the step?
bool walks(const Lines& lines, const Step& step, const Leg& leg) {
  if (leg.course.kind == LegKind::bearing) {
    for (std::size_t i = 1; i < step.points.size(); ++i) {
      if (earth::grid_distance_m(step.points[i - 1], leg.course.line.front()) <= same_end_m &&
          earth::grid_distance_m(step.points[i], leg.course.line.back()) <= same_end_m) {
        return true;
      }
    }
    return false;
  }
  if (step.run == nothing) return false;
  const auto run = lines.points(step.run, step.from_m, step.to_m);
  const mapdata::Measured measured(run);
  for (const double share : {0.25, 0.5, 0.75}) {
    if (away_m(leg.course.line, measured.at(share * measured.length_m())) > on_line_m) return false;
  }
  return true;
}

/// The legs between two of the leader's places, of which one is asked for.
struct Part {
  std::size_t point = 1, first = 0, last = 0;
};
Part part_with(const std::vector<walking::Waypoint>& points, const reckoning::JudgedWay& way,
               std::size_t leg) {
  Part out;
  for (std::size_t k = 0; k < way.legs.size(); ++k) {
    out.last = k;
    const bool ends =
        out.point < points.size() &&
        earth::grid_distance_m(way.legs[k].course.line.back(), points[out.point].at) < 1;
    if (!ends) continue;
    if (k >= leg) break;
    out.first = k + 1;
    if (out.point + 1 < points.size()) ++out.point;
  }
  return out;
}

std::string how(const Leg& leg, const units::Speech& speech) {
  const bool german = speech == units::Language::german;
  if (leg.course.kind == LegKind::along)
    return fmt::format(fmt::runtime(german ? "entlang {} nach {}" : "along {} to {}"),
                       leg.course.followed.name, leg.course.to);
  return fmt::format(fmt::runtime(german ? "nach Kompass {} nach {}" : "{} on a bearing to {}"),
                     units::length_text(leg.figures.length_m, speech.style), leg.course.to);
}

/// What makes the leg good, and what it risks. `keeps`: the line, where it follows one.
std::string about(const reckoning::JudgedLeg& leg, std::size_t number, double keeps,
                  const units::Speech& speech) {
  const bool german = speech == units::Language::german;
  const auto& s = leg.judged;
  const auto length = [&](double m) { return units::length_text(m, speech.style); };
  auto out = fmt::format(
      fmt::runtime(german ? "Abschnitt {}, {}: {:.0f} min; " : "Leg {}, {}: {:.0f} min; "), number,
      how(leg, speech), leg.judged.minutes);
  if (s.fix_at_end) {
    out += fmt::format(fmt::runtime(german ? "{} von 100 halten ihn."
                                           : "{} in 100 keep it."),
                       units::of_hundred(s.certainty));
  } else {
    out += german ? "an seinem Ende ist nichts zu sehen: der Fehler geht in den nächsten mit."
                  : "nothing is to be seen at its end: the error goes on into the next.";
  }
  if (leg.course.kind == LegKind::along) {
    out += fmt::format(
        fmt::runtime(german ? " Die Linie führt den ganzen Weg: {} von 100 bleiben "
                              "auf ihr, {} von 100 von diesen bemerken ihr Ende."
                            : " The line leads all the way: {} in 100 stay on it; {} "
                              "in 100 of those notice its end."),
        units::of_hundred(keeps), units::of_hundred(std::min(s.certainty / keeps, 1.0)));
  } else if (s.after) {
    const bool left = s.after->aimed_to == mapdata::Side::left;
    out += fmt::format(
        fmt::runtime(german ? " Er hält {} {} vor, damit beim Treffen auf die Linie ({}) klar ist, "
                              "wohin zu gehen ist."
                            : " It aims off {} {}, so that at the {} the turn is known."),
        length(s.after->length_m),
        german ? (left ? "links" : "rechts") : (left ? "to the left" : "to the right"),
        s.after->line);
  } else {
    out += fmt::format(fmt::runtime(german ? " Am Ende weiß die Gruppe quer zum Weg nur auf {} genau, wo sie ist."
                                           : " At the end the party knows its place across the way to within {}."),
                       length(s.cross_sigma_m));
  }
  if (leg.stop && leg.stop->beyond_m < 0.5) {
    out += fmt::format(fmt::runtime(german ? " Das Ende selbst ist die Auffanglinie: {}."
                                           : " The end itself is the catching feature: {}."),
                       leg.stop->what);
  } else if (leg.stop) {
    out += fmt::format(fmt::runtime(german ? " Auffanglinie: {}, {} dahinter."
                                           : " Catching feature: {}, {} beyond."),
                       leg.stop->what, length(leg.stop->beyond_m));
  }
  return out;
}

/// Which of a front a leader of this choice takes, by the rule that names the ways.
std::size_t best_for(Choice choice, const std::vector<FrontWay>& front) {
  std::vector<Candidate> all;
  for (const auto& way : front) all.push_back({way.cost.seconds / 60, way.cost.loss, 0, 0, 0});
  const auto picked = pick_ways(all, [](std::size_t, std::size_t) { return 1.0; });
  const auto sure = picked.sure.value_or(picked.quick);
  switch (choice) {
    case Choice::quick:
      return picked.quick;
    case Choice::middle:
      return picked.middle.value_or(sure);
    case Choice::sure:
      break;
  }
  return sure;
}

/// Does one of its legs follow wires overhead?
bool goes_under_wires(const NamedWay& way) {
  return std::ranges::any_of(way.way.legs, [](const Leg& leg) {
    return under_wires(leg.course.followed.kind);
  });
}

/// Why this way and not the next best, in one sentence.
std::string compared(const NamedWay& mine, const NamedWay& other, const Wishes& wishes) {
  const bool german = wishes.language == units::Language::german;
  std::string legs;
  int named = 0;
  for (const auto& leg : other.way.legs) {
    const bool shared =
        std::ranges::any_of(mine.way.legs, [&](const Leg& own) { return same_leg(own, leg); });
    if (shared) continue;
    if (named < most_told) legs += (named == 0 ? "" : ", ") + how(leg, wishes.language);
    ++named;
  }
  if (named > most_told) legs += german ? " und weiter" : " and on";
  if (named == 0)
    return german ? "Der nächstbeste Weg ist derselbe, anders in Abschnitte geteilt."
                  : "The next best way is the same, split into legs differently.";
  const double more = other.expected_min - mine.expected_min;
  const int surer = units::hundredths(other.way.certainty) - units::hundredths(mine.way.certainty);
  const bool longer = more >= 0.5, shorter = more <= -0.5;  // minutes, as they are shown
  const std::string time =
      !longer && !shorter
          ? (german ? "gleich lang" : "as long")
          : fmt::format("{:.0f} min {}", std::abs(more),
                        german ? (longer ? "länger" : "kürzer") : (longer ? "longer" : "shorter"));
  auto out = fmt::format(
      fmt::runtime(german ? "Das Nächstbeste, {}, ist bis zum nächsten Ort der Tour {} "
                            "(Zeit für Fehler eingerechnet)"
                          : "The next best, {}, is {} as far as the trip's next place "
                            "(time lost to mistakes included)"),
      legs, time);
  const auto tell = [&](auto theirs, auto ours, const char* english, const char* deutsch) {
    if (theirs != ours) out += fmt::format(fmt::runtime(german ? deutsch : english), theirs, ours);
  };
  tell(units::hundredths(other.way.certainty), units::hundredths(mine.way.certainty),
       "; {} in 100 keep it instead of {}", "; {} statt {} von 100 halten ihn");
  tell(other.way.legs.size(), mine.way.legs.size(), "; {} legs instead of {}",
       "; {} statt {} Abschnitte");
  tell(units::hundredths_up(other.hazard), units::hundredths_up(mine.hazard),
       "; {} in 100 instead of {} stray onto ground to keep off",
       "; {} statt {} von 100 geraten auf zu meidendes Gelände");
  const auto theirs = candidate_of(other, wishes), ours = candidate_of(mine, wishes);
  const bool breaks_more = theirs.keep_off > ours.keep_off + chance_rounding ||
                           theirs.short_of > ours.short_of + chance_rounding;
  const bool counts_longer = shorter && candidate_of(other, wishes).expected_min >=
                                            candidate_of(mine, wishes).expected_min;
  if (counts_longer && goes_under_wires(other) && !goes_under_wires(mine)) {
    out += german ? ": etwas schneller, aber besser einem Weg nach als einer Leitung."
                  : ": a little quicker, but better follow a road or path than wires.";
  } else if (counts_longer && surer <= 0) {
    out += german ? ": etwas schneller, aber länger allein nach der Nadel oder durch Wasser."
                  : ": a little quicker, but for longer by the needle alone, or through water.";
  } else if (!shorter && surer <= 0) {
    out += german ? ": weder schneller noch zuverlässiger." : ": neither quicker nor surer.";
  } else if (longer) {
    out += german ? ": zuverlässiger, aber die Zeit ist es dieser Wahl nicht wert."
                  : ": surer, but not worth the time to this choice.";
  } else if (surer < 0) {
    out += german ? ": schneller, aber für diese Wahl zu unzuverlässig."
                  : ": quicker, but too unsure for this choice.";
  } else if (breaks_more) {
    out += german ? ": schneller, aber es verletzt die Grenzen mehr."
                  : ": quicker, but it breaks the limits more.";
  } else {
    out += german ? ": nach diesen Zahlen ist es ebenso gut." : ": by these figures it is as good.";
  }
  return out;
}

}  // namespace

Result<std::string> WayFinder::explain(const walking::Request& request, const Wishes& wishes,
                                       const reckoning::JudgedWay& way, walking::Choice choice,
                                       std::size_t leg, numeric::Parallel& parallel) const {
  const bool german = wishes.language == units::Language::german;
  if (leg >= way.legs.size()) {
    return fail(FaultCode::bad_input,
                fmt::format("leg: expected 1 to {}, got {}", way.legs.size(), leg + 1));
  }
  const auto local = part_for(request, 1);
  const Workshop shop(*local, request, wishes, parallel);
  const auto points = named_points(shop.cutting);
  const auto part = part_with(points, way, leg);
  walking::Way own;
  for (auto k = part.first; k <= part.last; ++k) own.legs.push_back(way.legs[k]);
  auto mine = judged(shop.teller(), own);
  count_wading(shop.cutting, mine);
  const auto& asked = mine.way.legs[leg - part.first];
  auto fresh = shop.judge.at_fix();
  // First the choice, in one sentence; then what makes the leg good, and what it risks.
  const auto end = shop.judge.weigh(asked, fresh).end;
  const auto* handrail = std::get_if<reckoning::ByHandrail>(&end);
  const auto after = " " + about(way.legs[leg], leg + 1, handrail != nullptr ? handrail->keeps : 1,
                                 wishes.language);
  if (points[part.point].stretch != walking::Stretch::find) {
    return (german ? "So ist er vorgegeben." : "The leader has set it so.") + after;
  }
  const auto walked = [&](const Step& step) { return walks(local->lines, step, asked); };
  const auto graph = graph_of(shop.seeking, points[part.point - 1], points[part.point], walked);
  const auto none = (german ? "Kein anderer Weg führt von einem zum anderen dorthin."
                            : "No other way leads there from one thing to the next.") +
                    after;
  if (graph == nullptr) return none;
  auto problem = problem_of(*graph, wishes);
  std::vector<Arc> arcs;
  std::vector<std::uint32_t> index;
  for (std::uint32_t a = 0; a < graph->arcs().size(); ++a) {
    if (walked(graph->step(a))) continue;
    arcs.push_back(graph->arcs()[a]);
    index.push_back(a);
  }
  problem.arcs = arcs;
  auto front = find_front_soon(problem);
  if (front && front->ways.empty()) {
    problem.limits = {};
    front = find_front_soon(problem);
  }
  if (!front) return std::unexpected(front.error());
  if (front->ways.empty()) return none;
  auto best = front->ways[best_for(choice, front->ways)];
  for (auto& a : best.arcs) a = index[a];
  auto other = judged(
      shop.teller(),
      {"", legs_through(shop.seeking, *graph, best, points[part.point - 1], points[part.point])});
  count_wading(shop.cutting, other);
  return compared(mine, other, wishes) + after;
}

}  // namespace lodeway::route
