// Edges of areas: a border that two of them share is no edge.
#include <gtest/gtest.h>

#include "lodeway/mapdata/area_edges.hpp"

namespace {

using namespace lodeway::mapdata;

AreaFeature box(Kind kind, double w, double s, double e, double n) {
  return {{kind, ""}, {{w, s}, {e, s}, {e, n}, {w, n}}, {}};
}
double sum(const std::vector<LineFeature>& lines) {
  double m = 0;
  for (const auto& l : lines) m += length_m(l.points);
  return m;
}
constexpr Limits wide{-1000, -1000, 1000, 1000};

TEST(AreaEdges, one_area_is_one_closed_line) {
  auto a = box(Kind::wood, 0, 0, 10, 20);
  a.holes = {{{2, 2}, {2, 4}, {4, 4}, {4, 2}}};
  const auto edges =
      area_edges(std::vector{a, box(Kind::lake, 50, 0, 60, 10)}, Kind::wood, Kind::wood_edge, wide);
  ASSERT_EQ(edges.size(), 2U);
  EXPECT_EQ(edges[0].points.front(), edges[0].points.back());
  EXPECT_EQ(edges[0].label.kind, Kind::wood_edge);
  EXPECT_DOUBLE_EQ(sum(edges), 60 + 8);
}

TEST(AreaEdges, a_shared_border_is_no_edge) {
  const auto edges =
      area_edges(std::vector{box(Kind::wood, 0, 0, 10, 10), box(Kind::wood, 10, 0, 20, 10)},
                 Kind::wood, Kind::wood_edge, wide);
  EXPECT_DOUBLE_EQ(sum(edges), 60);  // the outline of both: 2 * (20 + 10)
  for (const auto& e : edges) {
    for (std::size_t i = 1; i < e.points.size(); ++i) {
      EXPECT_FALSE(e.points[i - 1].east_m == 10 && e.points[i].east_m == 10);
    }
  }
}

TEST(AreaEdges, within_another_wood_is_no_edge) {
  const auto edges =
      area_edges(std::vector{box(Kind::wood, 0, 0, 30, 30), box(Kind::wood, 10, 10, 20, 20)},
                 Kind::wood, Kind::wood_edge, wide);
  EXPECT_DOUBLE_EQ(sum(edges), 120);
}

TEST(AreaEdges, the_grounds_own_frame_is_no_edge) {
  const auto edges = area_edges(std::vector{box(Kind::lake, 0, 0, 30, 10)}, Kind::lake, Kind::shore,
                                {0, -5, 100, 100});
  EXPECT_DOUBLE_EQ(sum(edges), 70);  // without the western side, 10
  ASSERT_EQ(edges.size(), 1U) << "joined over the ring's first point";
}

}  // namespace
