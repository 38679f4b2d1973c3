#include "lodeway/landmarks/likeness.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace lodeway::landmarks {

using mapdata::Kind;

double looks_alike(Kind seen, Kind wanted) {
  if (seen == wanted) return 1;
  using enum Kind;
  static constexpr std::array<std::array<Kind, 5>, 5> groups{
      {{path, faint_path, track, road, path},
       {stream, river, ditch, stream, stream},
       {wall, fence, hedge, wall, wall},
       {building, ruin, hut, shelter, sheepfold},
       {summit, spot_height, cairn, trig_point, summit}}};
  for (const auto& group : groups) {
    if (std::ranges::find(group, seen) != group.end() &&
        std::ranges::find(group, wanted) != group.end())
      return 0.4;
  }
  return 0;
}

double leads_up_within(const terrain::Elevation& heights, earth::GridPoint top, double most) {
  constexpr int directions = 16;
  if (heights.empty()) return 0;
  const double step = std::max(heights.frame().cell_m, 10.0);
  double within = most;
  for (int i = 0; i < directions && within > 0; ++i) {
    const double angle = 2 * std::numbers::pi * i / directions;
    double last = terrain::height_at(heights, top);
    // the first step is free: the map's summit may stand a cell beside the height model's
    for (double d = step; d <= within; d += step) {
      const double here =
          terrain::height_at(heights, top + d * earth::GridPoint{std::sin(angle), std::cos(angle)});
      if (d > 1.5 * step && !(last - here > 0.03 * step)) within = d - step;
      last = here;
    }
  }
  return within > 1.5 * step ? within : 0;
}

}  // namespace lodeway::landmarks
