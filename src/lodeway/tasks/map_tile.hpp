#pragma once
/// Map pictures for the page: tiles in the ground's own grid, drawn by the code that draws the
/// paper.
#include <string>
#include <vector>

#include "lodeway/result/result.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::tasks {

/// A pyramid of square tiles. Its origin is the ground's north-west corner; x counts east and y
/// counts south from it. Level 0 is the farthest: the whole ground in at most 2 x 2 tiles.
struct TilePyramid {
  static constexpr int tile_px = 256;   ///< at one dot a pixel
  static constexpr int block_side = 4;  ///< tiles are drawn in blocks of 4 x 4
  earth::GridPoint origin;
  double wide_m = 0, high_m = 0;
  std::vector<double> metres_per_px;  ///< a level each, each half of the one before

  [[nodiscard]] bool holds(int level, int x, int y) const;
};

/// One level is 1:25 000 on a screen of 96 dots an inch; the closest is 1:3125.
[[nodiscard]] TilePyramid tile_pyramid(const terrain::Frame& ground);

struct TileStyle {
  int dots = 1;  ///< 1 or 2 picture dots a pixel
  bool slope = false, dark = false;
  bool names = true;      ///< as sheet::TileLook
  int keep_off_deg = 90;  ///< as sheet::TileLook; whole degrees, so that blocks can be kept
  friend auto operator<=>(const TileStyle&, const TileStyle&) = default;
};

/// The tiles of one block as PNG, row by row, `block_side` squared of them; those beyond the ground
/// are empty texts. `bx`, `by` count blocks. Faults: bad_input (a block beyond the pyramid), those
/// of io::paint.
[[nodiscard]] Result<std::vector<std::string>> draw_tile_block(const walking::Ground& ground,
                                                               const TilePyramid& pyramid,
                                                               int level, int bx, int by,
                                                               const TileStyle& style);

}  // namespace lodeway::tasks
