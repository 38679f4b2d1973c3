#pragma once
/// A grid of values over the ground.
/// Shape: row 0 is the NORTHERN edge, column 0 the western; `grid[row, col]`, values at cell
/// CENTRES; square cells in metres of the ground's grid; for heights a void is NaN.
#include <cassert>
#include <cmath>
#include <cstddef>
#include <span>
#include <utility>
#include <vector>

#include "lodeway/earth/place.hpp"

namespace lodeway::terrain {

/// Where a raster lies. west_m and north_m are the OUTER corner of cell [0, 0], not its centre.
struct Frame {
  double west_m = 0, north_m = 0, cell_m = 1;
  int rows = 0, cols = 0;

  [[nodiscard]] double east_m() const { return west_m + cell_m * cols; }
  [[nodiscard]] double south_m() const { return north_m - cell_m * rows; }
  [[nodiscard]] std::size_t size() const {
    return static_cast<std::size_t>(rows) * static_cast<std::size_t>(cols);
  }
  [[nodiscard]] earth::GridPoint centre(int row, int col) const {
    return {west_m + cell_m * (col + 0.5), north_m - cell_m * (row + 0.5)};
  }
  /// Fractional row and column, 0 at the centre of the first cell.
  [[nodiscard]] double row_of(earth::GridPoint p) const {
    return (north_m - p.north_m) / cell_m - 0.5;
  }
  [[nodiscard]] double col_of(earth::GridPoint p) const {
    return (p.east_m - west_m) / cell_m - 0.5;
  }
  /// The cell that holds a place; only meaningful where `contains` is true.
  [[nodiscard]] std::pair<int, int> cell_of(earth::GridPoint p) const {
    return {static_cast<int>(std::floor((north_m - p.north_m) / cell_m)),
            static_cast<int>(std::floor((p.east_m - west_m) / cell_m))};
  }
  [[nodiscard]] bool contains(earth::GridPoint p) const {
    return p.east_m >= west_m && p.east_m < east_m() && p.north_m > south_m() &&
           p.north_m <= north_m;
  }
  [[nodiscard]] bool holds(int row, int col) const {
    return row >= 0 && col >= 0 && row < rows && col < cols;
  }
  friend bool operator==(const Frame&, const Frame&) = default;
};

template <class T>
class Raster {
 public:
  Raster() = default;
  explicit Raster(Frame frame, T fill = T{}) : frame_(frame), cells_(frame.size(), fill) {}

  [[nodiscard]] const Frame& frame() const { return frame_; }
  [[nodiscard]] int rows() const { return frame_.rows; }
  [[nodiscard]] int cols() const { return frame_.cols; }
  [[nodiscard]] bool empty() const { return cells_.empty(); }
  [[nodiscard]] T& operator[](int row, int col) { return cells_[index(row, col)]; }
  [[nodiscard]] const T& operator[](int row, int col) const { return cells_[index(row, col)]; }
  [[nodiscard]] std::span<T> row(int r) {
    return {cells_.data() + index(r, 0), static_cast<std::size_t>(frame_.cols)};
  }
  [[nodiscard]] std::span<const T> row(int r) const {
    return {cells_.data() + index(r, 0), static_cast<std::size_t>(frame_.cols)};
  }
  [[nodiscard]] std::span<T> cells() { return cells_; }
  [[nodiscard]] std::span<const T> cells() const { return cells_; }
  friend bool operator==(const Raster&, const Raster&) = default;

 private:
  [[nodiscard]] std::size_t index(int r, int c) const {
    assert(frame_.holds(r, c));
    return static_cast<std::size_t>(r) * static_cast<std::size_t>(frame_.cols) +
           static_cast<std::size_t>(c);
  }
  Frame frame_;
  std::vector<T> cells_;
};

/// Heights above mean sea level, metres; NaN where nothing is known.
using Elevation = Raster<float>;

/// A figure of 1000 km or more is no height but a mistake; what analyses terrain takes it, like NaN
/// and the infinities, for a void. (Sums of smaller ones cannot overflow.)
inline constexpr float no_height = 1e6F;
[[nodiscard]] inline bool is_height(float z) { return std::abs(z) < no_height; }

/// Height at a place by bilinear interpolation of the four nearest centres, metres; NaN outside or
/// where one of the four is void. Within half a cell of the edge the edge cell's value is used.
[[nodiscard]] double height_at(const Elevation& heights, earth::GridPoint p);

}  // namespace lodeway::terrain
