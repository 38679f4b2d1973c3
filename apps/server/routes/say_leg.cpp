// One leg: its figures with unit and north in the name, its shapes on the ground, its card line.
#include <cmath>

#include <fmt/format.h>

#include "apps/server/routes/say.hpp"
#include "lodeway/mapdata/kind.hpp"
#include "lodeway/reckoning/growth/doubt_shape.hpp"
#include "lodeway/sheet/card/card.hpp"
#include "lodeway/trip/figure_text.hpp"
#include "lodeway/trip/schedule.hpp"
#include "lodeway/trip/wording.hpp"

namespace lodeway::server {

namespace {

using walking::Leg;

const char* side_name(mapdata::Side side, const char* none) {
  return side == mapdata::Side::left ? "left" : side == mapdata::Side::right ? "right" : none;
}

Json ring_or_null(const std::vector<earth::GridPoint>& ring) {
  return ring.empty() ? Json() : line_json(ring);
}

Json ticks_json(const Leg& leg) {
  auto out = Json::array();
  for (const auto& t : leg.ticks) {
    out.push_back({{"what", t.what},
                   {"kind", mapdata::kind_name(t.kind)},
                   {"side", side_name(t.side, "across")},
                   {"along_m", t.at_m},
                   {"minutes", t.minutes},
                   {"at_grid_m", point_json(t.at)}});
  }
  return out;
}

Json dangers_json(const Leg& leg) {
  auto out = Json::array();
  for (const auto& d : leg.dangers) {
    out.push_back(
        {{"what", d.what}, {"side", side_name(d.side, "ahead")}, {"distance_m", d.distance_m}});
  }
  return out;
}

Json stop_json(const Leg& leg) {
  if (!leg.stop) return nullptr;
  return {{"what", leg.stop->what},
          {"kind", mapdata::kind_name(leg.stop->kind)},
          {"beyond_m", leg.stop->beyond_m},
          {"minutes", leg.stop->minutes},
          {"line_grid_m", line_json(leg.stop->shape)}};
}

Json aim_json(const Leg& leg) {
  if (!leg.aim_off) return nullptr;
  return {{"side", side_name(leg.aim_off->side, "across")},
          {"offset_m", leg.aim_off->offset_m},
          {"aim_grid_m", point_json(leg.aim_off->aim)},
          {"line", leg.aim_off->line},
          {"spread_sigma_m", nullptr},
          {"wrong_side_probability", nullptr}};
}

Json way_off_json(const Leg& leg) {
  if (!leg.way_off) return nullptr;
  // Grid to magnetic as the leg's own two bearings have it: both are of its start.
  const double turn = leg.magnetic_bearing.in_degrees() - leg.grid_bearing.in_degrees();
  const double first = std::fmod(leg.way_off->first.in_degrees() + turn + 720, 360);
  return {{"words", leg.way_off->words},
          {"minutes", leg.way_off->minutes},
          {"first_bearing_magnetic_deg", first},
          {"line_grid_m", line_json(leg.way_off->line)}};
}

Json words_json(const Leg& leg, const trip::Plan& plan) {
  const auto& t = plan.trip;
  const auto length = [&](double m) { return trip::length_text(m, t.lengths); };
  const auto& s = leg.sureness;
  std::string certainty = trip::say(trip::Say::not_judged, t.language);
  if (s && s->fix_at_end)
    certainty = trip::say(trip::Say::certainty_of, t.language, {trip::of_hundred(s->certainty)});
  else if (s)
    certainty = trip::say(trip::Say::no_fix, t.language);
  return {{"bearing",
           leg.kind == walking::LegKind::bearing
               ? trip::bearing_text(leg.magnetic_bearing, t.angles) + trip::bearing_sign(t.angles)
               : leg.along},
          {"length", length(leg.length_m)},
          {"map", fmt::format("{:.0f} mm", mapdata::length_m(leg.line) * 1000 / t.map_scale)},
          {"climb", trip::height_text(leg.climb_m, t.lengths)},
          {"descent", trip::height_text(leg.descent_m, t.lengths)},
          {"double_paces", fmt::format("{:.0f}", leg.double_paces)},
          {"minutes", fmt::format("{:.0f}", leg.minutes)},
          {"how", sheet::in_words(sheet::how_to(leg, plan))},
          {"certainty", certainty},
          {"stops", sheet::stop_words(leg, plan)},
          {"if_lost", s ? s->if_lost : std::string()},
          {"way_off", leg.way_off
                          ? fmt::format("{}, {:.0f} min", leg.way_off->words, leg.way_off->minutes)
                          : std::string()},
          {"confusable", s ? s->confusable : std::string()}};
}

/// What the figures say of themselves; the longer why is asked for by itself.
Json explain_json(const Leg& leg, const trip::Trip& t) {
  auto out = Json::array();
  const auto& s = leg.sureness;
  if (!s) return out;
  const auto length = [&](double m) { return trip::length_text(m, t.lengths); };
  const auto add = [&](trip::Say what, const std::vector<std::string>& values) {
    out.push_back(trip::say(what, t.language, values));
  };
  if (leg.kind == walking::LegKind::bearing)
    add(trip::Say::spread_at_end, {length(s->cross_sigma_m), length(s->along_sigma_m)});
  if (s->hazard_probability >= 0.0005)
    add(trip::Say::barred_share, {fmt::format("{:.1f}", 100 * s->hazard_probability)});
  if (s->recovery_minutes > 0 && s->certainty < 0.995)
    add(trip::Say::recovery_mean, {fmt::format("{:.0f}", s->recovery_minutes)});
  return out;
}

/// The point of the document, from 1, at which a leg ends.
Json ends_point(const trip::Plan& plan, std::size_t index) {
  const auto reach = trip::legs_that_reach(plan.trip.request, plan.way);
  for (std::size_t k = 0; k < reach.size(); ++k) {
    if (reach[k] == static_cast<int>(index)) return k + 2;
  }
  return nullptr;
}

}  // namespace

Json leg_json(const trip::Plan& plan, std::size_t i, const trip::LegTimes* times) {
  const Leg& leg = plan.way.legs[i];
  const Leg* before = i > 0 ? &plan.way.legs[i - 1] : nullptr;
  const auto& s = leg.sureness;
  const bool along = leg.kind == walking::LegKind::along;
  const auto judged = [&](double value) { return s ? Json(value) : Json(); };
  const auto clock = [&](trip::Clock trip::LegTimes::* which) {
    return times == nullptr ? Json() : clock_json(times->*which);
  };
  return {{"leg", i + 1},
          {"kind", along ? "along" : "bearing"},
          {"from", leg.from},
          {"to", leg.to},
          {"ends_point", ends_point(plan, i)},
          {"reference", plan.references[i]},
          {"along", along ? Json(leg.along) : Json()},
          {"along_kind", along ? Json(mapdata::kind_name(leg.along_kind)) : Json()},
          {"length_horizontal_m", leg.length_m},
          {"map_mm", mapdata::length_m(leg.line) * 1000 / plan.trip.map_scale},
          {"climb_m", leg.climb_m},
          {"descent_m", leg.descent_m},
          {"bearing_magnetic_deg", leg.magnetic_bearing.in_degrees()},
          {"bearing_grid_deg", leg.grid_bearing.in_degrees()},
          {"bearing_back_magnetic_deg", leg.magnetic_bearing.back().in_degrees()},
          {"minutes", leg.minutes},
          {"minutes_slow", leg.minutes_slow},
          {"double_paces", leg.double_paces},
          {"ground_factor", leg.ground_factor},
          {"leave", clock(&trip::LegTimes::leave)},
          {"arrive", clock(&trip::LegTimes::arrive)},
          {"arrive_slow", clock(&trip::LegTimes::arrive_slow)},
          {"rest_after_min", times == nullptr ? 0 : times->rest_min},
          {"certainty", judged(s ? s->certainty : 0)},
          {"stones", s && s->fix_at_end ? Json(sheet::stones_of(s->certainty)) : Json()},
          {"fix_at_end", !s || s->fix_at_end},
          {"cross_sigma_m", judged(s ? s->cross_sigma_m : 0)},
          {"along_sigma_m", judged(s ? s->along_sigma_m : 0)},
          {"hazard_probability", judged(s ? s->hazard_probability : 0)},
          {"recovery_minutes", judged(s ? s->recovery_minutes : 0)},
          {"confusable", s ? text_or_null(s->confusable) : Json()},
          {"confusable_probability", judged(s ? s->confusable_probability : 0)},
          {"aim_off", aim_json(leg)},
          {"catching", stop_json(leg)},
          {"if_lost", s ? text_or_null(s->if_lost) : Json()},
          {"explain", explain_json(leg, plan.trip)},
          {"remark", text_or_null(leg.remark)},
          {"ticks", ticks_json(leg)},
          {"dangers", dangers_json(leg)},
          {"way_off", way_off_json(leg)},
          {"touches_void", leg.touches_void},
          {"line_grid_m", line_json(leg.line)},
          {"ribbon_grid_m", ring_or_null(reckoning::ribbon(leg, before))},
          {"ellipse_grid_m", ring_or_null(reckoning::end_ellipse(leg))},
          {"words", words_json(leg, plan)}};
}

}  // namespace lodeway::server
