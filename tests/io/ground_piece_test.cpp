/// A piece of a ground file is the same piece of the ground, and only that is read.
#include <cmath>

#include <gtest/gtest.h>

#include "lodeway/io/ground_file/ground_file.hpp"
#include "support/support.hpp"

namespace lodeway {
namespace {

/// Wide enough for several tiles of heights; a void; features in, across and out of the box.
walking::Ground ground() {
  walking::Ground g;
  g.name = "wide";
  g.grid = *earth::MapGrid::from_text("EPSG:25832");
  g.elevation = terrain::Elevation({600'000, 5'210'000, 10, 700, 900});
  for (int r = 0; r < 700; ++r) {
    for (int c = 0; c < 900; ++c)
      g.elevation[r, c] = static_cast<float>(r) + 0.001F * static_cast<float>(c);
  }
  g.elevation[305, 420] = std::nanf("");
  g.landforms = terrain::Raster<terrain::Landform>({600'000, 5'210'000, 20, 350, 450});
  for (std::size_t k = 0; k < g.landforms.cells().size(); ++k)
    g.landforms.cells()[k] = static_cast<terrain::Landform>(k % 11);
  for (int k = 0; k < 40; ++k) {
    const double e = 600'000 + 220.0 * k, n = 5'203'100 + 170.0 * k;
    g.map.points.push_back({{mapdata::Kind::hut, "hut " + std::to_string(k)}, {e, n}, 0});
    g.map.lines.push_back(
        {{mapdata::Kind::path, "path " + std::to_string(k)}, {{e, n}, {e + 900, n - 40}}});
    g.map.areas.push_back({{mapdata::Kind::lake, ""}, {{e, n}, {e + 50, n}, {e, n + 50}}, {}});
  }
  return g;
}

bool same(float a, float b) { return a == b || (std::isnan(a) && std::isnan(b)); }

TEST(GroundPiece, IsThatPieceOfTheWhole) {
  const support::TemporaryFolder scratch;
  const auto file = scratch / "g.gpkg";
  ASSERT_TRUE(io::save_ground(ground(), file));
  const auto whole = io::open_ground(file);
  ASSERT_TRUE(whole) << whole.error().what;
  for (const walking::Box box : {walking::Box{602'555, 5'205'111, 606'000, 5'208'000},
                                 walking::Box{590'000, 5'190'000, 601'000, 5'204'000}}) {
    const auto want = walking::piece_of(*whole, box);
    const auto got = io::open_piece(file, box);
    ASSERT_TRUE(got) << got.error().what;
    ASSERT_EQ(got->elevation.frame(), want.elevation.frame());
    ASSERT_FALSE(want.elevation.empty());
    for (std::size_t i = 0; i < want.elevation.cells().size(); ++i)
      ASSERT_TRUE(same(got->elevation.cells()[i], want.elevation.cells()[i])) << i;
    EXPECT_EQ(got->landforms, want.landforms);
    ASSERT_EQ(got->map.points.size(), want.map.points.size());
    ASSERT_EQ(got->map.lines.size(), want.map.lines.size());
    EXPECT_EQ(got->map.areas.size(), want.map.areas.size());
    EXPECT_GT(want.map.lines.size(), 0U);
    EXPECT_LT(want.map.lines.size(), whole->map.lines.size());
    for (std::size_t i = 0; i < want.map.lines.size(); ++i) {
      EXPECT_EQ(got->map.lines[i].label.name, want.map.lines[i].label.name);
      EXPECT_EQ(got->map.lines[i].points, want.map.lines[i].points);
    }
  }
}

TEST(GroundPiece, TheHeadSaysHowLargeTheWholeIs) {
  const support::TemporaryFolder scratch;
  const auto file = scratch / "g.gpkg";
  ASSERT_TRUE(io::save_ground(ground(), file));
  const auto head = io::ground_head(file);
  ASSERT_TRUE(head) << head.error().what;
  EXPECT_EQ(head->name, "wide");
  EXPECT_EQ(head->grid.epsg(), 25832);
  EXPECT_EQ(head->frame, ground().elevation.frame());
}

TEST(GroundPiece, FindsWhatIsCalledSo) {
  const support::TemporaryFolder scratch;
  const auto file = scratch / "g.gpkg";
  auto made = ground();
  made.map.points.push_back({{mapdata::Kind::hut, "hut 7"}, {600'001, 5'209'000}, 0});
  ASSERT_TRUE(io::save_ground(made, file));
  const auto one = io::points_called(file, "hut 8");
  ASSERT_TRUE(one) << one.error().what;
  ASSERT_EQ(one->size(), 1U);
  EXPECT_EQ(one->front(), (earth::GridPoint{601'760, 5'204'460}));
  EXPECT_EQ(io::points_called(file, "hut 7")->size(), 2U);
  EXPECT_TRUE(io::points_called(file, "hut")->empty());
  EXPECT_TRUE(io::points_called(file, "' OR ''='")->empty());
  EXPECT_EQ(io::points_called(scratch / "none.gpkg", "x").error().code, FaultCode::io_failed);
}

TEST(GroundPiece, AFileThatIsNoneIsRefused) {
  const support::TemporaryFolder scratch;
  const auto file = scratch.write("g.gpkg", "no ground");
  EXPECT_FALSE(io::ground_head(file));
  const auto piece = io::open_piece(file, {0, 0, 1, 1});
  ASSERT_FALSE(piece);
  EXPECT_EQ(piece.error().code, FaultCode::bad_input);
}

}  // namespace
}  // namespace lodeway
