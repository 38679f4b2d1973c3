// A place in every form in which people write it.
#include <cmath>

#include <fmt/format.h>

#include "apps/server/routes/say.hpp"
#include "lodeway/earth/place_text.hpp"
#include "lodeway/terrain/slope.hpp"

namespace lodeway::server {

namespace {

constexpr double near_m = 60;

/// The name of the nearest named thing of the map within `near_m`, or what a nameless point is.
std::string near_name(const walking::Ground& ground, earth::GridPoint at) {
  std::string best;
  double least = near_m;
  for (const auto& p : ground.map.points) {
    const double d = std::hypot(p.at.east_m - at.east_m, p.at.north_m - at.north_m);
    if (d > least || p.label.name.empty()) continue;
    least = d;
    best = p.label.name;
  }
  return best;
}

}  // namespace

Result<Json> place_json(const walking::Ground& ground, earth::GridPoint at) {
  const auto geographic = ground.grid.to_geographic(at);
  if (!geographic) return std::unexpected(geographic.error());
  const auto mgrs = earth::mgrs(*geographic);
  const double height = terrain::height_at(ground.elevation, at);
  const double slope = terrain::slope_deg_at(ground.elevation, at);
  const auto finite = [](double v) { return std::isfinite(v) ? Json(v) : Json(); };
  return Json{{"at_grid_m", point_json(at)},
              {"inside", ground.elevation.frame().contains(at)},
              {"easting_northing", fmt::format("{:.0f} {:.0f}", at.east_m, at.north_m)},
              {"mgrs", mgrs ? *mgrs : std::string()},
              {"latitude_deg", geographic->lat_deg},
              {"longitude_deg", geographic->lon_deg},
              {"latitude_longitude",
               fmt::format("{:.5f} {:.5f}", geographic->lat_deg, geographic->lon_deg)},
              {"grid_reference", earth::six_figure_reference(at)},
              {"height_m", finite(height)},
              {"slope_deg", finite(slope)},
              {"near", text_or_null(near_name(ground, at))}};
}

}  // namespace lodeway::server
