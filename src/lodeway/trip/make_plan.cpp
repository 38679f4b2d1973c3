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
#include "lodeway/trip/warnings.hpp"
#include "lodeway/trip/way_facts.hpp"
#include "lodeway/trip/wording.hpp"
#include "lodeway/units/text.hpp"
#include "lodeway/walking/course.hpp"

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

/// Which way a line sets out: from its start to the place `first_part_m` along it, or to its end.
units::GridBearing first_bearing(const std::vector<earth::GridPoint>& line) {
  return earth::grid_bearing(line.front(), mapdata::point_along(line, first_part_m));
}

PlannedLeg planned_leg(const reckoning::JudgedLeg& leg, const units::Norths& norths,
                       const walking::WayOff* off, double scale) {
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
      judged.needle ? judged.needle->bearing : first_bearing(leg.course.line), norths);
  out.reference = earth::six_figure_reference(leg.course.line.back());
  if (off != nullptr)
    out.escape = EscapeRoute{off->haven, off->minutes, off->first,
                             units::to_magnetic(off->first, norths), off->line};
  return out;
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
                           std::vector<std::optional<walking::WayOff>> ways_off,
                           const reckoning::RehearsedTimes& times) {
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
  const auto slow = times.walkers > 0 ? slow_day_of(trip.request, way, back, times)
                                      : slow_day_of(trip.request, way);
  out.schedule = make_schedule(trip, way, out.daylight, back, slow);
  out.remarks = sides_of(way, ground, trip.language);
  ways_off.resize(way.legs.size());
  out.ways_off = std::move(ways_off);
  out.way = std::move(way);
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
    const auto& off = outcome.ways_off[i];
    out.way.legs.push_back(planned_leg(outcome.way.legs[i], outcome.norths_of_legs[i],
                                       off ? &*off : nullptr, trip.map_scale));
    auto& leg = out.way.legs.back();
    leg.remark = outcome.remarks[i];
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
  out.warnings = warnings_for(out, ground);
  return out;
}

}  // namespace lodeway::trip
