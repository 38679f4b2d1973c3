/// How the end of a bearing leg is found: as a point, on a line, or not at all.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "lodeway/reckoning/aimed_leg.hpp"
#include "lodeway/reckoning/judge.hpp"
#include "lodeway/reckoning/point_target.hpp"

namespace lodeway::reckoning {

using walking::Leg;
using walking::Sureness;

namespace {
/// The piece of a line within `reach` of a place on it: rays need no more, and are quicker with less.
std::vector<GridPoint> piece_about(const std::vector<GridPoint>& line, double along, double reach,
                                   double& along_in_piece) {
  std::vector<GridPoint> out;
  const double first = std::max(along - reach, 0.0), last = along + reach;
  out.push_back(point_along(line, first));
  double at = 0;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (i > 0) at += earth::grid_distance_m(line[i - 1], line[i]);
    if (at > first && at < last) out.push_back(line[i]);
  }
  if (last < at) out.push_back(point_along(line, last));
  along_in_piece = along - first;
  return out;
}
}  // namespace

void Judge::bearing_end(Leg& leg, LegModel& model, Sureness& sure) const {
  const LegAxes& spread = model.spread;
  if (model.mark) {
    model.end = EndKind::point;
    model.beyond_m = habits_.beyond_sigmas * spread.along_sigma_m;
    LegAxes at_last = spread;
    at_last.along_sigma_m = at_give_up(spread.along_sigma_m, model.length_m, model.beyond_m);
    sure.certainty = model.recognised *
                     sees_before_giving_up(at_last, 0, model.seen_from_m, model.beyond_m);
  } else {
    model.end = EndKind::turn;
    sure.certainty = 1;
  }
  for (const OnLine& on : guides_.lines_at(model.to)) {
    const double turn = std::abs(std::sin(on.direction - model.bearing));
    if (turn < std::sin(habits_.least_crossing_deg * std::numbers::pi / 180)) continue;
    const mapdata::Kind kind = guides_.line(on.line).label.kind;
    const double known = guides_.recognised(kind);
    // a mark that is itself seen from far needs no line; a faint line is no help
    if (model.mark && sure.certainty >= known) break;
    LegModel on_line = model;
    Sureness by_line = sure;
    on_line.end = EndKind::line;
    on_line.line = on.line;
    on_line.target_along_m = on.along_m;
    on_line.line_recognised = known;
    line_end(leg, on_line, by_line);
    if (model.mark) {
      // a mark that is hardly known: to stand on the line, near enough by the count, may be surer
      LegModel near = model;
      near.end = EndKind::line;
      near.line = on_line.line;
      near.target_along_m = on_line.target_along_m;
      near.line_recognised = known;
      Sureness by_count = by_line;
      const auto aimed = leg.aim_off;
      near.mark.reset();
      near.recognised = 1;
      line_end(leg, near, by_count);
      if (by_count.certainty > by_line.certainty + 0.005) {
        on_line = near;
        by_line = by_count;
      } else {
        leg.aim_off = aimed;
      }
    }
    if (!model.mark || by_line.certainty > sure.certainty + 0.005) {
      model = on_line;
      sure = by_line;
    } else {
      leg.aim_off.reset();
    }
    break;
  }
  if (!leg.aim_off) return;
  // what the hand does: the bearing and count of the part that is walked on the needle
  const double straight = earth::grid_distance_m(model.from, model.to);
  const double along_line = std::abs(model.offset_m);
  leg.grid_bearing = units::GridBearing::degrees(model.bearing * 180 / std::numbers::pi);
  leg.double_paces *= model.length_m / straight;
  leg.minutes *= (model.length_m + along_line) / straight;
  leg.minutes_slow *= (model.length_m + along_line) / straight;
}

void Judge::line_end(Leg& leg, LegModel& model, Sureness& sure) const {
  leg.aim_off.reset();
  const auto& feature = guides_.line(model.line);
  const double pace = minutes_per_m(leg);
  LineEnd end;
  double along = 0;
  const double reach = 6 * model.spread.cross_sigma_m / std::sin(habits_.least_crossing_deg * std::numbers::pi / 180) +
                       habits_.near_enough_m;
  const auto piece = piece_about(feature.points, model.target_along_m, reach, along);
  end.from = model.from;
  end.line = piece;
  end.target_along_m = along;
  end.window_m = model.mark ? std::max(model.seen_from_m, 10.0) : habits_.near_enough_m;
  end.cross_sigma_m = model.spread.cross_sigma_m;
  end.along_sigma_m = model.spread.along_sigma_m;
  end.line_beyond_sigmas = habits_.line_beyond_sigmas;
  end.least_offset_m = habits_.least_offset_m;
  const double angle_sigma = model.spread.cross_sigma_m / model.length_m;
  const auto hazard_towards = [&](GridPoint aim) {
    const double length = earth::grid_distance_m(model.from, aim);
    return hazard_probability(forbidden_, {model.from, std::atan2(aim.east_m - model.from.east_m, aim.north_m - model.from.north_m),
                                           length, angle_sigma, end.along_sigma_m, 0, 0, end.line});
  };
  // an aim that leads over worse ground than the straight way is none
  const double straight_hazard = hazard_towards(model.to);
  end.allowed = [&](GridPoint aim) { return hazard_towards(aim) <= straight_hazard + 0.005; };
  AimCosts costs;
  costs.bearing_min_per_m = pace;
  costs.line_min_per_m = 0.06 / (party_.flat_speed_kmh *
                                 std::max(guides_.traits(feature.label.kind).speed_factor, 0.2));
  costs.doubt_min = habits_.doubt_min;
  costs.wrong_way_sigmas = habits_.wrong_way_sigmas;
  // without a mark on the line there is nothing to turn to: straight at the place
  const AimedLeg aimed = model.mark ? best_aimed_leg(end, costs) : aimed_leg(end, 0, costs);
  model.window_m = end.window_m;
  model.offset_m = aimed.offset_m;
  model.aim = aimed.aim;
  model.bearing = aimed.bearing;
  model.length_m = aimed.length_m;
  model.line_sigma_m = aimed.line_sigma_m;
  model.beyond_m = aimed.beyond_m;
  const double turns_right = model.mark ? aimed.right_way : aimed.within;
  sure.certainty = model.line_recognised * turns_right * (model.mark ? model.recognised : 1.0);
  if (aimed.offset_m == 0) return;
  leg.aim_off = walking::AimOff{aimed.aim_is_left ? mapdata::Side::left : mapdata::Side::right,
                                std::abs(aimed.offset_m), aimed.aim,
                                feature.label.name.empty() ? std::string(mapdata::kind_words(feature.label.kind))
                                                           : feature.label.name};
}

}  // namespace lodeway::reckoning
