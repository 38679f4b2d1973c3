#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "lodeway/tasks/plan.hpp"
#include "lodeway/trip/clock_text.hpp"
#include "lodeway/trip/figure_text.hpp"
#include "lodeway/trip/turn_words.hpp"
#include "lodeway/trip/verdict_words.hpp"
#include "lodeway/trip/wording.hpp"
#include "lodeway/units/text.hpp"

namespace lodeway::tasks {

namespace {

using Leg = trip::PlannedLeg;

struct Units {
  units::TextStyle style;
  [[nodiscard]] std::string length(double m) const { return units::length_text(m, style); }
  [[nodiscard]] std::string height(double m) const { return units::height_text(m, style); }
  [[nodiscard]] std::string bearing(units::MagneticBearing b) const {
    return units::bearing_text(b, style, 0);
  }
};

/// An escape route with its steps. What ends one leg begins the next, and is said once.
std::string escape_of(const trip::PlannedEscape& route, const trip::Plan& plan, const Units& u) {
  constexpr const char* places[] = {"its start", "half way", "its end"};
  auto text = fmt::format("     escape route from {}: ", places[static_cast<int>(route.from)]);
  if (route.legs.empty()) return text + "none needed, " + route.to + " is here\n";
  text += fmt::format("{}{}, {:.0f} min, {} in 100 keep it", route.back ? "back the way you came to " : "",
                      route.to, route.minutes, trip::of_hundred(route.certainty));
  if (route.hazard_probability >= 0.0005)
    text += fmt::format(", {} in 100 stray onto ground to keep off",
                        trip::harmed_of_hundred(route.hazard_probability));
  for (const auto& [is, what] : {std::pair{route.snow_slope, trip::Say::escape_on_snow_slope},
                                 std::pair{route.after_last_light, trip::Say::escape_after_dark}})
    if (is) text += std::string("; ") + trip::say(what, plan.trip.language);
  text += "\n";
  for (std::size_t k = 0; k < route.legs.size(); ++k) {
    const Leg& step = route.legs[k];
    const auto how =
        step.needle ? u.bearing(step.needle->magnetic)
                    : "along " + step.course.followed.name + ", sets out " +
                          u.bearing(step.first_magnetic_bearing);
    text += fmt::format("       {}. {}, {}, {:.0f} double paces, {:.0f} min, to {}\n", k + 1, how,
                        u.length(step.counted.length_m), step.counted.double_paces,
                        step.counted.minutes, step.course.to);
    if (step.after) {
      text += fmt::format("          aim off {}; at {} turn {}: {}\n",
                          step.after->aimed_to == mapdata::Side::left ? "left" : "right",
                          step.after->line,
                          step.after->aimed_to == mapdata::Side::left ? "right" : "left",
                          u.length(step.after->length_m));
    }
    if (step.at_end)
      text += "          at its end " + trip::fork_words(*step.at_end, plan.trip) + "\n";
    for (const auto& danger : step.dangers)
      text += fmt::format("          keep off: {}\n", danger.what);
  }
  return text;
}

std::string line_of(const trip::Plan& plan, std::size_t i, const Units& u) {
  const Leg& leg = plan.way.legs[i];
  const auto& t = plan.schedule.legs[i];
  const auto& c = leg.counted;
  const auto how =
      leg.needle ? u.bearing(leg.needle->magnetic)
                 : "along " + leg.course.followed.name + ", sets out " +
                       u.bearing(leg.first_magnetic_bearing);
  auto text = fmt::format(
      "{:>3}  {} → {}  [{}]\n     {}, {}, {:.0f} mm, {:.0f} double paces, up {}, down {}, "
      "{:.0f} min, there {}\n",
      i + 1, leg.course.from, leg.course.to, leg.reference, how, u.length(c.length_m), c.map_mm,
      c.double_paces, u.height(leg.figures.climb_m), u.height(leg.figures.descent_m), c.minutes,
      trip::clock_text(t.arrive, plan.daylight));
  if (leg.after) {
    const bool left = leg.after->aimed_to == mapdata::Side::left;
    text += fmt::format(
        "     aim off {}; at {} turn {}: {}, {:.0f} mm, {:.0f} double paces, {:.0f} min to the "
        "end\n",
        left ? "left" : "right", leg.after->line, left ? "right" : "left",
        u.length(leg.after->length_m), leg.after->map_mm, leg.after->double_paces,
        leg.after->minutes);
  }
  if (!leg.needle && !leg.remark.empty()) text += "     " + leg.remark + "\n";
  for (const auto& ford : leg.fords) text += "     ford " + trip::ford_words(ford, plan.trip) + "\n";
  for (const auto& fork : trip::forks_told(leg, plan.trip)) text += "     " + fork + "\n";
  if (const auto bends = trip::bend_words(leg, plan.trip); !bends.empty())
    text += "     bends: " + bends + "\n";
  if (leg.at_end) text += "     at the end " + trip::fork_words(*leg.at_end, plan.trip) + "\n";
  for (const auto& tick : leg.ticks) {
    text +=
        fmt::format("     {:>6}  {:>3.0f} min  {}\n", u.length(tick.at_m), tick.minutes, tick.what);
  }
  text += leg.stop
              ? fmt::format(
                    "     catching feature: {}{}\n", leg.stop->what,
                    leg.stop->beyond_m >= 1 ? ", " + u.length(leg.stop->beyond_m) + " beyond" : "")
              : std::string("     no catching feature: rely on your count\n");
  for (const auto& danger : leg.dangers) text += fmt::format("     keep off: {}\n", danger.what);
  if (!leg.judged.fix_at_end) {
    text += "     nothing to see at the end: the error carries into the next leg\n";
  } else {
    text += fmt::format("     {} in 100 keep it", trip::of_hundred(leg.judged.certainty));
    if (!leg.judged.confusable.empty()) {
      text += fmt::format(", easily confused with: {}", leg.judged.confusable);
    }
    text += "\n";
  }
  for (const auto& route : leg.escapes) {
    if (route.from != reckoning::LeavesAt::start || i == 0) text += escape_of(route, plan, u);
  }
  return text;
}

/// "6 h 05"
std::string hours(double minutes) {
  const auto m = static_cast<int>(std::lround(minutes));
  return fmt::format("{}{} h {:02}", m < 0 ? "-" : "", std::abs(m) / 60, std::abs(m) % 60);
}

/// In a column of the table.
std::string band_words(trip::Band band) {
  constexpr const char* words[] = {"within", "close to", "not judged", "OUTSIDE"};
  return words[static_cast<std::size_t>(band)];
}

/// The ways side by side, a column each.
std::string ways_of(const PlannedWays& ways, const Units& u) {
  std::string text;
  const auto row = [&](const char* what, const auto& cell) {
    text += fmt::format("{:<26}", what);
    for (std::size_t i = 0; i < ways.ways.size(); ++i) text += fmt::format("{:>16}", cell(i));
    text += "\n";
  };
  const auto plan = [&](std::size_t i) -> const trip::Plan& { return ways.ways[i].plan; };
  row("", [&](std::size_t i) { return plan(i).way.name + (i == ways.picked ? " *" : ""); });
  row("walking", [&](std::size_t i) { return hours(plan(i).minutes); });
  row("  with mistakes", [&](std::size_t i) { return hours(ways.ways[i].expected_min); });
  row("length", [&](std::size_t i) { return u.length(plan(i).length_m); });
  row("climb", [&](std::size_t i) { return u.height(plan(i).climb_m); });
  row("verdict", [&](std::size_t i) { return band_words(plan(i).verdict.band); });
  row("onto ground to keep off",
      [&](std::size_t i) { return trip::harmed_of_hundred(plan(i).keep_off) + " in 100"; });
  row("keep every leg, predicted",
      [&](std::size_t i) { return trip::of_hundred(plan(i).way.certainty) + " in 100"; });
  row("  figures taken as known",
      [&](std::size_t i) { return trip::of_hundred(ways.ways[i].as_known) + " in 100"; });
  row("  simulated, as known", [&](std::size_t i) {
    const auto& w = ways.ways[i];
    return fmt::format("{} ± {:.0f}", trip::of_hundred(w.rehearsed), 100 * w.rehearsed_error);
  });
  row("margin to last light", [&](std::size_t i) -> std::string {
    const auto& dark = plan(i).schedule.to_dusk_min;
    return dark ? hours(*dark) : "-";
  });
  row("legs", [&](std::size_t i) { return plan(i).way.legs.size(); });
  for (const auto& way : ways.ways) {
    for (const auto& remark : way.remarks) text += way.plan.way.name + ": " + remark + "\n";
  }
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
  const Units u{trip::speech_of(plan.trip).style};
  auto text = verdict_as_text(plan);
  const auto averaged =
      trip::averaged_words(plan.way.certainty, planned.ways.ways[planned.ways.picked].as_known,
                           plan.trip.language);
  if (!averaged.empty()) text += "  " + averaged + "\n";
  text += "\n" + ways_of(planned.ways, u);
  const auto& name = plan.trip.name;
  text += fmt::format("{} ({}): {} legs, {}, up {}, down {}, {:.0f} min walking\n",
                      name.empty() ? "the trip" : name, plan.way.name, plan.way.legs.size(),
                      u.length(plan.length_m), u.height(plan.climb_m), u.height(plan.descent_m),
                      plan.minutes);
  text += fmt::format(
      "Bearings are magnetic, for the trip's date. In brackets: where a leg ends, a grid reference "
      "of six figures. Millimetres are on a map sheet of 1:{}.\n\n",
      trip::thousands(plan.trip.map_scale));
  for (std::size_t i = 0; i < plan.way.legs.size(); ++i) text += line_of(plan, i, u);
  const auto clock = [&](trip::Clock t) { return trip::clock_text(t, d); };
  text += fmt::format("\nstart {}, {} {}, don't worry before {}, call for help at {}\n",
                      trip::zoned(clock(s.start), plan.trip), s.one_way ? "due at" : "back at",
                      clock(s.end), clock(s.end_slow), clock(s.act_by));
  if (s.rehearsed > 0) {
    text += fmt::format(
        "{} simulated parties, with time lost to mistakes: half are {} by {}, nine in ten by "
        "{}\n",
        s.rehearsed, s.one_way ? "there" : "back", clock(s.end_half), clock(s.end_slow));
  }
  text += fmt::format("first light {}, sunrise {}, sunset {}, last light {} ({}){}\n",
                      when(d.dawn, d), when(d.rise, d), when(d.set, d), when(d.dusk, d),
                      plan.trip.zone, d.state.empty() ? "" : ": " + d.state);
  text += fmt::format("latest start {}\n", when(s.latest_start, d));
  if (s.turn_round) {
    text += fmt::format("turn round if not at {} by {}: {:.0f} min back\n",
                        plan.way.legs[static_cast<std::size_t>(s.turn_round_leg)].course.to,
                        clock(*s.turn_round), s.turn_round_back_min);
  }
  if (!plan.warnings.empty()) text += "\n";
  return text + warnings_as_text(plan);
}

std::string verdict_as_text(const trip::Plan& plan) {
  const auto language = plan.trip.language;
  auto text = trip::verdict_headline(plan.verdict.band, language) + "\n";
  for (const auto& line : trip::verdict_sentences(plan.verdict, language))
    text += "  " + line + "\n";
  if (plan.verdict.band == trip::Band::within) text += "  " + trip::within_caution(language) + "\n";
  return text + "  " +
         trip::say(trip::Say::both_figures, language,
                   {trip::harmed_of_hundred(plan.keep_off), trip::of_hundred(plan.way.certainty)}) +
         "\n";
}

std::string warnings_as_text(const trip::Plan& plan, trip::Severity least) {
  constexpr const char* marks[] = {"note", "CAUTION", "DANGER"};
  std::string text;
  for (const auto& w : plan.warnings) {
    if (w.severity < least) continue;
    text += fmt::format("{}: {}\n", marks[static_cast<int>(w.severity)], w.text);
  }
  return text;
}

}  // namespace lodeway::tasks
