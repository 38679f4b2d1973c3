#include "lodeway/reckoning/judge/drill_room.hpp"

#include <algorithm>
#include <cmath>

#include "lodeway/mapdata/along_line.hpp"
#include "lodeway/mapdata/polyline.hpp"

namespace lodeway::reckoning {

namespace {

constexpr double least_step_m = 1;

/// The first place where `at(m)` is on ground to keep off; from 0 to `far_m`. Goes on by as much as
/// is clear all round, which along a line is no more than that.
template <class At>
double first_barred(const HazardGround& hazards, double far_m, const At& at) {
  for (double m = 0; m <= far_m;) {
    const double clear = hazards.clear_m(at(m));
    if (m > 0 && clear < 0) return m;
    m += std::max(clear, least_step_m);
  }
  return DrillRoom::free;
}

double straight_on(const HazardGround& hazards, GridPoint from, units::GridBearing direction,
                   double beside_m, double far_m) {
  const GridPoint ahead = earth::step({0, 0}, direction, 1), right{ahead.north_m, -ahead.east_m};
  double out = DrillRoom::free;
  for (const double side : {-beside_m, 0.0, beside_m}) {
    out = std::min(out, first_barred(hazards, far_m,
                                     [&](double m) { return from + m * ahead + side * right; }));
  }
  return out;
}

/// Along a line from the place `along_m` on it, up or down its points.
double along_line(const HazardGround& hazards, const std::vector<GridPoint>& line, double along_m,
                  bool up, double far_m) {
  const double left = up ? mapdata::length_m(line) - along_m : along_m;
  return first_barred(hazards, std::min(far_m, std::max(left, 0.0)), [&](double m) {
    return mapdata::point_along(line, along_m + (up ? m : -m));
  });
}

}  // namespace

double may_go_on_m(double ahead_m, const Approach& way) {
  constexpr double sigmas = 2;
  const double left = ahead_m - sigmas * way.spread.along_sigma_m;
  return left < least_on_m ? 0 : std::min(beyond_m(way.end), left);
}

double may_follow_m(const DrillRoom& room, const AtLine& end, double search) {
  const double free = end.offset_m != 0 ? std::abs(end.offset_m) + room.line_on_m
                                        : std::min(room.line_on_m, room.line_back_m);
  const double most = std::min(free - short_of_m(end.line_sigma_m), search);
  return most < least_on_m ? 0 : most;
}

DrillRoom drill_room(const HazardGround& hazards, const Guides& guides, const walking::Leg& leg,
                     const Approach& way, double search_m) {
  DrillRoom out;
  if (!hazards.any()) return out;
  const bool along = leg.course.kind == walking::LegKind::along;
  const double stop_m = leg.stop ? leg.stop->beyond_m : 0;
  const auto* nothing = std::get_if<AtNothing>(&way.end);
  const double looks_m = nothing != nullptr ? nothing->look_round_m : beyond_m(way.end);
  // Two sigmas more than it goes by its count: so far may it really be.
  const double far_m = std::max(looks_m + 2 * way.spread.along_sigma_m, stop_m);
  const auto* met = std::get_if<AtLine>(&way.end);
  if (hazards.clear_m(way.to) < 0) {  // it ends on it, and that is judged elsewhere
    // but who is aimed off to it from aside comes to another place first
    // and who comes to such an end on a bearing (a shore, the foot of a cliff) goes no farther.
    const bool aside = aimed_off(way.end) != nullptr && hazards.clear_m(way.aim) >= 0;
    if (aside || (!along && met == nullptr))
      out.ahead_m =
          straight_on(hazards, way.aim, way.bearing, way.spread.cross_sigma_m, far_m);
    return out;
  }
  out.around_m = hazards.clear_m(way.to);
  if (along) {
    const auto direction =
        mapdata::direction_at(leg.course.line, mapdata::length_m(leg.course.line));
    std::optional<OnLine> on;
    for (const auto& near : guides.lines_at(way.to)) {
      if (!on && guides.line(near.line).label.kind == leg.course.followed.kind) on = near;
    }
    if (!on) {
      out.ahead_m = straight_on(hazards, way.to, direction, 0, far_m);
    } else {
      const auto& line = guides.line(on->line).points;
      const auto turn = mapdata::direction_at(line, on->along_m) - direction;
      const bool up = std::abs(turn.in_degrees()) <= 90;
      out.ahead_m = along_line(hazards, line, on->along_m, up, far_m);
    }
  } else if (hazards.clear_m(way.aim) >= 0) {  // else the line met is such ground itself
    out.ahead_m = straight_on(hazards, way.aim, way.bearing, way.spread.cross_sigma_m, far_m);
  }
  if (met != nullptr) {
    const auto& line = guides.line(met->place.line).points;
    const bool aim_up = met->offset_m >= 0;
    // It may have met the line two sigmas off the aim, and goes so much farther either way; what it
    // is told is rounded up to tens, and it turns short of what lies there.
    const double reach_m =
        std::max(search_m, least_look_m) + 2 * met->line_sigma_m + 10 + least_on_m;
    out.line_on_m = along_line(hazards, line, met->place.along_m, !aim_up, reach_m);
    out.line_back_m = along_line(hazards, line, met->place.along_m, aim_up,
                                 reach_m + std::abs(met->offset_m));
  }
  return out;
}

}  // namespace lodeway::reckoning
