// A way and its day. Every figure comes from the plan, every sentence from the card's own words.
#include <algorithm>
#include <cmath>

#include "apps/server/routes/say.hpp"
#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/reckoning/growth/doubt_shape.hpp"
#include "lodeway/terrain/profile.hpp"
#include "lodeway/trip/clock_text.hpp"
#include "lodeway/trip/figure_text.hpp"
#include "lodeway/trip/warnings.hpp"
#include "lodeway/trip/wording.hpp"

namespace lodeway::server {

namespace {

constexpr std::size_t most_profile_points = 60;  // a leg

/// Heights by the clock: in a leg the time goes with the distance; at its end the rest is level.
Json profile_json(const trip::Plan& plan, const walking::Ground& ground) {
  auto out = Json::array();
  double before_m = 0;
  const auto add = [&](double minute, double height, double along, std::size_t leg, bool resting,
                       double share, earth::GridPoint at) {
    const auto doubt = reckoning::doubt_at(plan.way.legs[leg],
                                           leg > 0 ? &plan.way.legs[leg - 1] : nullptr, share);
    out.push_back({{"clock_minute", minute},
                   {"height_m", std::isfinite(height) ? Json(height) : Json()},
                   {"along_m", along},
                   {"leg", leg + 1},
                   {"resting", resting},
                   {"at_grid_m", point_json(at)},
                   {"cross_sigma_m", doubt ? Json(doubt->cross_m) : Json()},
                   {"along_sigma_m", doubt ? Json(doubt->along_m) : Json()}});
  };
  for (std::size_t i = 0; i < plan.way.legs.size(); ++i) {
    const auto& leg = plan.way.legs[i];
    const auto& times = plan.schedule.legs[i];
    const auto profile = terrain::profile(ground.elevation, leg.line);
    const double grid_m = profile.points.back().at_m;
    const mapdata::Measured line(leg.line);
    const auto leave = static_cast<double>(times.leave.count());
    const auto spent = static_cast<double>((times.arrive - times.leave).count());
    const std::size_t every = profile.points.size() / most_profile_points + 1;
    for (std::size_t k = 0; k < profile.points.size(); ++k) {
      if (k % every != 0 && k + 1 != profile.points.size()) continue;
      const double share = grid_m > 0 ? profile.points[k].at_m / grid_m : 1;
      add(leave + share * spent, profile.points[k].height_m, before_m + share * leg.length_m, i,
          false, share, line.at(profile.points[k].at_m));
    }
    before_m += leg.length_m;
    if (times.rest_min > 0)
      add(leave + spent + times.rest_min, profile.points.back().height_m, before_m, i, true, 1,
          leg.line.back());
  }
  return out;
}

Json schedule_json(const trip::Schedule& s) {
  return {{"start", clock_json(s.start)},
          {"end", clock_json(s.end)},
          {"end_slow", clock_json(s.end_slow)},
          {"act_by", clock_json(s.act_by)},
          {"latest_start", clock_json(s.latest_start)},
          {"turn_round", clock_json(s.turn_round)},
          {"turn_round_leg", s.turn_round_leg < 0 ? Json() : Json(s.turn_round_leg + 1)},
          {"turn_round_back_min", s.turn_round_back_min},
          {"to_sunset_min", number_or_null(s.to_sunset_min)},
          {"to_dusk_min", number_or_null(s.to_dusk_min)}};
}

Json warnings_json(const trip::Plan& plan) {
  auto out = Json::array();
  for (const auto& w : plan.warnings) {
    out.push_back({{"severity", trip::severity_name(w.severity)},
                   {"text", w.text},
                   {"leg", w.leg < 0 ? Json() : Json(w.leg + 1)}});
  }
  return out;
}

Json weakest_leg(const trip::Plan& plan) {
  double least = 1;
  Json out;
  for (std::size_t i = 0; i < plan.way.legs.size(); ++i) {
    const auto& s = plan.way.legs[i].sureness;
    if (!s || !s->fix_at_end || s->certainty >= least) continue;
    least = s->certainty;
    out = i + 1;
  }
  return out;
}

}  // namespace

Json point_json(earth::GridPoint p) { return {p.east_m, p.north_m}; }

Json line_json(const std::vector<earth::GridPoint>& line) {
  auto out = Json::array();
  for (const auto& p : line) out.push_back(point_json(p));
  return out;
}

Json clock_json(const std::optional<trip::Clock>& time) {
  if (!time) return nullptr;
  return {{"minute", time->count()}, {"text", trip::clock_text(*time)}};
}

Json daylight_json(const trip::Daylight& day) {
  return {{"dawn", clock_json(day.dawn)},
          {"sunrise", clock_json(day.rise)},
          {"sunset", clock_json(day.set)},
          {"dusk", clock_json(day.dusk)},
          {"state", text_or_null(day.state)}};
}

Json number_or_null(const std::optional<double>& value) { return value ? Json(*value) : Json(); }
Json text_or_null(const std::string& text) { return text.empty() ? Json() : Json(text); }

Json way_json(const trip::Plan& plan, const walking::Ground& ground, const AboutWay& about) {
  auto legs = Json::array();
  for (std::size_t i = 0; i < plan.way.legs.size(); ++i)
    legs.push_back(leg_json(plan, i, &plan.schedule.legs[i]));
  const auto& n = plan.norths;
  const auto total = static_cast<double>((plan.schedule.end - plan.schedule.start).count());
  return {{"name", about.name},
          {"title", about.title},
          {"same_as", text_or_null(about.same_as)},
          {"start_name", plan.way.legs.front().from},
          {"start_reference", plan.start_reference},
          {"start_grid_m", point_json(plan.way.legs.front().line.front())},
          {"length_horizontal_m", plan.length_m},
          {"climb_m", plan.climb_m},
          {"descent_m", plan.descent_m},
          {"minutes_walking", plan.minutes},
          {"minutes_total", total},
          {"certainty", number_or_null(plan.certainty)},
          {"weakest_leg", weakest_leg(plan)},
          {"hazard_probability", number_or_null(about.hazard)},
          {"minutes_expected", number_or_null(about.expected_min)},
          {"rehearsed", !about.rehearsed ? Json()
                                         : Json{{"certainty", *about.rehearsed},
                                                {"error", about.rehearsed_error.value_or(0)},
                                                {"walkers", about.walkers}}},
          {"schedule", schedule_json(plan.schedule)},
          {"norths",
           {{"declination_deg", n.declination_deg},
            {"declination_sigma_deg", n.declination_sigma_deg},
            {"annual_change_deg", n.annual_change_deg},
            {"convergence_deg", n.convergence_deg},
            {"grid_magnetic_deg", n.grid_magnetic_deg},
            {"zone_warning", text_or_null(n.zone_warning)}}},
          {"legs", legs},
          {"warnings", warnings_json(plan)},
          {"profile", profile_json(plan, ground)},
          {"remarks", about.remarks},
          {"words",
           {{"time", trip::hours_text(total)},
            {"length", trip::length_text(plan.length_m, plan.trip.lengths)},
            {"climb", trip::height_text(plan.climb_m, plan.trip.lengths)},
            {"certainty",
             plan.certainty ? trip::of_hundred(*plan.certainty) + "/100" : std::string("?")},
            {"to_dusk", plan.schedule.to_dusk_min ? (*plan.schedule.to_dusk_min < 0 ? "-" : "") +
                                                        trip::hours_text(*plan.schedule.to_dusk_min)
                                                  : plan.daylight.state}}}};
}

}  // namespace lodeway::server
