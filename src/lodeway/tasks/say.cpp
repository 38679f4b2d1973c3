#include "lodeway/tasks/say.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/numeric/statistics.hpp"
#include "lodeway/reckoning/judge/doubt_shape.hpp"
#include "lodeway/sheet/card/card.hpp"
#include "lodeway/terrain/profile.hpp"
#include "lodeway/trip/clock_text.hpp"
#include "lodeway/trip/figure_text.hpp"
#include "lodeway/trip/kept_told.hpp"
#include "lodeway/trip/not_to_walk.hpp"
#include "lodeway/trip/schedule.hpp"
#include "lodeway/trip/verdict_words.hpp"
#include "lodeway/trip/told_ticks.hpp"
#include "lodeway/trip/turn_words.hpp"
#include "lodeway/trip/warnings.hpp"
#include "lodeway/trip/wording.hpp"
#include "lodeway/walking/choice.hpp"

namespace lodeway::tasks {

namespace {

using Leg = trip::PlannedLeg;

constexpr std::size_t most_profile_points = 60;  // a leg

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
                   {"at_m", t.at_m},
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

Json counted_json(const trip::Counted& c) {
  return {{"length_m", c.length_m},
          {"map_mm", c.map_mm},
          {"double_paces", c.double_paces},
          {"minutes", c.minutes}};
}

Json needle_json(const Leg& leg) {
  if (!leg.needle) return nullptr;
  auto out = counted_json(*leg.needle);
  out["magnetic_bearing_deg"] = leg.needle->magnetic.in_degrees();
  out["grid_bearing_deg"] = leg.needle->grid.in_degrees();
  out["aim_grid_m"] = point_json(leg.needle->aim);
  return out;
}

Json after_json(const Leg& leg) {
  if (!leg.after) return nullptr;
  auto out = counted_json(*leg.after);
  out["line"] = leg.after->line;
  out["turn"] = leg.after->aimed_to == mapdata::Side::left ? "right" : "left";
  return out;
}

Json escape_json(const Leg& leg, const trip::Trip& t) {
  if (!leg.escape) return nullptr;
  return {{"words", trip::escape_words(*leg.escape, t)},
          {"haven", leg.escape->haven},
          {"minutes", leg.escape->minutes},
          {"first_magnetic_bearing_deg", leg.escape->first_magnetic.in_degrees()},
          {"first_grid_bearing_deg", leg.escape->first_grid.in_degrees()},
          {"line_grid_m", line_json(leg.escape->line)}};
}

/// The leg's card line, as printed.
Json words_json(const Leg& leg, const trip::Plan& plan) {
  const auto& t = plan.trip;
  const auto& c = leg.counted;
  return {
      {"bearing", leg.needle ? trip::bearing_text(leg.needle->magnetic, t.angles) +
                                   trip::bearing_sign(t.angles)
                             : leg.course.followed.name},
      {"length", trip::length_text(c.length_m, t.lengths)},
      {"map", fmt::format("{:.0f} mm", c.map_mm)},
      {"climb", trip::height_text(leg.figures.climb_m, t.lengths)},
      {"descent", trip::height_text(leg.figures.descent_m, t.lengths)},
      {"double_paces", fmt::format("{:.0f}", c.double_paces)},
      {"minutes", fmt::format("{:.0f}", c.minutes)},
      {"how", sheet::in_words(sheet::how_to(leg, plan))},
      {"certainty", leg.judged.fix_at_end ? trip::say(trip::Say::certainty_of, t.language,
                                                      {trip::of_hundred(trip::kept_told(leg.judged))})
                                          : std::string(trip::say(trip::Say::no_fix, t.language))},
      {"stops", sheet::stop_words(leg, plan)},
      {"if_lost", leg.judged.if_lost},
      {"way_off", leg.escape ? fmt::format("{}, {:.0f} min", trip::escape_words(*leg.escape, t),
                                           leg.escape->minutes)
                             : std::string()},
      {"confusable", leg.judged.confusable}};
}

/// What the figures say of themselves; the longer why is asked for by itself.
Json explain_json(const Leg& leg, const trip::Trip& t) {
  auto out = Json::array();
  const auto& j = leg.judged;
  const auto length = [&](double m) { return trip::length_text(m, t.lengths); };
  const auto add = [&](trip::Say what, const std::vector<std::string>& values) {
    out.push_back(trip::say(what, t.language, values));
  };
  if (leg.needle) add(trip::Say::spread_at_end, {length(j.cross_sigma_m), length(j.along_sigma_m)});
  if (j.hazard_probability >= trip::told_harm)
    add(trip::Say::barred_share, {trip::harmed_of_hundred(j.hazard_probability)});
  if (j.recovery_minutes > 0 && trip::kept_told(j) < 0.995)
    add(trip::Say::recovery_mean, {fmt::format("{:.0f}", j.recovery_minutes)});
  return out;
}

/// The point of the document, from 1, at which a leg ends.
Json ends_point(const trip::Plan& plan, std::size_t index) {
  const auto reach = trip::legs_that_reach(plan.trip.request, trip::as_judged(plan.way));
  for (std::size_t k = 0; k < reach.size(); ++k) {
    if (reach[k] == static_cast<int>(index)) return k + 2;
  }
  return nullptr;
}

/// Heights by the clock: in a leg the time goes with the distance; at its end the rest is level.
Json profile_json(const trip::Plan& plan, const walking::Ground& ground) {
  auto out = Json::array();
  double before_m = 0;
  const auto add = [&](double minute, double height, double along, std::size_t leg, bool resting,
                       double share, earth::GridPoint at) {
    const auto doubt =
        reckoning::doubt_at(plan.way.legs[leg], leg > 0 ? &plan.way.legs[leg - 1] : nullptr, share);
    out.push_back({{"clock_min", minute},
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
    const auto profile = terrain::profile(ground.elevation, leg.course.line);
    const double grid_m = profile.points.back().at_m;
    const mapdata::Measured line(leg.course.line);
    const auto leave = static_cast<double>(times.leave.count());
    const auto spent = static_cast<double>((times.arrive - times.leave).count());
    const std::size_t every = profile.points.size() / most_profile_points + 1;
    for (std::size_t k = 0; k < profile.points.size(); ++k) {
      if (k % every != 0 && k + 1 != profile.points.size()) continue;
      const double share = grid_m > 0 ? profile.points[k].at_m / grid_m : 1;
      add(leave + share * spent, profile.points[k].height_m, before_m + share * leg.judged.length_m,
          i, false, share, line.at(profile.points[k].at_m));
    }
    before_m += leg.judged.length_m;
    if (times.rest_min > 0)
      add(leave + spent + times.rest_min, profile.points.back().height_m, before_m, i, true, 1,
          leg.course.line.back());
  }
  return out;
}

Json weakest_leg(const trip::Plan& plan) {
  double least = 1;
  Json out;
  for (std::size_t i = 0; i < plan.way.legs.size(); ++i) {
    const auto& j = plan.way.legs[i].judged;
    if (trip::kept_told(j) >= least) continue;
    least = trip::kept_told(j);
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

Json number_or_null(const std::optional<double>& value) { return value ? Json(*value) : Json(); }
Json text_or_null(const std::string& text) { return text.empty() ? Json() : Json(text); }

void add_clock(Json& out, const std::string& key, const std::optional<trip::Clock>& time,
               const trip::Daylight& day) {
  out[key] = time ? Json(trip::clock_text(*time, day)) : Json();
  out[key + "_clock_min"] = time ? Json(time->count()) : Json();
}

namespace {

/// A leg's place in a way and in the day; null or 0 where it has none.
struct Among {
  std::size_t number = 1;
  const Leg* before = nullptr;
  const trip::LegTimes* times = nullptr;
  Json ends_point;
};
Json one_leg(const trip::Plan& plan, const Leg& leg, const Among& among);

Json fork_json(const trip::ForkAhead& fork) {
  const auto degrees = [](const std::vector<units::MagneticBearing>& ways) {
    auto out = Json::array();
    for (const auto b : ways) out.push_back(b.in_degrees());
    return out;
  };
  return {{"at_m", fork.at_m},
          {"turn", trip::turn_name(fork.turn)},
          {"over_open_ground_to_it", fork.met},
          {"magnetic_bearing_deg", fork.taken.in_degrees()},
          {"wrong_deg", degrees(fork.wrong)},
          {"beside_deg", degrees(fork.beside)},
          {"beside_all_along", fork.beside_all_along}};
}

Json fords_json(const Leg& leg) {
  auto out = Json::array();
  for (const auto& ford : leg.fords) {
    Json round;
    if (ford.round && ford.towards_bridge)
      round = {{"bridge", ford.round->bridge},
               {"magnetic_bearing_deg", ford.towards_bridge->in_degrees()},
               {"away_m", ford.round->away_m},
               {"minutes", ford.round->minutes}};
    out.push_back({{"at_m", ford.at_m},
                   {"water", ford.water},
                   {"at_grid_m", point_json(ford.at)},
                   {"map_has_bridges", ford.map_has_bridges},
                   {"round", std::move(round)}});
  }
  return out;
}

Json notes_json(const Leg& leg, const trip::Plan& plan) {
  auto out = Json::array();
  for (const auto& note : leg.notes)
    out.push_back({{"about", trip::note_name(note.about)},
                   {"words", trip::note_words(note, plan.trip, plan.norths.at)}});
  return out;
}

Json bare_json(const Leg& leg) {
  auto out = Json::array();
  for (const auto& bare : trip::bare_stretches(leg))
    out.push_back({{"from_m", bare.from_m}, {"to_m", bare.to_m}});
  return out;
}

Json bends_json(const Leg& leg) {
  auto out = Json::array();
  for (const auto& bend : leg.bends)
    out.push_back({{"at_m", bend.at_m}, {"magnetic_bearing_deg", bend.after.in_degrees()}});
  return out;
}

Json flow_json(trip::Flow flow) {
  if (flow == trip::Flow::none) return nullptr;
  return flow == trip::Flow::upstream ? "upstream" : "downstream";
}

Json escapes_json(const trip::Plan& plan, const Leg& leg) {
  constexpr const char* places[] = {"start", "middle", "end"};
  auto out = Json::array();
  for (const auto& route : leg.escapes) {
    auto legs = Json::array();
    for (std::size_t k = 0; k < route.legs.size(); ++k) {
      const Leg* before = k > 0 ? &route.legs[k - 1] : nullptr;
      legs.push_back(one_leg(plan, route.legs[k], {k + 1, before, nullptr, {}}));
    }
    out.push_back({{"from", places[static_cast<std::size_t>(route.from)]},
                   {"to", route.to},
                   {"minutes", route.minutes},
                   {"minutes_slow", route.minutes_slow},
                   {"certainty", route.certainty},
                   {"hazard_probability", route.hazard_probability},
                   {"the_way_they_came", route.back},
                   {"back_minutes", route.back_minutes},
                   {"over_snow_slope", route.snow_slope},
                   {"after_last_light", route.after_last_light},
                   {"legs", std::move(legs)}});
  }
  return out;
}

Json one_leg(const trip::Plan& plan, const Leg& leg, const Among& among) {
  const auto& course = leg.course;
  const auto& j = leg.judged;
  const bool along = course.kind == walking::LegKind::along;
  auto forks = Json::array();
  for (const auto& fork : leg.forks) forks.push_back(fork_json(fork));
  Json out{{"leg", among.number},
           {"kind", along ? "along" : "bearing"},
           {"from", course.from},
           {"to", course.to},
           {"ends_point", among.ends_point},
           {"reference", leg.reference},
           {"full_reference", leg.full_reference},
           {"along", text_or_null(course.followed.name)},
           {"along_kind", along ? Json(mapdata::kind_name(course.followed.kind)) : Json()},
           {"length_m", j.length_m},
           {"map_mm", leg.counted.map_mm},
           {"climb_m", leg.figures.climb_m},
           {"descent_m", leg.figures.descent_m},
           {"grid_bearing_deg", leg.grid_bearing.in_degrees()},
           {"magnetic_bearing_deg", leg.magnetic_bearing.in_degrees()},
           {"back_bearing_deg", leg.magnetic_bearing.back().in_degrees()},
           {"first_magnetic_bearing_deg", leg.first_magnetic_bearing.in_degrees()},
           {"minutes", j.minutes},
           {"minutes_slow", j.minutes_slow},
           {"double_paces", leg.counted.double_paces},
           {"on_the_needle", needle_json(leg)},
           {"along_after", after_json(leg)},
           {"aim_off_m", leg.after ? leg.after->length_m : 0.0},
           {"aim_off_side", leg.after ? Json(side_name(leg.after->aimed_to, "across")) : Json()},
           {"ground_factor", course.ground_factor}};
  const auto* times = among.times;
  const auto time = [&](auto at) {
    return times != nullptr ? std::optional(times->*at) : std::optional<trip::Clock>();
  };
  add_clock(out, "leave", time(&trip::LegTimes::leave), plan.daylight);
  add_clock(out, "arrive", time(&trip::LegTimes::arrive), plan.daylight);
  add_clock(out, "arrive_slow", time(&trip::LegTimes::arrive_slow), plan.daylight);
  const Json more{{"rest_after_min", times != nullptr ? times->rest_min : 0},
                  {"rest_within_min", times != nullptr ? times->rest_within_min : 0},
                  {"certainty", j.certainty},
                  {"certainty_low", j.band ? Json(j.band->low) : Json()},
                  {"certainty_high", j.band ? Json(j.band->high) : Json()},
                  {"in_the_end", number_or_null(j.in_the_end)},
                  {"stones", j.fix_at_end ? Json(sheet::stones_of(trip::kept_told(j))) : Json()},
                  {"fix_at_end", j.fix_at_end},
                  {"cross_sigma_m", j.cross_sigma_m},
                  {"along_sigma_m", j.along_sigma_m},
                  {"hazard_probability", j.hazard_probability},
                  {"recovery_minutes", j.recovery_minutes},
                  {"confusable", text_or_null(j.confusable)},
                  {"confusable_probability", j.confusable_probability},
                  {"catching", stop_json(leg)},
                  {"if_lost", text_or_null(j.if_lost)},
                  {"explain", explain_json(leg, plan.trip)},
                  {"remark", text_or_null(leg.remark)},
                  {"at_end", leg.at_end ? fork_json(*leg.at_end) : Json()},
                  {"forks", std::move(forks)},
                  {"bends", bends_json(leg)},
                  {"fords", fords_json(leg)},
                  {"notes", notes_json(leg, plan)},
                  {"flow", flow_json(leg.flow)},
                  {"keeps_on", leg.keeps == mapdata::Side::none
                                   ? Json()
                                   : Json(leg.keeps == mapdata::Side::left ? "left" : "right")},
                  {"ticks", ticks_json(leg)},
                  {"bare", bare_json(leg)},
                  {"dangers", dangers_json(leg)},
                  {"way_off", escape_json(leg, plan.trip)},
                  {"escapes", escapes_json(plan, leg)},
                  {"touches_void", leg.figures.touches_void},
                  {"line", line_json(course.line)},
                  {"ribbon_grid_m", ring_or_null(reckoning::ribbon(leg, among.before))},
                  {"ellipse_grid_m", ring_or_null(reckoning::end_ellipse(leg))},
                  {"words", words_json(leg, plan)}};
  out.update(more);
  return out;
}

}  // namespace

Json leg_json(const trip::Plan& plan, std::size_t i, bool in_a_day) {
  return one_leg(plan, plan.way.legs[i],
                 {i + 1, i > 0 ? &plan.way.legs[i - 1] : nullptr,
                  in_a_day ? &plan.schedule.legs[i] : nullptr, ends_point(plan, i)});
}

Json daylight_json(const trip::Daylight& day) {
  Json out = Json::object();
  add_clock(out, "civil_dawn", day.dawn, day);
  add_clock(out, "rise", day.rise, day);
  add_clock(out, "set", day.set, day);
  add_clock(out, "civil_dusk", day.dusk, day);
  out["state"] = text_or_null(day.state);
  return out;
}

Json schedule_json(const trip::Schedule& s, const trip::Daylight& day) {
  Json out = Json::object();
  add_clock(out, "start", s.start, day);
  out["zone"] = s.zone;
  out["one_way"] = s.one_way;
  add_clock(out, "end", s.end, day);
  add_clock(out, "end_half", s.end_half, day);
  add_clock(out, "end_slow", s.end_slow, day);
  add_clock(out, "act_by", s.act_by, day);
  out["never_home"] = s.never_home;
  add_clock(out, "latest_start", s.latest_start, day);
  add_clock(out, "turn_round", s.turn_round, day);
  out["turn_round_leg"] = s.turn_round_leg < 0 ? Json() : Json(s.turn_round_leg + 1);
  out["turn_round_back_min"] = s.turn_round_back_min;
  out["to_sunset_min"] = number_or_null(s.to_sunset_min);
  out["to_dusk_min"] = number_or_null(s.to_dusk_min);
  out.update(daylight_json(day));
  return out;
}

Json norths_json(const trip::Plan& plan) {
  const auto& n = plan.norths;
  return {{"declination_deg", n.at.declination.east.in_degrees()},
          {"declination_sigma_deg", n.declination_sigma_deg},
          {"annual_change_deg", n.annual_change_deg},
          {"convergence_deg", n.at.convergence.east.in_degrees()},
          {"grid_magnetic_deg", units::grid_magnetic_angle(n.at).in_degrees()},
          {"zone_warning", text_or_null(trip::zone_words(n, plan.trip.language))}};
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

CalledWay called(const trip::Trip& trip, walking::Choice choice) {
  constexpr const char* titles[] = {"Quick", "Middle", "Sure"};
  const auto& points = trip.request.points;
  const bool given = std::none_of(points.begin() + 1, points.end(), [](const auto& p) {
    return p.stretch == walking::Stretch::find;
  });
  if (given) return {"given", "As you gave it"};
  return {std::string(walking::choice_name(choice)), titles[static_cast<std::size_t>(choice)]};
}

Json verdict_json(const trip::Plan& plan) {
  const auto language = plan.trip.language;
  auto reasons = Json::array();
  for (const auto& r : plan.verdict.reasons) {
    reasons.push_back({{"band", trip::band_name(r.band)},
                       {"what", trip::fails_name(r.what)},
                       {"leg", r.leg < 0 ? Json() : Json(r.leg + 1)},
                       {"value", r.value},
                       {"limit", r.limit},
                       {"text", trip::reason_words(r, language)}});
  }
  return {{"band", trip::band_name(plan.verdict.band)},
          {"headline", trip::headline_of(plan)},
          {"sentences", trip::sentences_of(plan)},
          {"reasons", std::move(reasons)}};
}

Json way_json(const PlannedWay& way, const trip::Plan& plan, const walking::Ground& ground,
              bool picked) {
  auto legs = Json::array();
  for (std::size_t i = 0; i < plan.way.legs.size(); ++i) legs.push_back(leg_json(plan, i));
  const auto about = called(plan.trip, way.choice);
  const auto total = static_cast<double>((plan.schedule.end - plan.schedule.start).count());
  const auto& first = plan.way.legs.front().course;
  const auto& lengths = plan.trip.lengths;
  return {{"name", about.name},
          {"title", about.title},
          {"picked", picked},
          {"verdict", verdict_json(plan)},
          {"start_name", first.from},
          {"start_reference", plan.start_reference},
          {"start_full_reference", plan.start_full_reference},
          {"start_grid_m", point_json(first.line.front())},
          {"length_m", plan.length_m},
          {"climb_m", plan.climb_m},
          {"descent_m", plan.descent_m},
          {"minutes", plan.minutes},
          {"minutes_total", total},
          {"expected_min", way.expected_min},
          {"certainty", plan.way.certainty},
          {"certainty_walked", number_or_null(way.walked_kept())},
          {"certainty_worked_out", way.averaged},
          {"certainty_as_known", way.as_known},
          {"weakest_leg", weakest_leg(plan)},
          {"hazard_probability", plan.keep_off},
          {"rehearsed", way.walked_kept().value_or(0)},
          {"rehearsed_error", numeric::share_error(way.days.kept, way.days.parties)},
          {"walkers", way.days.parties},
          {"schedule", schedule_json(plan.schedule, plan.daylight)},
          {"norths", norths_json(plan)},
          {"legs", std::move(legs)},
          {"warnings", warnings_json(plan)},
          {"profile", profile_json(plan, ground)},
          {"remarks", way.remarks},
          {"words",
           {{"time", trip::hours_text(total)},
            {"length", trip::length_text(plan.length_m, lengths)},
            {"climb", trip::height_text(plan.climb_m, lengths)},
            {"certainty", trip::of_hundred(plan.way.certainty) + "/100"},
            {"to_dusk", plan.schedule.to_dusk_min ? (*plan.schedule.to_dusk_min < 0 ? "-" : "") +
                                                        trip::hours_text(*plan.schedule.to_dusk_min)
                                                  : plan.daylight.state}}}};
}

}  // namespace lodeway::tasks
