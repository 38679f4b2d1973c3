#pragma once
/// Ends of legs: a line of the map, as it really runs. Rays from the start are cut with it, and the
/// error of the walked direction is integrated over the rays. Angles: radians, clockwise from grid
/// north.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <limits>
#include <span>
#include <vector>

#include "lodeway/earth/place.hpp"

namespace lodeway::reckoning {

/// Where a straight walk in one direction first meets the line.
struct Ray {
  double angle = 0;    ///< grid bearing, not wrapped: it grows through the fan
  double along_m = 0;  ///< on the line, from its first point; NaN when it is not met within reach
  double distance_m = 0;  ///< from the start to there
};

/// A straight piece of a line.
struct LinePiece {
  earth::GridPoint a, b;
  double along_m = 0;   ///< of a, from the line's first point
  double length_m = 0;  ///< above 0
};
/// Those with a part in the square `reach_m` to each side of a place, in their order.
[[nodiscard]] std::vector<LinePiece> pieces_within(std::span<const earth::GridPoint> line,
                                                   earth::GridPoint about, double reach_m);

/// Many directions from one place, within `half_width` (at most 1.5) of `toward`.
class LineCaster {
 public:
  /// Nearer than `leaving_m` (0.01 m at least) the line is not met.
  LineCaster(earth::GridPoint from, double toward, double half_width,
             std::span<const LinePiece> line, double reach_m, double leaving_m = 0);
  /// One ray; distance_m = reach_m and along_m NaN when the line is not met. A direction over 1.5
  /// radians off `toward` meets nothing.
  [[nodiscard]] Ray cast(double angle) const;

 private:
  /// Seen from the start, turned so that `toward` is north.
  struct Piece {
    earth::GridPoint a, d;
    double along, length;
  };
  [[nodiscard]] std::uint32_t sector(double turn) const;
  std::vector<Piece> pieces_;
  // by sector the pieces seen there, in their order; empty where pieces are few
  std::vector<std::uint32_t> start_, seen_;
  double toward_, reach_, leaving_, widest_turn_;
};

/// How the cross error of a walk from a place grows with the distance, as variances.
struct CrossGrowth {
  double angle2 = 0;    ///< of the direction, radians squared
  double wander_m = 0;  ///< for each metre walked
  double start_m2 = 0;
  /// The standard cross error of a walker who meets the line at `d` on a ray `turn` off the aim.
  [[nodiscard]] double sigmas(double turn, double d) const {
    return turn * d / std::sqrt(std::max(start_m2 + d * (wander_m + d * angle2), 1e-18));
  }
};

/// Chances at the line for one aim and one error of direction.
struct Meeting {
  double ahead = 0;   ///< met, and farther along the line than the target's window
  double within = 0;  ///< met within the window about the target
  double before = 0;  ///< met before the window
  double missed = 0;  ///< never met: passed its ends, or given up before; the four sum to 1
  double ahead_m = 0, before_m = 0;  ///< mean distance to the target along the line, of these
  /// Of `ahead` and `before` those met more than `search_m` beyond the window.
  double ahead_far = 0, before_far = 0;
};

/// How fine a fan is: the rays it begins with, and how straight in angle the line is between those
/// it ends with.
struct FanRule {
  int rays = 64;
  double straight_m = 0.5;
};

/// All that rays from one place find on one line: made once, asked for many aims.
class Fan {
 public:
  /// Rays within `half_width` (at most 1.5) of `toward`, up to `reach_m` long. Where neighbouring
  /// rays meet the line in different pieces the break is narrowed to 1e-6 radians. Nearer than
  /// `leaving_m` (0.01 m at least) the line is not met: it may be left there.
  Fan(earth::GridPoint from, double toward, double half_width, std::span<const LinePiece> line,
      double reach_m, double leaving_m = 0, FanRule rule = {});
  Fan(earth::GridPoint from, double toward, double half_width,
      std::span<const earth::GridPoint> line, double reach_m, double leaving_m = 0)
      : Fan(from, toward, half_width, pieces_within(line, from, reach_m), reach_m, leaving_m) {}

  /// A walker whose place beside the aim grows as `cross` says and who gives up at a distance that
  /// is normal about `gives_up_m` with `give_up_sigma_m`. The window is target +- `window_m` along
  /// the line; `search_m`: so far beyond the window a party follows the line. Where only the
  /// direction is wrong: exact for pieces straight in angle; accuracy about 1e-3 with the default
  /// number of rays.
  [[nodiscard]] Meeting meet(double aim, const CrossGrowth& cross, double target_along_m,
                             double window_m, double gives_up_m, double give_up_sigma_m,
                             double search_m = std::numeric_limits<double>::infinity()) const {
    return meet(aim, turns_in_sigmas(cross), target_along_m, window_m, gives_up_m, give_up_sigma_m,
                search_m);
  }
  /// The same for many aims: what of `cross` is the same for all of them, worked out once.
  [[nodiscard]] std::vector<double> turns_in_sigmas(const CrossGrowth& cross) const;
  [[nodiscard]] Meeting meet(double aim, std::span<const double> turns_in_sigmas,
                             double target_along_m, double window_m, double gives_up_m,
                             double give_up_sigma_m,
                             double search_m = std::numeric_limits<double>::infinity()) const;
  [[nodiscard]] std::span<const Ray> rays() const { return rays_; }

 private:
  std::vector<Ray> rays_;
};

}  // namespace lodeway::reckoning
