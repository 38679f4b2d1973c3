#include "lodeway/sheet/map/map_frame.hpp"

#include <algorithm>
#include <cmath>

namespace lodeway::sheet {

namespace {

using earth::GridPoint;

constexpr double side_mm = 14, top_mm = 22, small_side_mm = 10, small_top_mm = 20;
constexpr double foot_mm = 66, narrow_foot_mm = 75;

}  // namespace

bool MapFrame::near(GridPoint p, double margin_mm) const {
  const double m = metres(margin_mm);
  return p.east_m >= south_west.east_m - m && p.east_m <= east_m() + m &&
         p.north_m >= south_west.north_m - m && p.north_m <= north_m() + m;
}

bool MapFrame::touches(const std::vector<GridPoint>& line, double margin_mm) const {
  GroundBox box;
  box.add(line);
  const double m = metres(margin_mm);
  return box.east >= south_west.east_m - m && box.west <= east_m() + m &&
         box.north >= south_west.north_m - m && box.south <= north_m() + m;
}

void GroundBox::add(GridPoint p) {
  west = std::min(west, p.east_m);
  east = std::max(east, p.east_m);
  south = std::min(south, p.north_m);
  north = std::max(north, p.north_m);
}

MapFrame centred(MapFrame f, GridPoint middle) {
  f.south_west = {std::round(middle.east_m - 0.5 * f.metres(f.w)),
                  std::round(middle.north_m - 0.5 * f.metres(f.h))};
  return f;
}

Mm page_size(trip::Paper paper) {
  switch (paper) {
    case trip::Paper::a5:
      return {148, 210};
    case trip::Paper::a3:
      return {297, 420};
    case trip::Paper::letter:
      return {215.9, 279.4};
    case trip::Paper::a4:
      break;
  }
  return {210, 297};
}

MapFrame empty_frame(double scale, trip::Paper paper, bool landscape) {
  auto size = page_size(paper);
  if (landscape) std::swap(size.x, size.y);
  const bool small = paper == trip::Paper::a5;
  MapFrame f;
  f.page_w = size.x;
  f.page_h = size.y;
  f.at = {small ? small_side_mm : side_mm, small ? small_top_mm : top_mm};
  f.w = size.x - 2 * f.at.x;
  f.h = size.y - f.at.y - (f.w < narrow_map_mm ? narrow_foot_mm : foot_mm) -
        legend_height_mm(f.w);
  f.scale = scale;
  return f;
}

}  // namespace lodeway::sheet
