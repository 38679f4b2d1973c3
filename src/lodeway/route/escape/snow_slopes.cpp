#include "lodeway/route/escape/snow_slopes.hpp"

#include <algorithm>
#include <cmath>

namespace lodeway::route {

namespace {
bool snow_slope(float degrees) { return degrees >= least_snow_slope && degrees <= most_snow_slope; }
}  // namespace

bool over_snow_slope(const terrain::Raster<float>& slopes, const std::vector<walking::Leg>& legs) {
  const auto& f = slopes.frame();
  for (const auto& leg : legs) {
    const auto& line = leg.course.line;
    for (std::size_t i = 1; i < line.size(); ++i) {
      const double piece = earth::grid_distance_m(line[i - 1], line[i]);
      const int steps = std::max(1, static_cast<int>(std::ceil(2 * piece / f.cell_m)));
      for (int k = 0; k <= steps; ++k) {
        const auto p = line[i - 1] + (static_cast<double>(k) / steps) * (line[i] - line[i - 1]);
        const auto [r, c] = f.cell_of(p);
        if (f.holds(r, c) && snow_slope(slopes[r, c])) return true;
      }
    }
  }
  return false;
}

Field off_snow_slopes(const Prepared& p, const terrain::Raster<float>& slopes,
                      const std::vector<Seed>& seeds) {
  auto cost = p.cost;
  auto lines = p.paths.graph;
  const auto& f = cost.frame;
  for (int r = 0; r < f.rows; ++r) {
    for (int c = 0; c < f.cols; ++c)
      if (snow_slope(slopes[r, c])) cost.slowness[cost.index(r, c)] = barred_slowness;
  }
  const auto steep = [&](std::uint32_t id) {
    const auto [r, c] = f.cell_of(place_of_node(p, id));
    return f.holds(r, c) && snow_slope(slopes[r, c]);
  };
  for (std::uint32_t k = 0; k < lines.at.size(); ++k) {
    const bool from = steep(lines.first + k);
    for (auto e = lines.start[k]; e < lines.start[k + 1]; ++e) {
      if (from || steep(lines.edges[e].to))
        lines.edges[e].there_s = lines.edges[e].back_s = unreached_s;
    }
  }
  return solve_field(cost, p.pace, &lines, seeds, Direction::to_seeds);
}

}  // namespace lodeway::route
