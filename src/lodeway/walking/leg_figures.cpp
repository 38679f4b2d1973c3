#include "lodeway/walking/leg_figures.hpp"

#include <algorithm>
#include <cassert>

#include "lodeway/terrain/profile.hpp"
#include "lodeway/walking/time_model.hpp"

namespace lodeway::walking {

bool is_path(mapdata::Kind kind) {
  using mapdata::Kind;
  return kind == Kind::path || kind == Kind::faint_path || kind == Kind::track ||
         kind == Kind::road;
}

double more_paces(double ground_factor, double mean_slope) {
  const double rough = 0.5 * (1 - ground_factor), steep = std::clamp(mean_slope - 0.1, 0.0, 0.2);
  return std::min(most_more_paces, 1 + rough + steep);
}

void set_figures(Leg& leg, const Ground& ground, const Party& party) {
  assert(leg.line.size() >= 2 && leg.ground_factor > 0);
  const auto& start = leg.line.front();
  const auto& end = leg.line.back();
  leg.grid_bearing = earth::grid_bearing(start, end);
  const auto scale = ground.grid.scale(start + 0.5 * (end - start), leg.grid_bearing);
  auto profile = terrain::profile(ground.elevation, leg.line);
  for (auto& p : profile.points) p.at_m /= scale.value_or(1.0);
  const auto on_ground = terrain::profile_of(profile.points);
  const bool on_path = leg.kind == LegKind::along && is_path(leg.along_kind);
  leg.length_m = on_ground.points.back().at_m;
  leg.climb_m = on_ground.ascent_m;
  leg.descent_m = on_ground.descent_m;
  leg.touches_void = on_ground.touches_void;
  leg.minutes =
      leg_minutes(party.model, on_ground, on_path, party.flat_speed_kmh, leg.ground_factor);
  leg.minutes_slow = leg.minutes * (1 + slow_day_z * party.time_band);
  leg.double_paces = leg.length_m / (2 * party.stride_m) *
                     more_paces(leg.ground_factor, (leg.climb_m + leg.descent_m) / leg.length_m);
}

}  // namespace lodeway::walking
