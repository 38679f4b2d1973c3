#include "lodeway/route/legs/turn_reasons.hpp"

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
  if (earth::grid_distance_m(a, to) > c.request.party.max_leg_m)
    return TurnReason{.what = TurnReason::What::longest_leg};
  const double saved_s = walk_s(c, a, to) - walk_s(c, a, turn) - walk_s(c, turn, to);
  if (saved_s < worth_s) return std::nullopt;
  return TurnReason{.what = TurnReason::What::quicker, .minutes = saved_s / 60};
}

void drop_idle_turns(const Cutting& c, std::vector<GridPoint>& points) {
  for (std::size_t i = 1; i + 1 < points.size();) {
    const bool seen = c.around.place(points[i]).kind != mapdata::Kind::other;
    if (seen || turn_reason(c, points[i - 1], points[i], points[i + 1])) {
      ++i;
      continue;
    }
    points.erase(points.begin() + static_cast<std::ptrdiff_t>(i));
    if (i > 1) --i;  // what was asked for by the corner that is gone
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
