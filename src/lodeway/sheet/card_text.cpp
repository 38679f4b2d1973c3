#include <cmath>

#include <fmt/format.h>

#include "lodeway/sheet/card.hpp"
#include "lodeway/sheet/wording.hpp"
#include "lodeway/trip/clock_text.hpp"

namespace lodeway::sheet {

namespace {

using walking::Leg;
using walking::LegKind;

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
  return leg.kind == LegKind::bearing
             ? bearing_text(leg.magnetic_bearing, plan.trip.angles) + bearing_sign(plan.trip.angles)
             : leg.along;
}

std::string stop_words(const Leg& leg, const trip::Plan& plan) {
  const auto language = plan.trip.language;
  if (!leg.stop) return say(Say::nothing_stops, language);
  return leg.stop->what + (leg.stop->beyond_m >= 1
                               ? " " + say(Say::beyond, language,
                                           {length_text(leg.stop->beyond_m, plan.trip.lengths)})
                               : "");
}

std::string wrapped(const std::string& text, const std::string& indent) {
  constexpr std::size_t width = 78;
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
  auto out = plan.trip.name + "\n" +
             wrapped(say(Say::card_head, language,
                         {date_text(plan.trip.date, language),
                          std::to_string(plan.trip.request.party.size),
                          length_text(plan.trip.map_scale / 1000, trip::LengthUnit::metric)}),
                     "") +
             "\n";
  for (std::size_t i = 0; i < plan.way.legs.size(); ++i) {
    const Leg& leg = plan.way.legs[i];
    out +=
        wrapped(fmt::format("{}. {} -> {} [{}]", i + 1, leg.from, leg.to, plan.references[i]), "");
    out +=
        wrapped(fmt::format("{}: {:.0f} {}, {:.0f} {}, {}; {}, {:.0f} mm", needle(leg, plan),
                            leg.double_paces, say(Say::double_paces, language), leg.minutes,
                            say(Say::minutes_short, language), trip::clock_text(s.legs[i].arrive),
                            length_text(leg.length_m, plan.trip.lengths),
                            mapdata::length_m(leg.line) * 1000 / plan.trip.map_scale),
                "   ");
    out += wrapped(how_to(leg, plan), "   ");
    for (const auto& t : leg.ticks)
      out +=
          wrapped(fmt::format("[ ] {}  {}", length_text(t.at_m, plan.trip.lengths), t.what), "   ");
    out +=
        wrapped(fmt::format("{}: {}", say(Say::stops_you, language), stop_words(leg, plan)), "   ");
    for (const auto& d : leg.dangers)
      out += wrapped(fmt::format("{}: {}", say(Say::keep_off, language), d.what), "   ");
    if (leg.sureness)
      out += wrapped(say(Say::certainty_of, language,
                         {fmt::format("{:.0f}", std::floor(100 * leg.sureness->certainty))}),
                     "   ");
    if (leg.way_off)
      out += wrapped(fmt::format("{}: {}, {:.0f} min", say(Say::way_off, language),
                                 leg.way_off->words, leg.way_off->minutes),
                     "   ");
    out += "\n";
  }
  if (s.turn_round) {
    out += wrapped(say(Say::turn_round, language,
                       {plan.way.legs[static_cast<std::size_t>(s.turn_round_leg)].to}) +
                       " " + trip::clock_text(*s.turn_round),
                   "");
  }
  return out + wrapped(say(Say::end_line, language,
                           {trip::clock_text(s.end), trip::clock_text(s.end_slow),
                            trip::clock_text(s.act_by)}),
                       "");
}

std::string card_csv(const trip::Plan& plan) {
  std::string out =
      "leg,from,to,reference,kind,along,magnetic_bearing_deg,length_m,map_mm,climb_m,descent_m,"
      "double_paces,minutes,arrive,certainty_of_100,stops_you,keep_off\r\n";
  for (std::size_t i = 0; i < plan.way.legs.size(); ++i) {
    const Leg& leg = plan.way.legs[i];
    const bool bearing = leg.kind == LegKind::bearing;
    out += fmt::format(
        "{},{},{},{},{},{},{},{:.0f},{:.0f},{:.0f},{:.0f},{:.0f},{:.0f},{},{},{},{}\r\n", i + 1,
        cell(leg.from), cell(leg.to), cell(plan.references[i]), bearing ? "bearing" : "along",
        cell(leg.along),
        bearing
            ? fmt::format("{:.0f}", std::fmod(std::round(leg.magnetic_bearing.in_degrees()), 360))
            : "",
        leg.length_m, mapdata::length_m(leg.line) * 1000 / plan.trip.map_scale, leg.climb_m,
        leg.descent_m, leg.double_paces, leg.minutes,
        cell(trip::clock_text(plan.schedule.legs[i].arrive)),
        leg.sureness ? fmt::format("{:.0f}", std::floor(100 * leg.sureness->certainty)) : "",
        cell(stop_words(leg, plan)), cell(leg.dangers.empty() ? "" : leg.dangers.front().what));
  }
  return out;
}

}  // namespace lodeway::sheet
