#pragma once
/// The plain densities behind likelihood.hpp and perceive: no mixture, no temper.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "lodeway/sight/likelihood.hpp"

namespace lodeway::sight::detail {

inline constexpr double degrees = 180 / std::numbers::pi;

struct Model {
  const CuePlanes& planes;
  const Perception& perception;
  mapdata::Visibility visibility;
};

[[nodiscard]] inline bool is_ground_cue(Cue cue) {
  return cue == Cue::height || cue == Cue::fall || cue == Cue::steepness || cue == Cue::landform;
}

[[nodiscard]] inline double normal_density_of(double z, double sigma) {
  const double u = z / sigma;
  return std::exp(-0.5 * u * u) / (sigma * std::sqrt(2 * std::numbers::pi));
}
/// Of an angle off by `off` degrees, on a circle of `turn` degrees: the two nearest laps beside the
/// first are enough below a sigma of a third of the turn; above, it is as good as flat. Below a
/// tenth the farther of the two is under e^-50 of the top and left out.
[[nodiscard]] inline double wrapped_density(double off, double sigma, double turn) {
  if (sigma > turn / 3) return 1 / turn;
  const double d = std::abs(off - turn * std::nearbyint(off / turn));
  const double one = normal_density_of(d, sigma);
  if (turn - d > 30 * sigma) return one;  // e^-450: the library takes ten times as long to say 0
  const double two = one + normal_density_of(turn - d, sigma);
  return sigma > turn / 10 ? two + normal_density_of(d + turn, sigma) : two;
}

[[nodiscard]] double height_sigma(const Model& m, const Report& r);
[[nodiscard]] double fall_sigma(const Model& m, double slope_deg);
[[nodiscard]] double steepness_sigma(const Model& m);
/// Chances of the answers about a kind: underfoot; and of those who do not say so, in sight beside.
struct LineTold {
  double on = 0, beside = 0;
};
[[nodiscard]] double on_line_told(const Model& m, mapdata::Kind kind,
                                  const std::optional<Nearest>& nearest);
[[nodiscard]] LineTold line_told(const Model& m, mapdata::Kind kind,
                                 const std::optional<Nearest>& nearest);
/// Chance that "at one" is said at a distance from a point of a kind, and that one in sight is
/// told.
[[nodiscard]] double point_told(const Model& m, mapdata::Kind kind,
                                const std::optional<Nearest>& nearest);

[[nodiscard]] Facts::InView view_of(const CuePlanes& planes, std::size_t cell, std::size_t thing,
                                    const Perception& perception, mapdata::Visibility visibility);

/// What of a view hangs on the distance alone: the share that the air lets through, and the spread
/// of a bearing.
struct ByRange {
  double air = 0, sigma_deg = 0;
};
[[nodiscard]] ByRange by_range(const CuePlanes& planes, const Thing& thing, double range_m,
                               const Perception& perception, mapdata::Visibility visibility);
/// East and north from a cell's middle to a thing, metres.
[[nodiscard]] inline earth::GridPoint from_cell(const CuePlanes& planes, std::size_t cell,
                                                std::size_t thing) {
  const auto cols = static_cast<std::size_t>(planes.frame.cols);
  return planes.things[thing].at -
         planes.frame.centre(static_cast<int>(cell / cols), static_cast<int>(cell % cols));
}
/// view_of, with the way `to` the thing, its length and what hangs on that given. `with_bearing`
/// false: the bearing is left out.
[[nodiscard]] Facts::InView view_from(const CuePlanes& planes, std::size_t cell, std::size_t thing,
                                      earth::GridPoint to, double range_m, const ByRange& by,
                                      const Perception& perception, bool with_bearing);

[[nodiscard]] double density(const Model& m, const Facts& f, const Report& r);
/// What a telling that means nothing is drawn from.
[[nodiscard]] double nonsense(const Model& m, const Report& r);
/// Mixture for a telling of one thing in view.
[[nodiscard]] double of_view(const Model& m, const Facts::InView& view, const Report& r);

}  // namespace lodeway::sight::detail
