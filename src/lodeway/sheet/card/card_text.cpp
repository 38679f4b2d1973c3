#include <cmath>

#include <fmt/format.h>

#include "lodeway/sheet/card/card.hpp"
#include "lodeway/sheet/card/card_parts.hpp"
#include "lodeway/sheet/words.hpp"
#include "lodeway/trip/home_times.hpp"
#include "lodeway/trip/kept_told.hpp"
#include "lodeway/trip/not_to_walk.hpp"
#include "lodeway/trip/told_ticks.hpp"
#include "lodeway/trip/turn_words.hpp"
#include "lodeway/trip/verdict_words.hpp"
#include "lodeway/trip/warnings.hpp"
#include "lodeway/units/plain_text.hpp"

namespace lodeway::sheet {

namespace {

using Leg = trip::PlannedLeg;

/// RFC 4180: quoted, quotes doubled. A leading sign would be a formula to a spreadsheet: a blank is
/// put before it.
std::string cell(const std::string& text) {
  std::string out = "\"";
  if (!text.empty() && (text[0] == '=' || text[0] == '+' || text[0] == '-' || text[0] == '@'))
    out += ' ';
  for (const char c : text) {
    if (c == '"') out += '"';
    out += static_cast<unsigned char>(c) < 0x20 ? ' ' : c;
  }
  return out + "\"";
}

std::string needle(const Leg& leg, const trip::Plan& plan) {
  return leg.needle
             ? bearing_text(leg.needle->magnetic, plan.trip.angles) + bearing_sign(plan.trip.angles)
             : leg.course.followed.name;
}

std::string wrapped(const std::string& raw, const std::string& indent) {
  constexpr std::size_t width = 78;
  const auto text = units::plain(raw, raw.size());
  std::string out, line = indent;
  std::size_t from = 0;
  while (from < text.size()) {
    auto to = text.find(' ', from);
    if (to == std::string::npos) to = text.size();
    const auto word = text.substr(from, to - from);
    if (line.size() > indent.size() && line.size() + 1 + word.size() > width) {
      out += line + "\n";
      line = indent;
    }
    if (line.size() > indent.size()) line += ' ';
    line += word;
    from = to + 1;
  }
  return out + line + "\n";
}

}  // namespace

std::string card_text(const trip::Plan& plan) {
  const auto language = plan.trip.language;
  const auto& s = plan.schedule;
  const auto word = [&](Say what) { return std::string(say(what, language)); };
  auto out = units::plain(plan.trip.name) + "\n" +
             wrapped(say(Say::card_head, language,
                         {date_text(plan.trip.date, language),
                          std::to_string(plan.trip.request.party.size),
                          millimetre_text(plan.trip.map_scale, plan.trip.lengths)}),
                     "");
  auto day = word(Say::start) + " " + zoned(clock_text(s.start, plan.daylight), plan.trip);
  if (s.turn_round) day += ", " + word(Say::turn) + " " + clock_text(*s.turn_round, plan.daylight);
  if (plan.daylight.set)
    day += ", " + word(Say::sunset) + " " + clock_text(*plan.daylight.set, plan.daylight);
  out += wrapped(trip::headline_of(plan), "");
  for (const auto& line : trip::sentences_of(plan))
    out += wrapped(line, "   ");
  out += wrapped(say(Say::both_figures, language,
                     {trip::harmed_of_hundred(plan.keep_off), of_hundred(plan.way.certainty)}),
                 "   ");
  for (const auto& what : trip::shortfalls(plan, plan.trip.most_keep_off))
    out += wrapped(word(Say::not_got) + ": " + what + ".", "   ");
  for (const auto& told : trip::told_on(plan, trip::Reach::card)) out += wrapped(told, "   ");
  if (const auto none = trip::no_turn_words(plan); !none.empty()) out += wrapped(none, "   ");
  out += wrapped(day, "") + "\n";
  for (std::size_t i = 0; i < plan.way.legs.size(); ++i) {
    const Leg& leg = plan.way.legs[i];
    const auto line = [&](const std::string& text) { out += wrapped(text, "   "); };
    const auto named = [&](Say what, const std::string& text) { line(word(what) + ": " + text); };
    out += wrapped(fmt::format("{}. {} -> {} [{}]", i + 1, leg.course.from, leg.course.to,
                               plan.way.legs[i].reference),
                   "");
    auto figures =
        fmt::format("{}: {:.0f} {}, {:.0f} {}, {}; {}, {:.0f} mm", needle(leg, plan),
                    leg.counted.double_paces, word(Say::double_paces), leg.counted.minutes,
                    word(Say::minutes_short), clock_text(s.legs[i].arrive, plan.daylight),
                    length_text(leg.counted.length_m, plan.trip.lengths), leg.counted.map_mm);
    if (leg.figures.climb_m >= 5)
      figures +=
          ", " + say(Say::climb, language, {height_text(leg.figures.climb_m, plan.trip.lengths)});
    if (leg.figures.descent_m >= 5)
      figures += ", " + say(Say::descent, language,
                            {height_text(leg.figures.descent_m, plan.trip.lengths)});
    line(figures);
    line(in_words(how_to(leg, plan)));
    if (!leg.needle)
      line(word(Say::sets_out) + " " + bearing_text(leg.first_magnetic_bearing, plan.trip.angles) +
           bearing_sign(plan.trip.angles));
    for (const auto& danger : leg_dangers(plan, i)) named(Say::danger_row, danger);
    for (const auto& told : trip::told_on(plan, trip::Reach::card, static_cast<int>(i)))
      named(Say::danger_row, told);
    for (const auto& d : leg.dangers) named(Say::keep_off, d.what);
    for (const auto& ford : leg.fords) named(Say::ford, trip::ford_words(ford, plan.trip));
    for (const auto& fork : trip::forks_told(leg, plan.trip)) line(fork);
    if (leg.at_end) named(Say::at_the_end, trip::fork_words(*leg.at_end, plan.trip));
    for (const auto& t : leg.ticks)
      line(fmt::format("[ ] {}, {:.0f} min: {}", length_text(t.at_m, plan.trip.lengths), t.minutes,
                       t.what));
    if (const auto bare = trip::more_ticks_words(leg, leg.ticks, plan.trip); !bare.empty())
      named(Say::more_ticks, bare);
    named(Say::stops_you, stop_words(leg, plan));
    if (!leg.judged.confusable.empty()) named(Say::taken_for, leg.judged.confusable);
    for (const auto& note : leg.notes) line(trip::note_words(note, plan.trip, plan.norths.at));
    if (!leg.judged.if_lost.empty()) named(Say::if_lost, leg.judged.if_lost);
    named(Say::way_off, way_off_words(leg, plan));
    line(leg.judged.fix_at_end
             ? say(Say::certainty_of, language, {of_hundred(trip::kept_told(leg.judged))})
             : word(Say::no_fix));
    if (const auto strays = leg_strays(plan, i); !strays.empty()) line(strays);
    out += "\n";
  }
  if (s.turn_round) {
    const auto there = *s.turn_round + trip::Clock{std::lround(s.turn_round_back_min)};
    out += wrapped(say(Say::turn_round, language,
                       {plan.way.legs[static_cast<std::size_t>(s.turn_round_leg)].course.to,
                        std::to_string(s.turn_round_leg + 1)}) +
                       " " + clock_text(*s.turn_round, plan.daylight) + "; " +
                       say(Say::turn_back, language,
                           {hours_text(s.turn_round_back_min), plan.way.legs.front().course.from,
                            clock_text(there, plan.daylight)}),
                   "");
  }
  out += wrapped(trip::end_words(plan),
                 "");
  const auto& number = plan.trip.emergency_number;
  return out +
         wrapped(word(Say::help) + ": " + (number.empty() ? std::string("________") : number) +
                     ". " + signal_words(plan) + " " + word(Say::help_say),
                 "");
}

std::string card_csv(const trip::Plan& plan) {
  std::string out =
      "leg,from,to,reference,kind,along,magnetic_bearing_deg,back_bearing_deg,length_m,map_mm,"
      "climb_m,descent_m,double_paces,minutes,after_aim_m,after_aim_double_paces,"
      "after_aim_minutes,leave,arrive,arrive_slow,how,certainty_of_100,"
      "fix_at_end,stops_you,keep_off,if_lost,way_off,way_off_minutes,onto_keep_off_of_100\r\n";
  const auto degrees = [](double d) {
    return fmt::format("{:.0f}", std::fmod(std::round(std::fmod(d + 360, 360)), 360));
  };
  for (std::size_t i = 0; i < plan.way.legs.size(); ++i) {
    const Leg& leg = plan.way.legs[i];
    const auto& t = plan.schedule.legs[i];
    const bool bearing = leg.needle.has_value();
    const double needle_deg = leg.magnetic_bearing.in_degrees();
    const auto after = [&](double trip::Counted::* figure) {
      return leg.after ? fmt::format("{:.0f}", *leg.after.*figure) : std::string();
    };
    std::string dangers;
    for (const auto& d : leg.dangers) dangers += (dangers.empty() ? "" : "; ") + d.what;
    const std::string fields[] = {
        std::to_string(i + 1),
        cell(leg.course.from),
        cell(leg.course.to),
        cell(plan.way.legs[i].reference),
        bearing ? "bearing" : "along",
        cell(leg.course.followed.name),
        bearing ? degrees(needle_deg) : "",
        bearing ? degrees(needle_deg + 180) : "",
        fmt::format("{:.0f}", leg.counted.length_m),
        fmt::format("{:.0f}", leg.counted.map_mm),
        fmt::format("{:.0f}", leg.figures.climb_m),
        fmt::format("{:.0f}", leg.figures.descent_m),
        fmt::format("{:.0f}", leg.counted.double_paces),
        fmt::format("{:.0f}", leg.counted.minutes),
        after(&trip::Counted::length_m),
        after(&trip::Counted::double_paces),
        after(&trip::Counted::minutes),
        cell(clock_text(t.leave, plan.daylight)),
        cell(clock_text(t.arrive, plan.daylight)),
        cell(clock_text(t.arrive_slow, plan.daylight)),
        cell(in_words(how_to(leg, plan))),
        of_hundred(trip::kept_told(leg.judged)),
        leg.judged.fix_at_end ? "yes" : "no",
        cell(stop_words(leg, plan)),
        cell(dangers),
        cell(leg.judged.if_lost),
        cell(leg.escape ? trip::escape_words(*leg.escape, plan.trip) : ""),
        leg.escape ? fmt::format("{:.0f}", leg.escape->minutes) : "",
        trip::harmed_of_hundred(leg.judged.hazard_probability)};
    for (std::size_t k = 0; k < std::size(fields); ++k) out += (k > 0 ? "," : "") + fields[k];
    out += "\r\n";
  }
  return out;
}

}  // namespace lodeway::sheet
