// Map tiles: where they lie, that they are pictures, that blocks drawn apart fit together.
#include <cmath>
#include <cstdint>
#include <numeric>

#include <gtest/gtest.h>

#include "lodeway/fells/skarrow.hpp"
#include "lodeway/io/pdf/picture.hpp"
#include "lodeway/io/pdf/text_measure.hpp"
#include "lodeway/sheet/map/map_tile.hpp"
#include "lodeway/tasks/map_tile.hpp"

namespace {

using namespace lodeway;

const walking::Ground& fells() {
  static const auto made = fells::make_skarrow_fells();
  return made;
}

/// Sides from a PNG's header. Source: W3C, PNG (third edition, 2025), section 11.2.1, IHDR.
std::pair<int, int> png_sides(const std::string& png) {
  if (!png.starts_with("\x89PNG\r\n\x1a\n") || png.size() < 24) return {0, 0};
  const auto number = [&](std::size_t at) {
    int out = 0;
    for (std::size_t i = at; i < at + 4; ++i) out = out * 256 + static_cast<unsigned char>(png[i]);
    return out;
  };
  return {number(16), number(20)};
}

TEST(MapTile, PyramidHasOneLevelOfExactlyTheSheetsScale) {
  const auto p = tasks::tile_pyramid(fells().elevation.frame());
  // 1:25 000 at the CSS reference pixel of 1/96 inch: 25000 * 0.0254 / 96 m.
  const double wanted = 25000 * 0.0254 / 96;
  EXPECT_NEAR(p.metres_per_px[p.metres_per_px.size() - 4], wanted, 1e-9);
  for (std::size_t i = 1; i < p.metres_per_px.size(); ++i)
    EXPECT_NEAR(p.metres_per_px[i - 1], 2 * p.metres_per_px[i], 1e-9);
  EXPECT_TRUE(p.holds(0, 0, 0));
  EXPECT_FALSE(p.holds(0, 2, 0));
  EXPECT_FALSE(p.holds(0, -1, 0));
  EXPECT_FALSE(p.holds(-1, 0, 0));
  EXPECT_FALSE(p.holds(static_cast<int>(p.metres_per_px.size()), 0, 0));
}

TEST(MapTile, BlocksArePicturesOfTheRightSizeAndEmptyBeyondTheGround) {
  const auto p = tasks::tile_pyramid(fells().elevation.frame());
  const auto far = tasks::draw_tile_block(fells(), p, 0, 0, 0, {});
  ASSERT_TRUE(far) << far.error().what;
  for (int k = 0; k < 16; ++k) {
    const auto& png = (*far)[static_cast<std::size_t>(k)];
    EXPECT_EQ(png_sides(png), p.holds(0, k % 4, k / 4) ? std::pair(256, 256) : std::pair(0, 0))
        << k;
  }
  const auto fine = tasks::draw_tile_block(fells(), p, 2, 0, 0, {2, true, true});
  ASSERT_TRUE(fine) << fine.error().what;
  EXPECT_EQ(png_sides((*fine)[0]), std::pair(512, 512));
  EXPECT_FALSE(tasks::draw_tile_block(fells(), p, 0, 1, 0, {}));
  EXPECT_FALSE(tasks::draw_tile_block(fells(), p, 2, 2000000000, 2000000000, {}));
}

/// The block at (east, north) of its south-west corner, 120 mm square at 1:25 000.
io::Picture block(double east_m, double north_m) {
  const auto measure = io::make_text_measure();
  sheet::MapFrame f;
  f.at = {0, 0};
  f.page_w = f.page_h = f.w = f.h = 120;
  f.south_west = {east_m, north_m};
  return *io::paint(sheet::draw_map_block(fells(), f, {}, **measure), 96);
}

TEST(MapTile, BlocksDrawnApartFitTogether) {
  // The same strip of ground, once at the right rim of one block and once in the middle of another.
  // Contours, shade, water and surfaces must agree; words may stand only in one of them, marks on a
  // lattice of the page (reeds, leaves) may be shifted: so most pixels, not all.
  const double e = 480000, n = 6050000, m_px = 25000 * 0.0254 / 96;
  const auto left = block(e, n), middle = block(e + 1500, n);
  ASSERT_EQ(left.wide, middle.wide);
  const int shift = static_cast<int>(std::lround(1500 / m_px));
  int all = 0, near = 0;
  for (int y = 0; y < left.high; ++y) {
    for (int x = left.wide - 24; x < left.wide; ++x) {
      const auto* a = &left.rgba[static_cast<std::size_t>(y * left.wide + x) * 4];
      const auto* b = &middle.rgba[static_cast<std::size_t>(y * left.wide + x - shift) * 4];
      ++all;
      near += std::abs(a[0] - b[0]) + std::abs(a[1] - b[1]) + std::abs(a[2] - b[2]) < 120;
    }
  }
  EXPECT_GT(near, 0.9 * all) << near << " of " << all;
}

TEST(MapTile, DarkKeepsWhatStandsOut) {
  io::Picture p{3, 1, {255, 255, 255, 255, 0, 0, 0, 255, 200, 100, 100, 255}};
  io::darken(p);
  EXPECT_LT(p.rgba[0], 30);         // paper is dark
  EXPECT_EQ(p.rgba[4], 255);        // ink is light
  EXPECT_GT(p.rgba[8], p.rgba[9]);  // red stays red
  const auto png = io::png_bytes(p, 1, 0, 2, 1);
  ASSERT_TRUE(png);
  EXPECT_EQ(png_sides(*png), std::pair(2, 1));
  EXPECT_FALSE(io::png_bytes(p, 2, 0, 2, 1));
}

}  // namespace
