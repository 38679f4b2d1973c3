#include "lodeway/trip/make_plan.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "lodeway/earth/place_text.hpp"
#include "lodeway/earth/sun.hpp"
#include "lodeway/magnetic/declination.hpp"
#include "lodeway/mapdata/along_line.hpp"
#include "lodeway/trip/figure_text.hpp"
#include "lodeway/trip/handrail_side.hpp"
#include "lodeway/trip/schedule.hpp"
#include "lodeway/trip/told.hpp"
#include "lodeway/trip/told_ticks.hpp"
#include "lodeway/trip/turn_words.hpp"
#include "lodeway/trip/verdict_words.hpp"
#include "lodeway/trip/warnings.hpp"
#include "lodeway/trip/way_facts.hpp"
#include "lodeway/trip/wording.hpp"
#include "lodeway/units/text.hpp"
#include "lodeway/walking/course.hpp"
#include "lodeway/walking/cover.hpp"

namespace lodeway::trip {

namespace {

struct NorthsAt {
  magnetic::Field field;
  units::Norths norths;
};

Result<NorthsAt> norths_at(const walking::Ground& ground, earth::GridPoint at,
                           std::chrono::year_month_day date) {
  const auto place = ground.grid.to_geographic(at);
  if (!place) return std::unexpected(place.error());
  const double height = terrain::height_at(ground.elevation, at);
  const auto field = magnetic::field_at(*place, std::isfinite(height) ? height : 0, date);
  if (!field) return std::unexpected(field.error());
  const auto convergence = ground.grid.convergence(at);
  if (!convergence) return std::unexpected(convergence.error());
  return NorthsAt{*field, {field->declination, *convergence}};
}

/// Minutes back to the start from each leg's end, by the same legs turned round.
std::vector<double> back_minutes(const reckoning::JudgedWay& way, const walking::Ground& ground,
                                 const walking::Party& party) {
  std::vector<double> out;
  double sum = 0;
  for (const auto& leg : way.legs) {
    auto back = leg.course;
    std::ranges::reverse(back.line);
    sum += walking::figures_of(back, ground, party).minutes;
    out.push_back(sum);
  }
  return out;
}

Counted counted_of(const auto& part, double scale) {
  return {part.length_m, units::map_mm(part.map_m, scale), part.double_paces, part.minutes};
}

PlannedLeg planned_leg(const reckoning::JudgedLeg& leg, const units::Norths& norths,
                       double scale) {
  PlannedLeg out;
  static_cast<reckoning::JudgedLeg&>(out) = leg;
  const auto& judged = leg.judged;
  if (judged.needle) {
    out.needle =
        OnTheNeedle{counted_of(*judged.needle, scale), judged.needle->aim,
                    units::to_magnetic(judged.needle->bearing, norths), judged.needle->bearing};
    out.counted = *out.needle;
  } else {
    out.counted = {leg.figures.length_m, units::map_mm(mapdata::length_m(leg.course.line), scale),
                   leg.figures.double_paces, leg.figures.minutes};
  }
  if (judged.after)
    out.after =
        AlongAfter{counted_of(*judged.after, scale), judged.after->aimed_to, judged.after->line};
  out.grid_bearing = judged.needle ? judged.needle->bearing : leg.figures.bearing;
  out.magnetic_bearing = units::to_magnetic(out.grid_bearing, norths);
  out.first_magnetic_bearing = units::to_magnetic(
      judged.needle ? judged.needle->bearing : sets_out(leg.course.line), norths);
  out.reference = earth::six_figure_reference(leg.course.line.back());
  return out;
}

/// Where parties stray onto ground to keep off, which ground that is and on which hand, if the map
/// names nothing on that hand.
void tell_barred(PlannedLeg& leg, const Trip& trip) {
  if (leg.judged.hazard_probability < told_harm) return;
  for (const auto& beside : leg.barred_beside) {
    if (std::ranges::any_of(leg.dangers, [&](const auto& d) { return d.side == beside.side; })) continue;
    const std::string what(told_in(trip.language, walking::bar_words(beside.bar))),
        away = length_text(beside.distance_m, trip.lengths), at = length_text(beside.at_m, trip.lengths);
    leg.dangers.push_back(
        {beside.side == mapdata::Side::left
             ? told(trip.language, "{}, {} to your left after {}", {what, away, at})
             : told(trip.language, "{}, {} to your right after {}", {what, away, at}),
         beside.side, beside.distance_m});
  }
}

/// What bars walkers and is crossed all the same stands before what lies beside.
void tell_crossed(PlannedLeg& leg, const std::vector<CrossedBar>& crossed, const Trip& trip) {
  for (auto bar = crossed.rbegin(); bar != crossed.rend(); ++bar) {
    const auto l = trip.language;
    const std::string what(bar->kind == mapdata::Kind::railway
                               ? told_in(l, "railway")
                               : told_in(l, "motorway or other road closed to walkers"));
    const auto at = length_text(bar->at_m, trip.lengths);
    leg.dangers.insert(
        leg.dangers.begin(),
        {bar->how == CrossedHow::over    ? told(l, "{} across after {}: over it by a bridge", {what, at})
         : bar->how == CrossedHow::under ? told(l, "{} across after {}: under its bridge", {what, at})
                                         : told(l, "{} across after {}: the map does not say how it is crossed",
                                                {what, at}),
         mapdata::Side::none, 0});
  }
}

/// `there`: the norths at the leg's end.
void tell_directions(PlannedLeg& leg, const Directions& of, const units::Norths& here,
                     const units::Norths& there) {
  const auto ahead = [](const Fork& fork, const units::Norths& norths) {
    ForkAhead out{fork.at_m, fork.turn, units::to_magnetic(fork.taken, norths), {}, {}, fork.met, fork.beside_all_along};
    for (const auto wrong : fork.wrong) out.wrong.push_back(units::to_magnetic(wrong, norths));
    for (const auto beside : fork.beside) out.beside.push_back(units::to_magnetic(beside, norths));
    return out;
  };
  for (const auto& fork : of.forks) leg.forks.push_back(ahead(fork, here));
  if (of.at_end) leg.at_end = ahead(*of.at_end, there);
  for (const auto& bend : of.bends)
    leg.bends.push_back({bend.at_m, units::to_magnetic(bend.after, here), bend.to});
  leg.flow = of.flow;
  leg.keeps = of.keeps;
}

/// The bearings of its legs are by the norths of the leg that it leaves: a few kilometres change
/// them by less than 0.1 degrees.
PlannedEscape planned_escape(const reckoning::Escape& route,
                             const std::vector<Directions>& directions,
                             const units::Norths& norths, double scale, Language language) {
  PlannedEscape out{route.from,      route.to,      {},
                    route.minutes,   route.minutes_slow,
                    route.certainty, route.hazard_probability,
                    route.back_minutes, route.back, route.snow_slope};
  for (std::size_t k = 0; k < route.legs.size(); ++k) {
    out.legs.push_back(planned_leg(route.legs[k], norths, scale));
    auto& leg = out.legs.back();
    tell_directions(leg, directions[k], norths, norths);
    leg.remark = beside_words(leg, "", language);
  }
  return out;
}

/// Of its escape routes the one that stands on the leg's line of the card.
std::optional<EscapeRoute> on_the_card(const PlannedLeg& leg) {
  if (leg.escapes.empty()) return std::nullopt;
  auto of = std::ranges::find(leg.escapes, reckoning::LeavesAt::middle, &PlannedEscape::from);
  if (of == leg.escapes.end()) of = leg.escapes.begin();
  EscapeRoute out;
  if (of->legs.empty()) {  // whoever is in need on the leg has left that place
    const auto end = std::ranges::find(leg.escapes, reckoning::LeavesAt::end, &PlannedEscape::from);
    out.from_end = end != leg.escapes.end() && !end->legs.empty();
    if (out.from_end) of = end;
  }
  out.haven = of->to;
  if (of->legs.empty()) return out;
  const auto& first = of->legs.front();
  out.minutes = of->minutes;
  out.back = of->back;
  if (!first.needle) out.follows = first.course.followed.name;
  out.more_steps = of->legs.size() - 1;
  out.first_magnetic = first.first_magnetic_bearing;
  out.first_grid = first.needle ? first.needle->grid : sets_out(first.course.line);
  out.line = line_of(*of);
  return out;
}

/// Of the way and of all its escape routes.
void find_directions(Outcome& out, const walking::Ground& ground) {
  std::vector<std::vector<const reckoning::JudgedLeg*>> walked(1);
  for (const auto& leg : out.way.legs) walked.front().push_back(&leg);
  for (const auto& of_leg : out.escapes) {
    for (const auto& route : of_leg) {
      auto& legs = walked.emplace_back();
      for (const auto& leg : route.legs) legs.push_back(&leg);
    }
  }
  auto found = directions_of(walked, ground);
  out.directions = std::move(found.front());
  auto next = found.begin() + 1;
  for (const auto& of_leg : out.escapes) {
    auto& routes = out.escape_directions.emplace_back();
    for (std::size_t k = 0; k < of_leg.size(); ++k) routes.push_back(std::move(*next++));
  }
}

/// Does it end after last light, left on a slow day from where it leaves the way?
bool ends_in_the_dark(const PlannedEscape& route, const Schedule& schedule, std::size_t leg,
                      const Daylight& daylight) {
  if (!daylight.dusk || route.legs.empty()) return false;
  const auto& times = schedule.legs[leg];
  const double late = static_cast<double>((times.arrive_slow - times.arrive).count());
  const auto leave = static_cast<double>(times.leave.count()),
             arrive = static_cast<double>(times.arrive.count());
  using enum reckoning::LeavesAt;
  const double at = route.from == start    ? leave
                    : route.from == middle ? 0.5 * (leave + arrive)
                                           : arrive;
  return at + late + route.minutes_slow > static_cast<double>(daylight.dusk->count());
}

}  // namespace

Result<earth::UtcSeconds> start_instant(const Trip& trip) {
  return earth::to_utc(trip.zone, trip.date, trip.start);
}

Result<Daylight> daylight_of(const walking::Ground& ground, const Trip& trip,
                             earth::GridPoint place) {
  const auto at = ground.grid.to_geographic(place);
  if (!at) return std::unexpected(at.error());
  const auto day = earth::sun_day(*at, trip.date, trip.zone);
  const auto start = start_instant(trip);
  if (!day || !start) return std::unexpected(day ? start.error() : day.error());
  // Minutes as they pass; what a changed clock shows is clock_text's to say.
  const auto clock = [&](const std::optional<earth::UtcSeconds>& t) -> std::optional<Clock> {
    if (!t) return std::nullopt;
    constexpr std::chrono::seconds half{30};  // a half is rounded up, whenever the start is
    return trip.start + std::chrono::floor<std::chrono::minutes>(*t - *start + half);
  };
  Daylight out{
      clock(day->civil.up), clock(day->sun.up), clock(day->sun.down), clock(day->civil.down), "",
      std::nullopt};
  constexpr std::chrono::hours before{24}, after{48};
  const auto change = earth::clock_change(trip.zone, *start - before, *start + after);
  if (!change) return std::unexpected(change.error());
  if (const auto& c = *change) {
    const auto none = std::chrono::minutes{0};
    out.change = {trip.start + std::chrono::round<std::chrono::minutes>(c->at - *start),
                  c->at <= *start ? -c->forward : none, c->at <= *start ? none : c->forward};
  }
  if (day->sun.state == earth::SunState::always_above) {
    out.state = say(Say::sun_stays_up, trip.language);
  } else if (day->sun.state == earth::SunState::always_below) {
    out.state = say(Say::sun_stays_down, trip.language);
  }
  const auto add = [&](Say what) {
    out.state += (out.state.empty() ? "" : "; ") + std::string(say(what, trip.language));
  };
  if (day->civil.state == earth::SunState::always_below) {
    add(Say::dark_all_day);
  } else if (!day->civil.down && day->sun.state != earth::SunState::always_above) {
    add(Say::light_all_night);
  }
  return out;
}

Result<Outcome> outcome_of(const walking::Ground& ground, const Trip& trip,
                           reckoning::JudgedWay way,
                           std::vector<std::vector<reckoning::Escape>> escapes,
                           const walking::WalkedDays& days) {
  if (way.legs.empty()) return fail(FaultCode::no_way, "the way: expected one leg at least");
  Outcome out;
  for (const auto& leg : way.legs) {
    const auto n = norths_at(ground, leg.course.line.front(), trip.date);
    if (!n) return std::unexpected(n.error());
    out.norths_of_legs.push_back(n->norths);
  }
  const auto middle =
      norths_at(ground, way.legs[way.legs.size() / 2].course.line.front(), trip.date);
  if (!middle) return std::unexpected(middle.error());
  const auto& field = middle->field;
  out.norths = {middle->norths, field.declination_sigma_deg, field.annual_change_deg, field.zone,
                field.horizontal_nT};
  const auto daylight = daylight_of(ground, trip, way.legs.front().course.line.front());
  if (!daylight) return std::unexpected(daylight.error());
  out.daylight = *daylight;
  const auto back = back_minutes(way, ground, trip.request.party);
  const auto slow = days.parties > 0 ? slow_day_of(trip.request, way, days)
                                     : slow_day_of(trip.request, way);
  out.schedule = make_schedule(trip, way, out.daylight, back, slow);
  out.remarks = sides_of(way, ground, trip.language);
  escapes.resize(way.legs.size());
  out.escapes = std::move(escapes);
  out.way = std::move(way);
  out.fords = fords_of(out.way, ground, trip.request.party, trip.language);
  out.crossed = crossed_bars(out.way, ground);
  out.notes = notes_of(out.way, ground, trip.language);
  find_directions(out, ground);
  return out;
}

Plan plan_of(const Outcome& outcome, const Trip& trip, const walking::Ground& ground) {
  Plan out;
  out.trip = trip;
  out.schedule = outcome.schedule;
  out.daylight = outcome.daylight;
  out.norths = outcome.norths;
  out.way.name = outcome.way.name;
  out.way.certainty = outcome.way.certainty;
  for (std::size_t i = 0; i < outcome.way.legs.size(); ++i) {
    const auto& norths = outcome.norths_of_legs[i];
    out.way.legs.push_back(planned_leg(outcome.way.legs[i], norths, trip.map_scale));
    auto& leg = out.way.legs.back();
    tell_directions(leg, outcome.directions[i], norths,
                    outcome.norths_of_legs[std::min(i + 1, outcome.norths_of_legs.size() - 1)]);
    leg.remark = beside_words(leg, outcome.remarks[i], trip.language);
    tell_barred(leg, trip);
    tell_crossed(leg, outcome.crossed[i], trip);
    leg.ticks = told_ticks(leg, trip);
    leg.notes = outcome.notes[i];
    for (const auto& ford : outcome.fords[i]) {
      leg.fords.push_back({ford, {}});
      if (ford.round) leg.fords.back().towards_bridge = units::to_magnetic(ford.round->towards, norths);
    }
    for (std::size_t k = 0; k < outcome.escapes[i].size(); ++k) {
      leg.escapes.push_back(planned_escape(outcome.escapes[i][k], outcome.escape_directions[i][k],
                                           norths, trip.map_scale, trip.language));
      leg.escapes.back().after_last_light =
          ends_in_the_dark(leg.escapes.back(), out.schedule, i, out.daylight);
    }
    leg.escape = on_the_card(leg);
    out.length_m += leg.judged.length_m;
    out.climb_m += leg.figures.climb_m;
    out.descent_m += leg.figures.descent_m;
    out.minutes += leg.judged.minutes;
  }
  out.start_reference = earth::six_figure_reference(out.way.legs.front().course.line.front());
  out.start_full_reference = full_reference(ground.grid, out.way.legs.front().course.line.front());
  for (auto& leg : out.way.legs)
    leg.full_reference = full_reference(ground.grid, leg.course.line.back());
  const auto facts = facts_of(out, ground);
  out.keep_off = facts.keep_off;
  out.verdict = verdict_of(facts, limits_of(trip));
  for (auto& reason : out.verdict.reasons) {
    if (reason.what != Fails::keep_off || reason.leg < 0) continue;
    const auto& dangers = out.way.legs[static_cast<std::size_t>(reason.leg)].dangers;
    const auto nearest = std::ranges::min_element(dangers, {}, &walking::Danger::distance_m);
    if (nearest != dangers.end()) reason.where = nearest->what;
  }
  out.warnings = warnings_for(out, ground);
  return out;
}

}  // namespace lodeway::trip
