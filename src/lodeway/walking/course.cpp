#include "lodeway/walking/course.hpp"

#include <algorithm>
#include <array>
#include <cassert>

#include "lodeway/terrain/profile.hpp"
#include "lodeway/units/text.hpp"
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

Figures figures_of(const Course& course, const Ground& ground, const Party& party) {
  assert(course.line.size() >= 2 && course.ground_factor > 0);
  const auto& start = course.line.front();
  const auto& end = course.line.back();
  Figures out;
  out.bearing = earth::grid_bearing(start, end);
  const auto scale = ground.grid.scale(start + 0.5 * (end - start), out.bearing);
  auto profile = terrain::profile(ground.elevation, course.line);
  for (auto& p : profile.points) p.at_m /= scale.value_or(1.0);
  const auto on_ground = terrain::profile_of(profile.points);
  const bool on_path = course.kind == LegKind::along && is_path(course.followed.kind);
  out.length_m = on_ground.points.back().at_m;
  out.climb_m = on_ground.ascent_m;
  out.descent_m = on_ground.descent_m;
  out.touches_void = on_ground.touches_void;
  const auto bands = bands_of(party);
  out.minutes = bands.centre * leg_minutes(party.model, on_ground, on_path, party.flat_speed_kmh,
                                           course.ground_factor);
  out.minutes_slow = nine_in_ten_minutes(std::array{out.minutes}, bands);
  out.double_paces = units::double_paces(out.length_m, party.stride_m) *
                     more_paces(course.ground_factor, (out.climb_m + out.descent_m) / out.length_m);
  return out;
}

}  // namespace lodeway::walking
