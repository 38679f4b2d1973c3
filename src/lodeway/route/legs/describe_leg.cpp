#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/route/legs/cut_legs.hpp"
#include "lodeway/walking/leg_figures.hpp"

namespace lodeway::route {

using walking::Leg;
using walking::LegKind;

void describe(Leg& leg, const Cutting& c, int followed) {
  const auto& map = c.ground.map;
  const bool along = leg.kind == LegKind::along;
  if (followed >= 0) {
    const auto& label = map.lines[static_cast<std::size_t>(followed)].label;
    leg.along_kind = label.kind;
    leg.along = landmarks::thing(label.kind, label.name, c.language);
  }
  const double own = c.ground.kinds[leg.along_kind].speed_factor;
  if (along && walking::is_path(leg.along_kind)) {
    leg.ground_factor = own;
  } else {
    leg.ground_factor = c.prepared.cover.mean_factor(leg.line);
    if (along) leg.ground_factor = std::min(leg.ground_factor, own);
  }
  leg.ground_factor = std::clamp(leg.ground_factor, 0.05, 1.0);
  walking::set_figures(leg, c.ground, c.request.party);
  const double grid_m = mapdata::length_m(leg.line), scale = leg.length_m / grid_m;
  leg.ticks.clear();
  for (const auto& s : c.around.along(leg.line, followed, c.request.party.visibility)) {
    leg.ticks.push_back({landmarks::words(s, c.language), s.kind, s.side, s.at_m * scale, 0, s.at});
    auto& tick = leg.ticks.back();
    Leg part = leg;  // the time to it, by the same model
    part.line = {leg.line.front()};
    double run = 0;
    for (std::size_t i = 1; i < leg.line.size() && run < s.at_m; ++i) {
      const double piece = earth::grid_distance_m(leg.line[i - 1], leg.line[i]);
      const double t = std::min(1.0, (s.at_m - run) / piece);
      part.line.push_back(leg.line[i - 1] + t * (leg.line[i] - leg.line[i - 1]));
      run += piece;
    }
    walking::set_figures(part, c.ground, c.request.party);
    tick.minutes = part.minutes;
  }
  const auto heading = earth::grid_bearing(leg.line[leg.line.size() - 2], leg.line.back());
  leg.stop.reset();
  if (const auto stop = c.around.stop_beyond(leg.line.back(), heading, followed)) {
    const double minutes = stop->beyond_m / leg.length_m * leg.minutes;
    leg.stop = walking::Stop{landmarks::thing(stop->kind, stop->name, c.language), stop->kind,
                             stop->beyond_m, minutes, stop->shape};
  }
  leg.dangers.clear();
  for (const auto& d : c.around.dangers(leg.line)) {
    leg.dangers.push_back({landmarks::words(d, c.language), d.side, d.distance_m});
  }
}

Result<std::vector<Leg>> leg_straight(const Cutting& c, const walking::Waypoint& from,
                                      const walking::Waypoint& to) {
  const auto blocked = c.prepared.cover.first_bar(from.at, to.at);
  if (blocked.bar != walking::Bar::none) {
    return fail(
        FaultCode::no_way,
        fmt::format(
            "the bearing from {} to {} meets {} at {:.0f} {:.0f}: set a point to go round it",
            from.name, to.name, walking::bar_words(blocked), blocked.at.east_m,
            blocked.at.north_m));
  }
  Leg leg;
  leg.from = from.name;
  leg.to = to.name;
  leg.line = {from.at, to.at};
  describe(leg, c, -1);
  return std::vector{std::move(leg)};
}

}  // namespace lodeway::route
