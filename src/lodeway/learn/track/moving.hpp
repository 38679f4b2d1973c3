#pragma once
/// Internal to track: from points with times to moving steps.
#include <span>
#include <vector>

#include "lodeway/learn/track/track.hpp"

namespace lodeway::learn::detail {

/// A timed point, and where it stood in the track.
struct Timed {
  earth::Geographic at;
  double height_m = 0, time_s = 0;
  std::size_t index = 0;
  bool hole_before = false;  ///< nothing was recorded between the last point and this
};

/// On the ellipsoid's two radii at the first place's latitude: 1e-4 of the distance over some
/// kilometres, a hundred times faster than a geodesic.
[[nodiscard]] double apart_m(const earth::Geographic& a, const earth::Geographic& b);

/// Indices [from, to) into the timed points that are no ride. `rides`: how many rides were found.
struct Outing {
  struct Part {
    std::size_t from = 0, to = 0;
  };
  std::vector<Part> walks, rides;
};
[[nodiscard]] std::vector<Outing> part_rides(std::span<const Timed> points,
                                             const TrackRules& rules);

/// A moving step of at least thin_m.
struct Step {
  double length_m = 0, seconds = 0, height_from_m = 0, height_to_m = 0;
  std::size_t from = 0, to = 0;  ///< indices into the track
  bool first = false;            ///< nothing joins it to the step before
};
struct Moving {
  std::vector<Step> steps;
  double standing_s = 0;
  double stops = 0;
  std::size_t hops = 0;
  std::vector<Stretch> standing;
};
void add_moving(std::span<const Timed> walk, const TrackRules& rules, Moving& out);

/// Speeds of 50 m pieces, km/h, in order.
[[nodiscard]] std::vector<double> piece_speeds(std::span<const Step> steps);

/// Pieces of piece_m with what the models say; steps without heights are left out.
[[nodiscard]] std::vector<WalkedPiece> cut_pieces(std::span<const Step> steps,
                                                  const TrackRules& rules);

}  // namespace lodeway::learn::detail
