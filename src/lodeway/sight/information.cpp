#include "lodeway/sight/information.hpp"

#include <algorithm>
#include <cmath>

#include "lodeway/sight/detail/densities.hpp"

namespace lodeway::sight {

namespace {
using numeric::Covariance;

/// w v v^T
Covariance outer(double east, double north, double w) {
  return {w * east * east, w * east * north, w * north * north};
}

/// Gradient per metre of something known at cells, by differences over `arm` cells each side.
template <class Difference>
bool gradient_of(const CuePlanes& p, int row, int col, int arm, Difference&& difference,
                 double& east, double& north) {
  const auto ok = [&](int r, int c) { return p.frame.holds(r, c) && p.known(p.index(r, c)); };
  if (!ok(row, col - arm) || !ok(row, col + arm) || !ok(row - arm, col) || !ok(row + arm, col))
    return false;
  const double run = 2 * arm * p.frame.cell_m;
  east = difference(p.index(row, col - arm), p.index(row, col + arm)) / run;
  north = difference(p.index(row + arm, col), p.index(row - arm, col)) / run;
  return true;
}

Covariance of_heights(const CuePlanes& p, int row, int col, const Look& look,
                      const Perception& perception) {
  double east = 0, north = 0;
  if (!gradient_of(
          p, row, col, std::max(1, static_cast<int>(std::lround(20 / p.frame.cell_m))),
          [&](std::size_t a, std::size_t b) { return p.height_m(b) - p.height_m(a); }, east, north))
    return {};
  const double skill = perception.sigma.height_m / CueSigmas{}.height_m;
  const double own = look.altimeter ? 12 : std::hypot(20, 0.2 * look.since_known_height_m) * skill;
  const double sigma2 = own * own + p.height_sd_m * p.height_sd_m;
  const double fresh = std::min(1.0, look.since_look_m / (look.altimeter ? 300 : 150));
  return outer(east, north, fresh / sigma2);
}

Covariance of_slopes(const CuePlanes& p, int row, int col, const Look& look,
                     const Perception& perception, mapdata::Visibility visibility) {
  const int arm = std::max(1, static_cast<int>(std::lround(30 / p.frame.cell_m)));
  const double fresh = 0.6 * std::min(1.0, look.since_look_m / 150);
  const detail::Model m{p, perception, visibility};
  Covariance out;
  double east = 0, north = 0;
  const double slope = p.slope_deg(p.index(row, col));
  if (gradient_of(
          p, row, col, arm,
          [&](std::size_t a, std::size_t b) { return p.slope_deg(b) - p.slope_deg(a); }, east,
          north)) {
    const double s = detail::steepness_sigma(m);
    out += outer(east, north, fresh / (s * s));
  }
  if (slope >= 5 && gradient_of(
                        p, row, col, arm,
                        [&](std::size_t a, std::size_t b) {
                          return std::remainder(p.fall_deg(b) - p.fall_deg(a), 360);
                        },
                        east, north)) {
    constexpr double most = 0.02 * detail::degrees;  // for each metre
    const double size = std::hypot(east, north), cut = size > most ? most / size : 1;
    const double s = detail::fall_sigma(m, slope);
    out += outer(cut * east, cut * north, fresh / (s * s));
  }
  return out;
}

Covariance of_lines(const CuePlanes& p, std::size_t cell, const Look& look,
                    mapdata::Visibility visibility) {
  Covariance out;
  const auto cols = static_cast<std::size_t>(p.frame.cols);
  const int row = static_cast<int>(cell / cols), col = static_cast<int>(cell % cols);
  for (const auto& plane : p.near) {
    if (!plane.line) continue;
    const auto near = nearest_of(plane, cell);
    if (!near || near->distance_m > 40) continue;
    const double lie = near->lie_deg / detail::degrees;
    const double known = p.kinds[plane.kind].recognised[static_cast<std::size_t>(visibility)];
    // another such line within two sigma across this one: which of them is it?
    const double across_east = std::cos(lie), across_north = -std::sin(lie);
    double like = 0;
    for (const double side : {-1.0, 1.0}) {
      bool left = false;
      for (double d = 60; d <= std::max(2 * look.spread_m, 60.0); d += p.frame.cell_m) {
        const int r = row - static_cast<int>(std::lround(side * d * across_north / p.frame.cell_m));
        const int c = col + static_cast<int>(std::lround(side * d * across_east / p.frame.cell_m));
        if (!p.frame.holds(r, c)) break;
        const std::uint8_t away = plane.distance[p.index(r, c)];
        const bool on =
            away != CuePlanes::far && CuePlanes::distance_step_m * away <= 0.75 * p.frame.cell_m;
        if (on && left) {
          like += 1;
          left = false;
        }
        if (!on) left = true;
      }
    }
    out += outer(across_east, across_north, known / (18.0 * 18.0) / (1 + like));
  }
  return out;
}

Covariance of_things(const CuePlanes& p, std::size_t cell, const Look& look,
                     const Perception& perception, mapdata::Visibility visibility) {
  struct Use {
    double sigma_m, bearing_deg, chance;
  };
  std::vector<Use> uses;
  const auto cols = static_cast<std::size_t>(p.frame.cols);
  const auto at = p.frame.centre(static_cast<int>(cell / cols), static_cast<int>(cell % cols));
  for (std::size_t t = 0; t < p.things.size(); ++t) {
    if (p.things[t].name.empty() || p.views[t].empty()) continue;
    const double r = earth::grid_distance_m(at, p.things[t].at);
    if (r < 100) continue;
    const auto view = detail::view_of(p, cell, t, perception, visibility);
    const double known = p.kinds[p.things[t].kind].recognised[static_cast<std::size_t>(visibility)];
    if (view.chance > 0.1)
      uses.push_back({r * std::tan(std::min(view.sigma_deg, 60.0) / detail::degrees),
                      view.bearing_deg,
                      view.chance / std::max(perception.attention, 0.01) * known});
  }
  std::ranges::sort(uses, {}, &Use::sigma_m);
  Covariance out;
  for (std::size_t k = 0; k < std::min<std::size_t>(2, uses.size()); ++k) {
    const double b = uses[k].bearing_deg / detail::degrees;
    out += outer(std::cos(b), -std::sin(b),
                 uses[k].chance * std::min(1.0, look.since_look_m / 150) /
                     (uses[k].sigma_m * uses[k].sigma_m));
  }
  return out;
}
}  // namespace

Covariance information(const CuePlanes& planes, earth::GridPoint place, const Look& look,
                       const Perception& perception, mapdata::Visibility visibility) {
  const auto cell = planes.cell(place);
  if (!cell) return {};
  const auto cols = static_cast<std::size_t>(planes.frame.cols);
  const int row = static_cast<int>(*cell / cols), col = static_cast<int>(*cell % cols);
  return of_heights(planes, row, col, look, perception) +
         of_slopes(planes, row, col, look, perception, visibility) +
         of_lines(planes, *cell, look, visibility) +
         of_things(planes, *cell, look, perception, visibility);
}

Covariance informed(const Covariance& p, const Covariance& j) {
  const double det = p.xx * p.yy - p.xy * p.xy;
  const Covariance inverse{p.yy / det + j.xx, -p.xy / det + j.xy, p.xx / det + j.yy};
  const double d = inverse.xx * inverse.yy - inverse.xy * inverse.xy;
  return {inverse.yy / d, -inverse.xy / d, inverse.xx / d};
}

}  // namespace lodeway::sight
