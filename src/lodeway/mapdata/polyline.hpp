#pragma once
/// Places and pieces along a line of points. All distances are grid metres.
#include <algorithm>
#include <cmath>
#include <span>
#include <vector>

#include "lodeway/earth/place.hpp"

namespace lodeway::mapdata {

using earth::GridPoint;
using earth::length_of;

/// Above 0 when b lies to the left of a.
[[nodiscard]] inline double cross(GridPoint a, GridPoint b) {
  return a.east_m * b.north_m - a.north_m * b.east_m;
}
[[nodiscard]] inline double dot(GridPoint a, GridPoint b) {
  return a.east_m * b.east_m + a.north_m * b.north_m;
}

/// The fraction, 0 to 1, of the segment a-b that is nearest to p; 0 when a = b.
[[nodiscard]] inline double nearest_fraction(GridPoint a, GridPoint b, GridPoint p) {
  const auto d = b - a;
  const double squared = dot(d, d);
  return squared > 0 ? std::clamp(dot(p - a, d) / squared, 0.0, 1.0) : 0;
}

/// Distance from the first point to each; as many as points.
[[nodiscard]] std::vector<double> distances_along(std::span<const GridPoint> line);

/// A line that is asked for many places. Refers to the points, which must outlive it; at least one.
class Measured {
 public:
  explicit Measured(std::span<const GridPoint> line) : line_(line), at_(distances_along(line)) {}
  [[nodiscard]] double length_m() const { return at_.back(); }
  [[nodiscard]] std::span<const double> distances() const { return at_; }
  /// Index of the segment that holds a place, the earlier one at a vertex; the place is clamped.
  [[nodiscard]] std::size_t segment(double along_m) const;
  [[nodiscard]] GridPoint at(double along_m) const;
  /// Both ends included; from > to gives the piece the other way round.
  [[nodiscard]] std::vector<GridPoint> piece(double from_m, double to_m) const;

 private:
  std::span<const GridPoint> line_;
  std::vector<double> at_;
};

/// Fewer points: no point of the line, given or between, is further than `most_m` from the result,
/// nor the result from the line; ends stay. Source: Douglas & Peucker 1973, Cartographica
/// 10(2):112-122, with distances to the segment, not to the endless line.
[[nodiscard]] std::vector<GridPoint> simplify(std::span<const GridPoint> line, double most_m);

/// Corner cutting (Chaikin 1974, Computer Graphics and Image Processing 3:346-349), the ends kept.
[[nodiscard]] std::vector<GridPoint> smoothed(std::vector<GridPoint> line, int times);
/// A line of a raster's cells without its steps: two running means, then corners cut; ends kept.
/// No point is further than 1.5 cells from the line given. The same bits on every machine.
[[nodiscard]] std::vector<GridPoint> without_steps(std::vector<GridPoint> line);

/// A sharp bend of a line of points.
struct Bend {
  double along_m = 0;
  GridPoint at;
  double turn_deg = 0;  ///< right positive, within -180 to 180
};
/// Places where a line turns by at least `least_deg` between chords of `reach_m` before and after:
/// vertices where the turn is the largest within `reach_m`. Nearer than `reach_m` to an end nothing
/// is a bend.
[[nodiscard]] std::vector<Bend> sharp_bends(std::span<const GridPoint> line, double reach_m = 30,
                                            double least_deg = 50);

}  // namespace lodeway::mapdata
