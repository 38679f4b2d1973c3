#include "lodeway/terrain/profile.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

namespace lodeway::terrain {

Profile profile_of(std::vector<ProfilePoint> points) {
  Profile out;
  for (std::size_t i = 1; i < points.size(); ++i) {
    const double rise = points[i].height_m - points[i - 1].height_m;
    const double run = points[i].at_m - points[i - 1].at_m;
    if (!std::isfinite(rise)) {
      out.touches_void = true;
      continue;
    }
    (rise > 0 ? out.ascent_m : out.descent_m) += std::abs(rise);
    out.along_slope_m += std::hypot(run, rise);
  }
  out.points = std::move(points);
  return out;
}

Profile profile(const Elevation& heights, const std::vector<earth::GridPoint>& line) {
  std::vector<ProfilePoint> points;
  double at = 0;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (i > 0) {
      const double length = earth::grid_distance_m(line[i - 1], line[i]);
      const double cells = std::ceil(length / heights.frame().cell_m);
      // Written so that NaN gives 1.
      const int steps = cells > 1 ? static_cast<int>(std::min(cells, 1e6)) : 1;
      for (int k = 1; k < steps; ++k) {
        const double t = static_cast<double>(k) / steps;
        points.push_back(
            {at + t * length, height_at(heights, line[i - 1] + t * (line[i] - line[i - 1]))});
      }
      at += length;
    }
    points.push_back({at, height_at(heights, line[i])});
  }
  return profile_of(std::move(points));
}

}  // namespace lodeway::terrain
