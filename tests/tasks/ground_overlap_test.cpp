// A map larger than the heights, about them, beside them: the commonest real cases.
#include <algorithm>

#include <gtest/gtest.h>

#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/tasks/ground.hpp"
#include "support/support.hpp"
#include "tasks/made_heights.hpp"

namespace {

using namespace lodeway;
using Scratch = support::TemporaryFolder;
using test::slope;

tasks::BuildRequest request_of(const Scratch& scratch, const std::string& heights,
                               std::vector<std::string> features) {
  tasks::BuildRequest out;
  out.out = scratch / "g.gpkg";
  out.elevation = {heights};
  out.features = std::move(features);
  out.cell_m = 20;
  return out;
}

bool any_has(const std::vector<std::string>& texts, const std::string& part) {
  return std::ranges::any_of(texts, [&](const auto& t) { return t.find(part) != t.npos; });
}

TEST(Overlap, a_country_on_small_pieces_of_heights) {
  LODEWAY_NEEDS_SHARED(data);
  const auto country = data + "/osm-liechtenstein/liechtenstein.osm.pbf";
  const Scratch scratch;
  // On the Rhine, in the hills, over the country's rim, and where only its relations reach.
  for (const auto& [west, south] :
       {std::pair{9.49, 47.10}, {9.58, 47.08}, {9.46, 47.04}, {9.62, 47.20}}) {
    const auto request = request_of(scratch, slope(scratch, west, south, 30, 25), {country});
    const auto made = tasks::build_ground(request);
    ASSERT_TRUE(made) << made.error().what;
    const auto ground = io::open_ground(request.out);
    ASSERT_TRUE(ground) << ground.error().what;
    const auto& f = ground->elevation.frame();
    for (const auto& area : ground->map.areas) {
      ASSERT_GE(area.outer.size(), 3U);
      for (const auto p : area.outer) {
        EXPECT_TRUE(p.east_m > f.west_m - 1e-3 && p.east_m < f.east_m() + 1e-3 &&
                    p.north_m > f.south_m() - 1e-3 && p.north_m < f.north_m + 1e-3);
      }
    }
    if (west < 9.6 && west > 9.47) EXPECT_GT(ground->map.areas.size(), 20U);
  }
}

TEST(Overlap, a_map_beside_the_heights_is_refused_with_where_each_lies) {
  LODEWAY_NEEDS_SHARED(data);
  const auto country = data + "/osm-liechtenstein/liechtenstein.osm.pbf";
  const Scratch scratch;
  const auto heights = slope(scratch, 8.5, 46.5, 30, 25);
  const long before = scratch.count();
  const auto made = tasks::build_ground(request_of(scratch, heights, {country}));
  ASSERT_FALSE(made);
  EXPECT_EQ(made.error().code, FaultCode::bad_input);
  const auto& said = made.error().what;
  EXPECT_NE(said.find("liechtenstein.osm.pbf: expected a map that lies on the heights"),
            std::string::npos)
      << said;
  // 30 x 25 cells of 0.001 degrees; whole cells of the ground may reach 0.01 further
  EXPECT_NE(said.find("the heights at 46.50 N to 46.5"), std::string::npos) << said;
  EXPECT_NE(said.find("8.50 E to 8.53 E"), std::string::npos) << said;
  EXPECT_NE(said.find("km apart"), std::string::npos) << said;
  EXPECT_EQ(scratch.count(), before) << "nothing is written";
}

std::string lake(const Scratch& scratch, const std::string& name, const std::string& ring) {
  return scratch.write(
      name,
      R"({"type":"FeatureCollection","features":[{"type":"Feature","properties":{"natural":"water"},)"
      R"("geometry":{"type":"Polygon","coordinates":[)" +
          ring + "]}}]}");
}

TEST(Overlap, one_file_of_several_beside_the_heights_is_said) {
  const Scratch scratch;
  const auto heights = slope(scratch, 9, 47, 40, 40);
  const auto on =
      lake(scratch, "on.geojson", "[[9.01,47.01],[9.02,47.01],[9.02,47.02],[9.01,47.01]]");
  // By hand: 1 degree east of the heights' east side 9.04, at 47.0 N: 0.96 of 76 051 m = 73 km.
  const auto beside =
      lake(scratch, "beside.geojson", "[[10,47.01],[10.02,47.01],[10.02,47.02],[10,47.01]]");
  const auto around = lake(scratch, "around.geojson",
                           "[[8.9,47.2],[9.2,47.2],[9.2,46.9],[9.19,46.9],[9.19,47.19],[8.9,47.19],"
                           "[8.9,47.2]]");
  const auto made = tasks::build_ground(request_of(scratch, heights, {on, beside, around}));
  ASSERT_TRUE(made) << made.error().what;
  EXPECT_TRUE(any_has(made->remarks,
                      "beside.geojson: expected a map that lies on the heights; the map is at "
                      "47.01 N to 47.02 N, 10.00 E to 10.02 E"));
  EXPECT_TRUE(any_has(made->remarks, "73 km apart"));
  EXPECT_TRUE(any_has(made->remarks, "around.geojson: nothing of it lies on the heights"));
  EXPECT_FALSE(any_has(made->remarks, "/on.geojson"));
}

}  // namespace
