#pragma once
/// The chance to set foot on ground that must not be trodden. Method: docs/method/hazard.md
#include <cstdint>
#include <span>

#include "lodeway/reckoning/growth/growth.hpp"
#include "lodeway/terrain/raster.hpp"

namespace lodeway::reckoning {

/// 1 where no one may set foot, 0 elsewhere; the same frame as the elevation.
using Forbidden = terrain::Raster<std::uint8_t>;

/// Forbidden cells, and how far off the nearest is.
class HazardGround {
 public:
  HazardGround() = default;
  /// 1.4 million cells take some 5 ms.
  explicit HazardGround(Forbidden cells);
  [[nodiscard]] const Forbidden& cells() const { return cells_; }
  [[nodiscard]] bool any() const { return any_; }
  /// Nobody within this distance of p treads a forbidden cell; below 0: p is on one. Outside of
  /// the raster nothing is forbidden. At most 8 % and one and a half cells too small; never more
  /// than 2400 cells.
  [[nodiscard]] double clear_m(earth::GridPoint p) const {
    const auto& f = cells_.frame();
    const double row = (f.north_m - p.north_m) * per_cell_, col = (p.east_m - f.west_m) * per_cell_;
    if (any_ && row >= 0 && col >= 0 && row < f.rows && col < f.cols)
      return unit_m_ * away_[static_cast<int>(row), static_cast<int>(col)];
    return clear_outside_m(p);
  }

 private:
  [[nodiscard]] double clear_outside_m(earth::GridPoint p) const;
  Forbidden cells_;
  terrain::Raster<std::int16_t> away_;  // from the cell's rim, in units; -1 on forbidden ground
  double per_cell_ = 0, unit_m_ = 0;
  bool any_ = false;
};

struct Walk {
  earth::GridPoint from;
  units::GridBearing bearing;
  double length_m = 0;  ///< reckoned
  LegGrowth growth;
  double beyond_m = 0;    ///< walked on past the reckoned end by those who have not found it
  earth::GridPoint mark;  ///< what is looked out for
  double seen_from_m = 0, known = 0;  ///< who comes in sight of the mark stops, if it knows it
  std::span<const earth::GridPoint> line = {};  ///< who meets the line stops, if it knows it
  double line_known = 0, leaving_m = 0;         ///< a line left at the start is not met so near
};

/// How fine: `tracks` starts and shapes of the walk, each with `rays` directions.
struct HazardRule {
  int tracks = 32, rays = 20;
};

/// Chance that the walk treads a forbidden cell before it ends, for a party that does not look up:
/// integrated over the direction (exactly normal, out to four sigmas, the rays of one pair of
/// tracks between those of the others and as one where they are within half a cell), over starts,
/// counts and wandering by the points of a lattice in mirrored pairs. Accuracy 0.02 absolute,
/// against plain walkers (tests/reckoning/hazard_test.cpp). 0 at once where nothing forbidden is
/// within five sigmas; else some 0.05 ms.
[[nodiscard]] double hazard_probability(const HazardGround& ground, const Walk& walk,
                                        HazardRule rule = {});

}  // namespace lodeway::reckoning
