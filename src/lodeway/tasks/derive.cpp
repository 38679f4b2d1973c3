#include "lodeway/tasks/derive.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

#include "lodeway/landmarks/relief_features.hpp"
#include "lodeway/mapdata/area_edges.hpp"

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
  const auto stopped = [&](const char* doing) {
    return progress != nullptr && !progress->go_on(-1, doing);
  };
  const auto fault = fail(FaultCode::cancelled, "stopped; nothing was written");
  const auto heights = landmarks::at_relief_scale(ground.elevation);
  if (stopped("finding crests")) return fault;
  auto ridges = landmarks::relief_ridges(heights, ground.map);
  if (stopped("finding valleys")) return fault;
  auto valleys = landmarks::relief_valleys(heights, ground.map);
  if (stopped("finding tops and saddles")) return fault;
  auto points = landmarks::relief_points(heights, ground.map);
  if (stopped("finding landforms")) return fault;
  ground.landforms = terrain::landforms(heights);
  std::ranges::move(ridges, std::back_inserter(ground.map.lines));
  std::ranges::move(valleys, std::back_inserter(ground.map.lines));
  std::ranges::move(points, std::back_inserter(ground.map.points));
  return {};
}

}  // namespace lodeway::tasks
