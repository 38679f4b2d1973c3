#include "lodeway/trip/make_plan.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lodeway/earth/place_text.hpp"
#include "lodeway/earth/sun.hpp"
#include "lodeway/magnetic/declination.hpp"
#include "lodeway/trip/figure_text.hpp"
#include "lodeway/trip/handrail_side.hpp"
#include "lodeway/trip/schedule.hpp"
#include "lodeway/trip/warnings.hpp"
#include "lodeway/trip/wording.hpp"
#include "lodeway/walking/leg_figures.hpp"

namespace lodeway::trip {

namespace {

struct NorthsAt {
  magnetic::Field field;
  units::Convergence convergence{units::Angle::degrees(0)};
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
  return NorthsAt{*field, *convergence};
}

std::string zone_warning(magnetic::Zone zone, double horizontal_nT, Language language) {
  if (zone == magnetic::Zone::normal) return "";
  const auto field = fmt::format("{:.0f} nT", horizontal_nT);
  return say(zone == magnetic::Zone::caution ? Say::weak_field : Say::no_compass, language,
             {field});
}

/// "146° to Low road": the needle first, as everywhere on the card.
std::string way_off_words(units::MagneticBearing first, const std::string& haven,
                          const Trip& trip) {
  return say(Say::bearing_to, trip.language,
             {bearing_text(first, trip.angles) + bearing_sign(trip.angles), haven});
}

Result<void> set_bearings(Plan& plan, const walking::Ground& ground) {
  for (auto& leg : plan.way.legs) {
    const auto n = norths_at(ground, leg.line.front(), plan.trip.date);
    if (!n) return std::unexpected(n.error());
    leg.magnetic_bearing =
        units::to_magnetic(leg.grid_bearing, n->convergence, n->field.declination);
    if (leg.way_off) {
      leg.way_off->haven = leg.way_off->words;
      leg.way_off->words = way_off_words(
          units::to_magnetic(leg.way_off->first, n->convergence, n->field.declination),
          leg.way_off->words, plan.trip);
    }
  }
  const auto& middle = plan.way.legs[plan.way.legs.size() / 2].line.front();
  const auto n = norths_at(ground, middle, plan.trip.date);
  if (!n) return std::unexpected(n.error());
  const auto& f = n->field;
  plan.norths = {f.declination.east.in_degrees(),
                 f.declination_sigma_deg,
                 f.annual_change_deg,
                 n->convergence.east.in_degrees(),
                 units::grid_magnetic_angle(n->convergence, f.declination).in_degrees(),
                 zone_warning(f.zone, f.horizontal_nT, plan.trip.language)};
  return {};
}

/// Minutes back to the start from each leg's end, by the same legs turned round.
std::vector<double> back_minutes(const Plan& plan, const walking::Ground& ground) {
  std::vector<double> out;
  double sum = 0;
  for (auto leg : plan.way.legs) {
    std::ranges::reverse(leg.line);
    walking::set_figures(leg, ground, plan.trip.request.party);
    sum += leg.minutes;
    out.push_back(sum);
  }
  return out;
}

}  // namespace

Result<Daylight> daylight_of(const walking::Ground& ground, const Trip& trip,
                             earth::GridPoint place) {
  const auto at = ground.grid.to_geographic(place);
  if (!at) return std::unexpected(at.error());
  const auto day = earth::sun_day(*at, trip.date, trip.zone);
  const auto midnight = earth::to_utc(trip.zone, trip.date, std::chrono::minutes{0});
  if (!day || !midnight) return std::unexpected(day ? midnight.error() : day.error());
  const auto clock = [&](const std::optional<earth::UtcSeconds>& t) -> std::optional<Clock> {
    if (!t) return std::nullopt;
    return std::chrono::round<std::chrono::minutes>(*t - *midnight);
  };
  Daylight out{clock(day->civil.up), clock(day->sun.up), clock(day->sun.down),
               clock(day->civil.down), ""};
  if (day->sun.state == earth::SunState::always_above) {
    out.state = say(Say::sun_stays_up, trip.language);
  } else if (day->sun.state == earth::SunState::always_below) {
    out.state = say(Say::sun_stays_down, trip.language);
  }
  return out;
}

Result<Plan> make_plan(const walking::Ground& ground, Trip trip, walking::Way way) {
  if (way.legs.empty()) return fail(FaultCode::no_way, "the way: expected one leg at least");
  Plan plan;
  plan.trip = std::move(trip);
  plan.way = std::move(way);
  if (const auto done = set_bearings(plan, ground); !done) return std::unexpected(done.error());
  const auto daylight = daylight_of(ground, plan.trip, plan.way.legs.front().line.front());
  if (!daylight) return std::unexpected(daylight.error());
  plan.daylight = *daylight;
  plan.schedule = make_schedule(plan.trip, plan.way, plan.daylight, back_minutes(plan, ground));
  note_sides(plan.way, ground, plan.trip.language);
  plan.start_reference = earth::six_figure_reference(plan.way.legs.front().line.front());
  for (const auto& leg : plan.way.legs) {
    plan.references.push_back(earth::six_figure_reference(leg.line.back()));
    plan.length_m += leg.length_m;
    plan.climb_m += leg.climb_m;
    plan.descent_m += leg.descent_m;
    plan.minutes += leg.minutes;
  }
  plan.warnings = warnings_for(plan, ground);
  return plan;
}

}  // namespace lodeway::trip
