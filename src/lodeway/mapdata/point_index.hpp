#pragma once
/// Finds the places of a list near a place, fast.
#include <cstdint>
#include <span>
#include <vector>

#include "lodeway/earth/place.hpp"

namespace lodeway::mapdata {

/// Holds a copy of the places, sorted by northing in strips. Asked for by any thread.
class PointIndex {
 public:
  PointIndex() = default;
  explicit PointIndex(std::vector<earth::GridPoint> points);
  /// Indices of all within `radius_m` (that distance itself included), ascending.
  [[nodiscard]] std::vector<std::uint32_t> near(earth::GridPoint p, double radius_m) const;
  /// The same in no order, sooner.
  [[nodiscard]] std::vector<std::uint32_t> near_unsorted(earth::GridPoint p, double radius_m) const;
  /// Indices of all within `radius_m` of the line, ascending. The line needs a point.
  [[nodiscard]] std::vector<std::uint32_t> near_line(std::span<const earth::GridPoint> line,
                                                     double radius_m) const;

 private:
  template <class Use>
  void visit_box(earth::GridPoint low, earth::GridPoint high, Use&& use) const;
  std::vector<earth::GridPoint> points_;
  std::vector<std::uint32_t> order_;  // by strip, then easting
  std::vector<std::uint32_t> start_;  // of each strip in order_
  double south_ = 0, strip_m_ = 1;
};

}  // namespace lodeway::mapdata
