#include <nlohmann/json.hpp>

#include "lodeway/tasks/plan.hpp"
#include "lodeway/trip/clock_text.hpp"
#include "lodeway/trip/warnings.hpp"

namespace lodeway::tasks {

namespace {

using nlohmann::ordered_json;
using walking::Leg;

constexpr const char* sides[] = {"across", "left", "right"};

const char* side_name(mapdata::Side side) { return sides[static_cast<int>(side)]; }

ordered_json clock(const std::optional<trip::Clock>& t) {
  return t ? ordered_json(trip::clock_text(*t)) : ordered_json(nullptr);
}

ordered_json number(const std::optional<double>& x) {
  return x ? ordered_json(*x) : ordered_json(nullptr);
}

ordered_json points(const std::vector<earth::GridPoint>& line) {
  auto out = ordered_json::array();
  for (const auto& p : line) out.push_back({p.east_m, p.north_m});
  return out;
}

ordered_json stop_json(const Leg& leg) {
  if (!leg.stop) return nullptr;
  return {{"what", leg.stop->what},
          {"kind", mapdata::kind_name(leg.stop->kind)},
          {"beyond_m", leg.stop->beyond_m},
          {"minutes", leg.stop->minutes}};
}

ordered_json ticks_json(const Leg& leg) {
  auto out = ordered_json::array();
  for (const auto& t : leg.ticks) {
    out.push_back({{"what", t.what},
                   {"kind", mapdata::kind_name(t.kind)},
                   {"side", side_name(t.side)},
                   {"at_m", t.at_m},
                   {"minutes", t.minutes}});
  }
  return out;
}

ordered_json dangers_json(const Leg& leg) {
  auto out = ordered_json::array();
  for (const auto& d : leg.dangers) {
    out.push_back({{"what", d.what},
                   {"side", d.side == mapdata::Side::none ? "ahead" : side_name(d.side)},
                   {"distance_m", d.distance_m}});
  }
  return out;
}

void add_sureness(ordered_json& out, const Leg& leg) {
  const auto& s = leg.sureness;
  out["certainty"] = s ? ordered_json(s->certainty) : nullptr;
  out["cross_sigma_m"] = s ? ordered_json(s->cross_sigma_m) : nullptr;
  out["along_sigma_m"] = s ? ordered_json(s->along_sigma_m) : nullptr;
  out["aim_off_m"] = leg.aim_off ? leg.aim_off->offset_m : 0.0;
  out["aim_off_side"] = leg.aim_off ? ordered_json(side_name(leg.aim_off->side)) : nullptr;
  out["confusable"] = s && !s->confusable.empty() ? ordered_json(s->confusable) : nullptr;
  out["confusable_probability"] = s ? ordered_json(s->confusable_probability) : nullptr;
  out["catching"] = stop_json(leg);
  out["hazard_probability"] = s ? ordered_json(s->hazard_probability) : nullptr;
  out["recovery_minutes"] = s ? ordered_json(s->recovery_minutes) : nullptr;
  out["fix_at_end"] = s ? ordered_json(s->fix_at_end) : nullptr;
  out["if_lost"] = s ? ordered_json(s->if_lost) : nullptr;
}

ordered_json way_off_json(const Leg& leg) {
  if (!leg.way_off) return nullptr;
  return {{"words", leg.way_off->words},
          {"minutes", leg.way_off->minutes},
          {"first_grid_bearing_deg", leg.way_off->first.in_degrees()}};
}

ordered_json leg_json(const trip::Plan& plan, std::size_t i) {
  const Leg& leg = plan.way.legs[i];
  const auto& times = plan.schedule.legs[i];
  ordered_json out{{"leg", i + 1},
                   {"kind", leg.kind == walking::LegKind::along ? "along" : "bearing"},
                   {"from", leg.from},
                   {"to", leg.to},
                   {"reference", plan.references[i]},
                   {"along", leg.along.empty() ? ordered_json(nullptr) : ordered_json(leg.along)},
                   {"along_kind", leg.kind == walking::LegKind::along
                                      ? ordered_json(mapdata::kind_name(leg.along_kind))
                                      : ordered_json(nullptr)},
                   {"length_m", leg.length_m},
                   {"map_mm", mapdata::length_m(leg.line) * 1000 / plan.trip.map_scale},
                   {"climb_m", leg.climb_m},
                   {"descent_m", leg.descent_m},
                   {"grid_bearing_deg", leg.grid_bearing.in_degrees()},
                   {"magnetic_bearing_deg", leg.magnetic_bearing.in_degrees()},
                   {"back_bearing_deg", leg.magnetic_bearing.back().in_degrees()},
                   {"minutes", leg.minutes},
                   {"minutes_slow", leg.minutes_slow},
                   {"double_paces", leg.double_paces},
                   {"ground_factor", leg.ground_factor},
                   {"leave", trip::clock_text(times.leave)},
                   {"arrive", trip::clock_text(times.arrive)},
                   {"arrive_slow", trip::clock_text(times.arrive_slow)},
                   {"rest_after_min", times.rest_min},
                   {"ticks", ticks_json(leg)},
                   {"dangers", dangers_json(leg)},
                   {"touches_void", leg.touches_void},
                   {"way_off", way_off_json(leg)},
                   {"line", points(leg.line)}};
  add_sureness(out, leg);
  return out;
}

ordered_json schedule_json(const trip::Plan& plan) {
  const auto& s = plan.schedule;
  const auto& d = plan.daylight;
  return {{"start", trip::clock_text(s.start)},
          {"end", trip::clock_text(s.end)},
          {"end_slow", trip::clock_text(s.end_slow)},
          {"act_by", trip::clock_text(s.act_by)},
          {"latest_start", clock(s.latest_start)},
          {"turn_round", clock(s.turn_round)},
          {"turn_round_leg", s.turn_round_leg >= 0 ? ordered_json(s.turn_round_leg + 1) : nullptr},
          {"turn_round_back_min", s.turn_round_back_min},
          {"to_sunset_min", number(s.to_sunset_min)},
          {"to_dusk_min", number(s.to_dusk_min)},
          {"civil_dawn", clock(d.dawn)},
          {"rise", clock(d.rise)},
          {"set", clock(d.set)},
          {"civil_dusk", clock(d.dusk)},
          {"state", d.state.empty() ? ordered_json(nullptr) : ordered_json(d.state)}};
}

ordered_json ways_json(const PlannedWays& ways) {
  constexpr const char* choices[] = {"quickest", "balanced", "surest"};
  auto out = ordered_json::array();
  for (std::size_t i = 0; i < ways.ways.size(); ++i) {
    const auto& way = ways.ways[i];
    const auto& plan = way.plan;
    auto line = ordered_json::array();
    for (const auto& leg : plan.way.legs) line.push_back(points(leg.line));
    out.push_back({{"choice", choices[static_cast<int>(way.choice)]},
                   {"name", plan.way.name},
                   {"picked", i == ways.picked},
                   {"minutes", plan.minutes},
                   {"expected_min", way.expected_min},
                   {"length_m", plan.length_m},
                   {"climb_m", plan.climb_m},
                   {"descent_m", plan.descent_m},
                   {"certainty", number(plan.certainty)},
                   {"rehearsed", way.rehearsed},
                   {"rehearsed_error", way.rehearsed_error},
                   {"walkers", way.walkers},
                   {"hazard_probability", way.hazard},
                   {"to_dusk_min", number(plan.schedule.to_dusk_min)},
                   {"legs", plan.way.legs.size()},
                   {"remarks", way.remarks},
                   {"lines", std::move(line)}});
  }
  return out;
}

}  // namespace

std::string plan_as_json(const PlannedTrip& planned) {
  const auto& plan = planned.plan;
  auto legs = ordered_json::array();
  for (std::size_t i = 0; i < plan.way.legs.size(); ++i) legs.push_back(leg_json(plan, i));
  auto warnings = ordered_json::array();
  for (const auto& w : plan.warnings) {
    warnings.push_back({{"severity", trip::severity_name(w.severity)},
                        {"text", w.text},
                        {"leg", w.leg >= 0 ? ordered_json(w.leg + 1) : ordered_json(nullptr)}});
  }
  const auto& n = plan.norths;
  const ordered_json out{{"trip", plan.trip.name},
                         {"ground", planned.ground.name},
                         {"crs", planned.ground.grid.name()},
                         {"epsg", planned.ground.grid.epsg()},
                         {"way", plan.way.name},
                         {"length_m", plan.length_m},
                         {"climb_m", plan.climb_m},
                         {"descent_m", plan.descent_m},
                         {"minutes", plan.minutes},
                         {"certainty", number(plan.certainty)},
                         {"norths",
                          {{"declination_deg", n.declination_deg},
                           {"declination_sigma_deg", n.declination_sigma_deg},
                           {"annual_change_deg", n.annual_change_deg},
                           {"convergence_deg", n.convergence_deg},
                           {"grid_magnetic_deg", n.grid_magnetic_deg}}},
                         {"schedule", schedule_json(plan)},
                         {"legs", std::move(legs)},
                         {"ways", ways_json(planned.ways)},
                         {"remarks", planned.ways.remarks},
                         {"explained", planned.explained.empty() ? ordered_json(nullptr)
                                                                 : ordered_json(planned.explained)},
                         {"warnings", std::move(warnings)}};
  return out.dump(2, ' ', false, nlohmann::json::error_handler_t::replace) + "\n";
}

}  // namespace lodeway::tasks
