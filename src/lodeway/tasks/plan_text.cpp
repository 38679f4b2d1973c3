#include <algorithm>
#include <cmath>
#include <initializer_list>
#include <string_view>
#include <utility>

#include <fmt/format.h>

#include "lodeway/numeric/statistics.hpp"
#include "lodeway/tasks/plan.hpp"
#include "lodeway/trip/clock_text.hpp"
#include "lodeway/trip/duration_text.hpp"
#include "lodeway/trip/figure_text.hpp"
#include "lodeway/trip/kept_told.hpp"
#include "lodeway/trip/not_to_walk.hpp"
#include "lodeway/trip/told.hpp"
#include "lodeway/trip/told_ticks.hpp"
#include "lodeway/trip/turn_words.hpp"
#include "lodeway/trip/verdict_words.hpp"
#include "lodeway/trip/warnings.hpp"
#include "lodeway/trip/wording.hpp"
#include "lodeway/units/text.hpp"

namespace lodeway::tasks {

namespace {

using Leg = trip::PlannedLeg;

/// Figures and words of one plan, in its units and its language.
struct Voice {
  explicit Voice(const trip::Trip& trip) : in(trip.language), style(trip::speech_of(trip).style) {}
  units::Language in;
  units::TextStyle style;
  [[nodiscard]] std::string length(double m) const {
    auto text = units::length_text(m, style);
    if (in == units::Language::german) std::ranges::replace(text, '.', ',');
    return text;
  }
  [[nodiscard]] std::string height(double m) const { return units::height_text(m, style); }
  [[nodiscard]] std::string bearing(units::MagneticBearing b) const {
    return units::bearing_text(b, style, 0);
  }
  [[nodiscard]] std::string told(std::string_view english,
                                 std::initializer_list<trip::ToldValue> values = {}) const {
    return trip::told(in, english, values);
  }
  [[nodiscard]] std::string side(bool left) const { return left ? told("left") : told("right"); }
  /// The needle, or what is followed and how it sets out.
  [[nodiscard]] std::string how(const Leg& leg) const {
    if (leg.needle) return bearing(leg.needle->magnetic);
    return told("along {}, sets out {}",
                {leg.course.followed.name, bearing(leg.first_magnetic_bearing)});
  }
};

/// An escape route with its steps. What ends one leg begins the next, and is said once.
std::string escape_of(const trip::PlannedEscape& route, const trip::Plan& plan, const Voice& v) {
  using From = reckoning::LeavesAt;
  auto text = "     " + (route.from == From::start    ? v.told("escape route from its start: ")
                         : route.from == From::middle ? v.told("escape route from half way: ")
                                                      : v.told("escape route from its end: "));
  if (route.legs.empty()) return text + v.told("none needed, {} is here", {route.to}) + "\n";
  const auto to = route.back ? v.told("back the way you came to {}", {route.to}) : route.to;
  text += v.told("{}, {} min, {} in 100 keep it",
                 {to, route.minutes, trip::of_hundred(route.certainty)});
  if (route.hazard_probability >= trip::told_harm)
    text += v.told(", {} in 100 stray onto ground to keep off",
                   {trip::harmed_of_hundred(route.hazard_probability)});
  for (const auto& [is, what] : {std::pair{route.snow_slope, trip::Say::escape_on_snow_slope},
                                 std::pair{route.after_last_light, trip::Say::escape_after_dark}})
    if (is) text += std::string("; ") + trip::say(what, v.in);
  text += "\n";
  for (std::size_t k = 0; k < route.legs.size(); ++k) {
    const Leg& step = route.legs[k];
    text += "       " +
            v.told("{}. {}, {}, {} double paces, {} min, to {}",
                   {k + 1, v.how(step), v.length(step.counted.length_m), step.counted.double_paces,
                    step.counted.minutes, step.course.to}) +
            "\n";
    if (step.after) {
      const bool left = step.after->aimed_to == mapdata::Side::left;
      text +=
          "          " +
          v.told("aim off {}; at {} turn {}: {}",
                 {v.side(left), step.after->line, v.side(!left), v.length(step.after->length_m)}) +
          "\n";
    }
    if (step.at_end)
      text += "          " + v.told("at its end {}", {trip::fork_words(*step.at_end, plan.trip)}) +
              "\n";
    for (const auto& danger : step.dangers)
      text += "          " + v.told("keep off: {}", {danger.what}) + "\n";
  }
  return text;
}

std::string line_of(const trip::Plan& plan, std::size_t i, const Voice& v) {
  const Leg& leg = plan.way.legs[i];
  const auto& c = leg.counted;
  auto text =
      fmt::format("{:>3}  {} → {}  [{}]\n", i + 1, leg.course.from, leg.course.to, leg.reference);
  const auto line = [&](const std::string& words) { text += "     " + words + "\n"; };
  line(v.told("{}, {}, {} mm, {} double paces, up {}, down {}, {} min, there {}",
              {v.how(leg), v.length(c.length_m), c.map_mm, c.double_paces,
               v.height(leg.figures.climb_m), v.height(leg.figures.descent_m), c.minutes,
               trip::clock_text(plan.schedule.legs[i].arrive, plan.daylight)}));
  if (leg.after) {
    const bool left = leg.after->aimed_to == mapdata::Side::left;
    line(v.told("aim off {}; at {} turn {}: {}, {} mm, {} double paces, {} min to the end",
                {v.side(left), leg.after->line, v.side(!left), v.length(leg.after->length_m),
                 leg.after->map_mm, leg.after->double_paces, leg.after->minutes}));
  }
  if (!leg.needle && !leg.remark.empty()) line(leg.remark);
  for (const auto& ford : leg.fords) line(v.told("ford {}", {trip::ford_words(ford, plan.trip)}));
  for (const auto& fork : trip::forks_told(leg, plan.trip)) line(fork);
  if (const auto bends = trip::bend_words(leg, plan.trip); !bends.empty())
    line(v.told("bends: {}", {bends}));
  if (leg.at_end) line(v.told("at the end {}", {trip::fork_words(*leg.at_end, plan.trip)}));
  for (const auto& tick : leg.ticks)
    line(fmt::format("{:>6}  {:>3.0f} min  {}", v.length(tick.at_m), tick.minutes, tick.what));
  if (const auto bare = trip::more_ticks_words(leg, leg.ticks, plan.trip); !bare.empty())
    line(trip::say(trip::Say::more_ticks, v.in) + (": " + bare));
  if (!leg.stop)
    line(v.told("no catching feature: rely on your count"));
  else if (leg.stop->beyond_m >= 1)
    line(v.told("catching feature: {}, {} beyond", {leg.stop->what, v.length(leg.stop->beyond_m)}));
  else
    line(v.told("catching feature: {}", {leg.stop->what}));
  for (const auto& note : leg.notes) line(trip::note_words(note, plan.trip, plan.norths.at));
  for (const auto& danger : leg.dangers) line(v.told("keep off: {}", {danger.what}));
  if (!leg.judged.fix_at_end) {
    line(v.told("nothing to see at the end: the error carries into the next leg"));
  } else {
    const auto& j = leg.judged;
    const auto least = trip::of_hundred(trip::kept_told(j));
    auto kept = j.band && j.in_the_end
                    ? v.told("{} to {} in 100 keep it at the first try; {} end there in the end",
                             {least, trip::of_hundred(j.band->high), trip::of_hundred(*j.in_the_end)})
                    : v.told("{} in 100 keep it", {least});
    if (!leg.judged.confusable.empty())
      kept += v.told(", easily confused with: {}", {leg.judged.confusable});
    line(kept);
  }
  if (leg.judged.hazard_probability >= trip::told_harm)
    line(v.told("{} in 100 stray onto ground to keep off",
                {trip::harmed_of_hundred(leg.judged.hazard_probability)}));
  for (const auto& route : leg.escapes) {
    if (route.from != reckoning::LeavesAt::start || i == 0) text += escape_of(route, plan, v);
  }
  return text;
}

/// "6 h 05"
std::string hours(double minutes) {
  const auto m = static_cast<int>(std::lround(minutes));
  return fmt::format("{}{} h {:02}", m < 0 ? "-" : "", std::abs(m) / 60, std::abs(m) % 60);
}

/// In a column of the table.
std::string band_words(trip::Band band, const Voice& v) {
  switch (band) {
    case trip::Band::within:
      return v.told("within");
    case trip::Band::close_to:
      return v.told("close to");
    case trip::Band::not_judged:
      return v.told("not judged");
    case trip::Band::outside:
      break;
  }
  return v.told("OUTSIDE");
}

/// The ways side by side, a column each.
std::string ways_of(const PlannedWays& ways, const Voice& v) {
  std::string text;
  const auto row = [&](const std::string& what, const auto& cell) {
    text += fmt::format("{:<28}", what);
    for (std::size_t i = 0; i < ways.ways.size(); ++i) text += fmt::format("{:>16}", cell(i));
    text += "\n";
  };
  const auto plan = [&](std::size_t i) -> const trip::Plan& { return ways.ways[i].plan; };
  const auto of_100 = [&](const std::string& share) { return v.told("{} in 100", {share}); };
  row("", [&](std::size_t i) { return plan(i).way.name + (i == ways.picked ? " *" : ""); });
  row(v.told("walking"), [&](std::size_t i) { return hours(plan(i).minutes); });
  row("  " + v.told("with mistakes"),
      [&](std::size_t i) { return hours(ways.ways[i].expected_min); });
  row(v.told("length"), [&](std::size_t i) { return v.length(plan(i).length_m); });
  row(v.told("climb"), [&](std::size_t i) { return v.height(plan(i).climb_m); });
  row(v.told("verdict"), [&](std::size_t i) { return band_words(plan(i).verdict.band, v); });
  row(v.told("onto ground to keep off"),
      [&](std::size_t i) { return of_100(trip::harmed_of_hundred(plan(i).keep_off)); });
  row(v.told("keep every leg"),
      [&](std::size_t i) { return of_100(trip::of_hundred(plan(i).way.certainty)); });
  row("  " + v.told("predicted"),
      [&](std::size_t i) { return of_100(trip::of_hundred(ways.ways[i].averaged)); });
  row("  " + v.told("figures taken as known"),
      [&](std::size_t i) { return of_100(trip::of_hundred(ways.ways[i].as_known)); });
  row("  " + v.told("simulated"), [&](std::size_t i) {
    const auto& days = ways.ways[i].days;
    if (days.parties == 0) return std::string("-");
    return fmt::format("{} ± {:.0f}", trip::of_hundred(*ways.ways[i].walked_kept()),
                       100 * numeric::share_error(days.kept, days.parties));
  });
  row(v.told("slow day to last light"), [&](std::size_t i) -> std::string {
    const auto& slow = plan(i).schedule.end_slow;
    const auto& dusk = plan(i).daylight.dusk;
    return slow && dusk ? hours(static_cast<double>((*dusk - *slow).count())) : "-";
  });
  row(v.told("legs"), [&](std::size_t i) { return plan(i).way.legs.size(); });
  for (const auto& way : ways.ways) {
    for (const auto& remark : way.remarks) text += way.plan.way.name + ": " + remark + "\n";
  }
  if (!ways.picked_why.empty()) text += ways.picked_why + "\n";
  for (const auto& remark : ways.remarks) text += remark + "\n";
  return text + "\n";
}

std::string when(const std::optional<trip::Clock>& t, const trip::Daylight& day) {
  return t ? trip::clock_text(*t, day) : "-";
}

}  // namespace

std::string plan_as_text(const PlannedTrip& planned) {
  const auto& plan = planned.plan;
  const auto& s = plan.schedule;
  const auto& d = plan.daylight;
  const Voice v(plan.trip);
  auto text = verdict_as_text(plan);
  const auto& picked = planned.ways.ways[planned.ways.picked];
  const auto kept = trip::kept_words(picked.walked_kept(), picked.averaged, picked.as_known,
                                     plan.trip.language);
  if (!kept.empty()) text += "  " + kept + "\n";
  text += "\n" + ways_of(planned.ways, v);
  const auto name = plan.trip.name.empty() ? v.told("the trip") : plan.trip.name;
  if (const auto mark = trip::not_to_walk_mark(plan); !mark.empty()) text += mark + ".\n";
  text += v.told("{} ({}): {} legs, {}, up {}, down {}, {} walking\n",
                 {name, plan.way.name, plan.way.legs.size(), v.length(plan.length_m),
                  v.height(plan.climb_m), v.height(plan.descent_m),
                  trip::duration_text(plan.minutes)});
  text += v.told(
      "Bearings are magnetic, for the trip's date. In brackets: where a leg ends, a grid reference "
      "of six figures. Millimetres are on a map sheet of 1:{}.\n",
      {trip::thousands(plan.trip.map_scale)});
  text += v.told(
      "Escape routes: predicted, in these conditions or in cloud, whichever is worse. Who loses the "
      "way on one is not counted.\n\n");
  for (std::size_t i = 0; i < plan.way.legs.size(); ++i) text += line_of(plan, i, v);
  const auto clock = [&](trip::Clock t) { return trip::clock_text(t, d); };
  const auto home = s.one_way ? v.told("due at") : v.told("back at");
  if (s.end_slow && s.act_by) {
    text += "\n" + v.told("start {}, {} {}, don't worry before {}, call for help at {}\n",
                          {trip::zoned(clock(s.start), plan.trip), home, clock(s.end),
                           clock(*s.end_slow), clock(*s.act_by)});
  } else {
    text += "\n" + v.told("start {}, {} {}\n",
                          {trip::zoned(clock(s.start), plan.trip), home, clock(s.end)});
    text += trip::say(trip::Say::no_hour, plan.trip.language,
                      {trip::harmed_of_hundred(s.never_home)}) + "\n";
  }
  if (s.rehearsed > 0 && s.end_half && s.end_slow) {
    text += v.told(
        "{} simulated parties, with time lost to mistakes: 50 in 100 are {} by {}, 90 in 100 by {}\n",
        {s.rehearsed, s.one_way ? v.told("there") : v.told("back"), clock(*s.end_half),
         clock(*s.end_slow)});
  }
  text += v.told("first light {}, sunrise {}, sunset {}, last light {} ({}){}\n",
                 {when(d.dawn, d), when(d.rise, d), when(d.set, d), when(d.dusk, d), plan.trip.zone,
                  d.state.empty() ? "" : ": " + d.state});
  if (s.latest_start) text += v.told("latest start {}\n", {when(s.latest_start, d)});
  if (const auto none = trip::no_turn_words(plan); !none.empty()) text += none + "\n";
  if (s.turn_round) {
    const auto leg = static_cast<std::size_t>(s.turn_round_leg);
    text += v.told(
        "turn round if not at the end of leg {}, {}, by {}: {} back\n",
        {leg + 1, plan.way.legs[leg].course.to, clock(*s.turn_round),
         trip::duration_text(s.turn_round_back_min)});
  }
  if (!plan.warnings.empty()) text += "\n";
  return text + warnings_as_text(plan);
}

std::string verdict_as_text(const trip::Plan& plan) {
  const auto language = plan.trip.language;
  auto text = trip::headline_of(plan) + "\n";
  for (const auto& line : trip::sentences_of(plan))
    text += "  " + line + "\n";
  if (plan.verdict.band == trip::Band::within) text += "  " + trip::within_caution(language) + "\n";
  return text + "  " +
         trip::say(trip::Say::both_figures, language,
                   {trip::harmed_of_hundred(plan.keep_off), trip::of_hundred(plan.way.certainty)}) +
         "\n";
}

std::string warnings_as_text(const trip::Plan& plan, trip::Severity least) {
  const Voice v(plan.trip);
  std::string text;
  for (const auto& w : plan.warnings) {
    if (w.severity < least) continue;
    text += (w.severity == trip::Severity::danger    ? v.told("DANGER: {}", {w.text})
             : w.severity == trip::Severity::caution ? v.told("CAUTION: {}", {w.text})
                                                     : v.told("note: {}", {w.text})) +
            "\n";
  }
  return text;
}

}  // namespace lodeway::tasks
