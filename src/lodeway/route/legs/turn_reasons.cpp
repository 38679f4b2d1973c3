#include "lodeway/route/legs/turn_reasons.hpp"

#include <cmath>

#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/reckoning/ends/point_target.hpp"
#include "lodeway/route/legs/open_stretch.hpp"

namespace lodeway::route {

using earth::GridPoint;
using walking::LegKind;
using walking::TurnReason;

namespace {
constexpr double worth_s = 30;  // less is no reason to turn; *practice*
}  // namespace

std::optional<TurnReason> turn_reason(const Cutting& c, GridPoint a, GridPoint turn, GridPoint to) {
  const auto met = c.prepared.cover.first_bar(a, to);
  if (met.bar != walking::Bar::none)
    return TurnReason{.what = TurnReason::What::goes_round, .bar = met.bar, .name = met.name};
  const double saved_s = walk_s(c, a, to) - walk_s(c, a, turn) - walk_s(c, turn, to);
  if (saved_s >= worth_s)
    return TurnReason{.what = TurnReason::What::quicker, .minutes = saved_s / 60};
  if (earth::grid_distance_m(a, to) > c.request.party.max_leg_m)
    return TurnReason{.what = TurnReason::What::longest_leg};
  return std::nullopt;
}

namespace {

/// Farther out, so far that a party which comes to the turn by its needle is kept off what it goes
/// round: one standard deviation of its error across. Where there is no room, the turn as it is.
GridPoint wide_enough(const Cutting& c, GridPoint a, GridPoint turn, GridPoint to) {
  const double length = earth::grid_distance_m(a, to);
  if (length <= 0) return turn;
  const double out_m = mapdata::cross(to - a, turn - a) / length;
  const auto spread = reckoning::single_leg_spread(reckoning::errors_of(c.request.party),
                                                   earth::grid_distance_m(a, turn));
  const double more = std::sqrt(spread.cross_m2) - std::abs(out_m);
  if (more <= 0) return turn;
  const GridPoint left{-(to - a).north_m / length, (to - a).east_m / length};
  const auto wide = turn + std::copysign(more, out_m) * left;
  const auto goes = [&](GridPoint p, GridPoint q) {
    return straight_s(c, p, q) < static_cast<double>(unreached_s);
  };
  return goes(a, wide) && goes(wide, to) ? wide : turn;
}

}  // namespace

void mend_turns(const Cutting& c, std::vector<GridPoint>& points) {
  for (std::size_t i = 1; i + 1 < points.size();) {
    const auto a = points[i - 1], to = points[i + 1];
    const bool seen = c.around.place(points[i]).kind != mapdata::Kind::other;
    const auto why = seen ? std::nullopt : turn_reason(c, a, points[i], to);
    if (!seen && !why) {
      points.erase(points.begin() + static_cast<std::ptrdiff_t>(i));
      if (i > 1) --i;  // what was asked for by the corner that is gone
      continue;
    }
    if (why && why->what == TurnReason::What::longest_leg) {
      const double along = mapdata::nearest_fraction(a, to, points[i]);
      points[i] = a + along * (to - a);
    } else if (why && why->what == TurnReason::What::goes_round) {
      points[i] = wide_enough(c, a, points[i], to);
    }
    ++i;
  }
}

void tell_turns(const Cutting& c, std::vector<walking::Leg>& legs) {
  for (std::size_t i = 0; i + 1 < legs.size(); ++i) {
    const auto &in = legs[i].course, &out = legs[i + 1].course;
    if (in.kind == LegKind::bearing && out.kind == LegKind::bearing)
      legs[i].turns_for = turn_reason(c, in.line.front(), in.line.back(), out.line.back());
  }
}

}  // namespace lodeway::route
