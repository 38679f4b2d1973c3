#pragma once
/// A piece of a ground: all that lies in a box, so that work on a large ground costs what the piece
/// costs.
#include <algorithm>

#include "lodeway/walking/ground.hpp"

namespace lodeway::walking {

/// Grid metres.
struct Box {
  double west_m = 0, south_m = 0, east_m = 0, north_m = 0;
  void take(earth::GridPoint p) {
    west_m = std::min(west_m, p.east_m), east_m = std::max(east_m, p.east_m);
    south_m = std::min(south_m, p.north_m), north_m = std::max(north_m, p.north_m);
  }
  [[nodiscard]] static Box about(earth::GridPoint p) {
    return {p.east_m, p.north_m, p.east_m, p.north_m};
  }
  [[nodiscard]] static Box of(const terrain::Frame& f) {
    return {f.west_m, f.south_m(), f.east_m(), f.north_m};
  }
  [[nodiscard]] Box wider(double by_m) const {
    return {west_m - by_m, south_m - by_m, east_m + by_m, north_m + by_m};
  }
  [[nodiscard]] bool meets(const Box& other) const {
    return west_m <= other.east_m && other.west_m <= east_m && south_m <= other.north_m &&
           other.south_m <= north_m;
  }
  friend bool operator==(const Box&, const Box&) = default;
};

/// The cells of `whole` that a box touches, as a frame on the same cells; no rows where it touches
/// none.
[[nodiscard]] terrain::Frame cells_of(const terrain::Frame& whole, const Box& box);

/// Metres from a place to the nearest side of a piece beyond which the ground goes on; no limit
/// (1e300) where the piece is the whole, 0 outside of the piece.
[[nodiscard]] double to_cut_m(const terrain::Frame& piece, const terrain::Frame& whole,
                              earth::GridPoint p);

/// The heights in the box, and every feature whose own box meets it, uncut and in the same order.
[[nodiscard]] Ground piece_of(const Ground& ground, const Box& box);

}  // namespace lodeway::walking
