#pragma once
/// The nearest place of each of many edges round a place: all of them, where the nearest few will
/// not do. Not for use outside route.
#include <cstdint>
#include <span>
#include <vector>

#include "lodeway/mapdata/network.hpp"

namespace lodeway::route {

class EdgesAround {
 public:
  EdgesAround() = default;
  /// Of these edges, ascending; `cell_m`: about the radius that will be asked for. What it needs of
  /// the edges is copied.
  EdgesAround(std::span<const mapdata::NetworkEdge> all, std::vector<std::uint32_t> of,
              double cell_m);

  /// The nearest place of each edge within `radius_m`, in no order that means anything; of two as
  /// near the earlier on the edge.
  [[nodiscard]] std::vector<mapdata::OnNetwork> near(earth::GridPoint p, double radius_m) const;

 private:
  struct Edge {
    std::uint32_t id = 0, first = 0, last = 0;  ///< points
    double west_m = 0, south_m = 0, east_m = 0, north_m = 0;
    int col = 0, row = 0;  ///< the first cell that lists it
  };
  [[nodiscard]] int col_of(double east_m) const;
  [[nodiscard]] int row_of(double north_m) const;

  std::vector<Edge> edges_;
  std::vector<earth::GridPoint> points_;
  std::vector<double> along_m_;  ///< of each point, from its edge's first
  double west_m_ = 0, south_m_ = 0, cell_m_ = 1;
  int cols_ = 0, rows_ = 0;
  std::vector<std::uint32_t> start_, items_;  ///< edges whose box touches the cell, by cell
};

}  // namespace lodeway::route
