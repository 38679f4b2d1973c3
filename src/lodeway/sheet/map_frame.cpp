#include "lodeway/sheet/map_frame.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace lodeway::sheet {

namespace {

using earth::GridPoint;

constexpr double side_mm = 14, top_mm = 22, inside_mm = 12, overlap_mm = 15;
constexpr double margin_foot_mm = 66, narrow_foot_mm = 98, narrow_map_mm = 170;

struct Box {
  double west = 1e300, south = 1e300, east = -1e300, north = -1e300;
  void add(GridPoint p) {
    west = std::min(west, p.east_m);
    east = std::max(east, p.east_m);
    south = std::min(south, p.north_m);
    north = std::max(north, p.north_m);
  }
};

MapFrame empty_frame(double scale, trip::Paper paper, bool landscape) {
  auto size = page_size(paper);
  if (landscape) std::swap(size.x, size.y);
  MapFrame f;
  f.page_w = size.x;
  f.page_h = size.y;
  f.at = {side_mm, top_mm};
  f.w = size.x - 2 * side_mm;
  f.h = size.y - top_mm - (f.w < narrow_map_mm ? narrow_foot_mm : margin_foot_mm);
  f.scale = scale;
  return f;
}

/// The way as points no further apart than 2 mm on paper, so that a long leg can be parted.
std::vector<GridPoint> dense(const walking::Way& way, double step_m) {
  std::vector<GridPoint> out;
  for (const auto& leg : way.legs) {
    for (std::size_t i = 0; i < leg.line.size(); ++i) {
      if (i > 0) {
        const auto a = leg.line[i - 1], b = leg.line[i];
        const int pieces = std::min(10000, static_cast<int>(earth::grid_distance_m(a, b) / step_m));
        for (int k = 1; k < pieces; ++k)
          out.push_back(a + (static_cast<double>(k) / pieces) * (b - a));
      }
      out.push_back(leg.line[i]);
    }
  }
  return out;
}

std::vector<MapFrame> tiles(const std::vector<GridPoint>& points, const MapFrame& empty) {
  const double fits_e = empty.metres(empty.w - 2 * inside_mm),
               fits_n = empty.metres(empty.h - 2 * inside_mm);
  std::vector<MapFrame> out;
  std::size_t begin = 0;
  while (begin < points.size() && out.size() <= 1000) {
    Box box;
    std::size_t end = begin;
    for (; end < points.size(); ++end) {
      Box wider = box;
      wider.add(points[end]);
      if (wider.east - wider.west > fits_e || wider.north - wider.south > fits_n) break;
      box = wider;
    }
    MapFrame f = empty;
    f.south_west = {0.5 * (box.west + box.east) - 0.5 * f.metres(f.w),
                    0.5 * (box.south + box.north) - 0.5 * f.metres(f.h)};
    f.south_west = {std::round(f.south_west.east_m), std::round(f.south_west.north_m)};
    out.push_back(f);
    if (end == points.size()) break;
    std::size_t next = end;
    for (double back = 0; next > begin + 1 && back < f.metres(overlap_mm); --next)
      back += earth::grid_distance_m(points[next - 1], points[next]);
    begin = std::max(next, begin + 1);
  }
  return out;
}

}  // namespace

bool MapFrame::near(GridPoint p, double margin_mm) const {
  const double m = metres(margin_mm);
  return p.east_m >= south_west.east_m - m && p.east_m <= east_m() + m &&
         p.north_m >= south_west.north_m - m && p.north_m <= north_m() + m;
}

bool MapFrame::touches(const std::vector<GridPoint>& line, double margin_mm) const {
  Box box;
  for (const auto& p : line) box.add(p);
  const double m = metres(margin_mm);
  return box.east >= south_west.east_m - m && box.west <= east_m() + m &&
         box.north >= south_west.north_m - m && box.south <= north_m() + m;
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

Result<std::vector<MapFrame>> cover(const walking::Way& way, double scale, trip::Paper paper,
                                    bool landscape) {
  if (!(scale > 0) || !std::isfinite(scale))
    return fail(FaultCode::bad_input,
                fmt::format("paper.scale: expected a number above 0, got {}", scale));
  const auto at_scale = [&](double s) {
    const auto frame = empty_frame(s, paper, landscape);
    return tiles(dense(way, frame.metres(2)), frame);
  };
  auto out = at_scale(scale);
  if (out.size() <= most_sheets) return out;
  double better = scale;
  for (const double s : {10000.0, 25000.0, 50000.0, 100000.0, 250000.0, 500000.0, 1000000.0}) {
    better = s;
    if (s > scale && at_scale(s).size() <= 8) break;
  }
  return fail(FaultCode::too_large,
              fmt::format("paper.scale: at 1:{:.0f} the way needs {}{} sheets, more than {}; "
                          "expected a scale like 1:{:.0f}",
                          scale, out.size() > 1000 ? "over " : "",
                          std::min<std::size_t>(out.size(), 1000), most_sheets, better));
}

}  // namespace lodeway::sheet
