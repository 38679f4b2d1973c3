#include "lodeway/tasks/derive.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <mutex>
#include <utility>
#include <vector>

#include "lodeway/landmarks/relief_features.hpp"
#include "lodeway/mapdata/area_edges.hpp"
#include "lodeway/tasks/threads.hpp"
#include "lodeway/terrain/flat_water.hpp"

namespace lodeway::tasks {

namespace {
using mapdata::Kind;
}  // namespace

void derive_edges(walking::Ground& ground) {
  const terrain::Frame& f = ground.elevation.frame();
  const mapdata::Limits limits{f.west_m, f.south_m(), f.east_m(), f.north_m};
  for (const auto& [area, edge] :
       {std::pair{Kind::wood, Kind::wood_edge}, {Kind::lake, Kind::shore}}) {
    auto edges = mapdata::area_edges(ground.map.areas, area, edge, limits);
    std::ranges::move(edges, std::back_inserter(ground.map.lines));
  }
}

Result<void> derive_from_relief(walking::Ground& ground, Progress* progress) {
  std::mutex telling;
  bool stopped = false;
  const auto go_on = [&](const char* doing) {
    const std::lock_guard lock(telling);
    stopped = stopped || (progress != nullptr && !progress->go_on(-1, doing));
    return !stopped;
  };
  const auto heights = landmarks::at_relief_scale(ground.elevation);
  std::vector<mapdata::LineFeature> ridges, valleys;
  std::vector<mapdata::PointFeature> points;
  terrain::Raster<terrain::Landform> landforms;
  // None asks what another finds. The longest first, so that no thread is left with it alone.
  Threads().for_each_block(4, [&](std::size_t which) {
    if (which == 0 && go_on("finding landforms")) landforms = terrain::landforms(heights);
    if (which == 1 && go_on("finding crests"))
      ridges = landmarks::relief_ridges(heights, ground.map);
    if (which == 2 && go_on("finding valleys"))
      valleys = landmarks::relief_valleys(heights, ground.map);
    if (which == 3 && go_on("finding tops and saddles"))
      points = landmarks::relief_points(heights, ground.map);
  });
  if (stopped) return fail(FaultCode::cancelled, "stopped; nothing was written");
  ground.landforms = std::move(landforms);
  std::ranges::move(ridges, std::back_inserter(ground.map.lines));
  std::ranges::move(valleys, std::back_inserter(ground.map.lines));
  std::ranges::move(points, std::back_inserter(ground.map.points));
  return {};
}

Result<std::size_t> derive_flat_water(walking::Ground& ground, bool whole_metres,
                                      Progress* progress) {
  constexpr double sea_within_m = 0.5;
  if (std::ranges::any_of(ground.map.areas, [](const auto& area) {
        return area.label.kind == Kind::lake || area.label.kind == Kind::sea;
      })) {
    return 0;
  }
  bool stopped = false;
  const auto go_on = [&] {
    stopped = stopped || (progress != nullptr && !progress->go_on(-1, "looking for flat water"));
    return !stopped;
  };
  if (!go_on()) return fail(FaultCode::cancelled, "stopped; nothing was written");
  auto found = terrain::flat_areas(ground.elevation, terrain::flat_rules(whole_metres), go_on);
  if (stopped) return fail(FaultCode::cancelled, "stopped; nothing was written");
  for (auto& flat : found) {
    const auto kind = std::abs(flat.level_m) <= sea_within_m ? Kind::sea : Kind::lake;
    ground.map.areas.push_back(
        {{kind, "", mapdata::Origin::from_relief}, std::move(flat.outer), std::move(flat.holes)});
  }
  return found.size();
}

}  // namespace lodeway::tasks
