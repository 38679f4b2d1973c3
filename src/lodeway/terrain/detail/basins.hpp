#pragma once
/// What drainage and summits share: heights with a rim of voids around them, steepest descent on
/// them, the basins it makes and the lowest passes between the basins.
#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "lodeway/terrain/raster.hpp"

namespace lodeway::terrain::detail {

/// Directions are numbered clockwise from north: 0 N, 1 NE, 2 E ... 7 NW.
inline constexpr std::array<int, 8> down_rows{-1, -1, 0, 1, 1, 1, 0, -1};
inline constexpr std::array<int, 8> down_cols{0, 1, 1, 1, 0, -1, -1, -1};
inline constexpr std::uint8_t no_lower = 8;  ///< no neighbour is strictly lower
inline constexpr std::uint8_t is_void = 9;
inline constexpr std::uint8_t at_rim = 16;  ///< added: beside the edge or a void

/// Heights in an array with one cell of NaN all around, so that neighbours need no bounds check.
struct Padded {
  int rows = 0, cols = 0;
  std::ptrdiff_t stride = 0;
  std::vector<float> z;
  std::array<std::ptrdiff_t, 8> offset{};  ///< to the neighbour in each direction

  /// What is no height becomes NaN. `sign` -1 turns the ground upside down.
  explicit Padded(const Elevation& heights, float sign = 1.0F);
  [[nodiscard]] std::size_t at(int row, int col) const {
    return static_cast<std::size_t>((row + 1) * stride + col + 1);
  }
  [[nodiscard]] int row_of(std::size_t i) const {
    return static_cast<int>(i / static_cast<std::size_t>(stride)) - 1;
  }
  [[nodiscard]] int col_of(std::size_t i) const {
    return static_cast<int>(i % static_cast<std::size_t>(stride)) - 1;
  }
  [[nodiscard]] std::size_t next(std::size_t i, int direction) const {
    return static_cast<std::size_t>(static_cast<std::ptrdiff_t>(i) +
                                    offset[static_cast<std::size_t>(direction)]);
  }
};

/// D8 (O'Callaghan & Mark 1984): the direction of the greatest drop for its length, of equal ones
/// the first clockwise from north; or no_lower, or is_void; at_rim added where it applies. Padded
/// too.
[[nodiscard]] std::vector<std::uint8_t> steepest_descent(const Padded& ground);

/// Where two basins touch lowest: the higher of two neighbouring cells, one in each.
struct Pass {
  std::uint32_t a = 0, b = 0;  ///< basins, a < b
  float height = 0;
  std::uint32_t cell = 0;  ///< padded index of the higher cell
};

struct Basins {
  std::vector<std::uint32_t> label;   ///< of each cell, padded; `none` in voids
  std::vector<std::uint32_t> bottom;  ///< of each basin: its lowest cell; unused for basin 0
  static constexpr std::uint32_t none = 0xffffffffU;
};

/// Follows the descent from every cell. Basin 0 holds what reaches an outlet: a cell at the rim
/// when `rim_is_outlet`, or a cell marked in `outlets` (padded, may be empty).
[[nodiscard]] Basins basins_of(const Padded& ground, std::span<const std::uint8_t> descent,
                               bool rim_is_outlet, std::span<const std::uint8_t> outlets = {});

/// The lowest pass of every touching pair of basins, in no order to rely on. Of equally low places
/// the first in raster order.
[[nodiscard]] std::vector<Pass> lowest_passes(const Padded& ground, const Basins& basins);

}  // namespace lodeway::terrain::detail
