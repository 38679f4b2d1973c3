#include "lodeway/sight/detail/near_planes.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numbers>

#include "lodeway/mapdata/polyline.hpp"

namespace lodeway::sight::detail {

namespace {
using earth::GridPoint;
using mapdata::Kind;
constexpr double degrees = 180 / std::numbers::pi;

class Painter {
 public:
  Painter(const terrain::Frame& frame, NearPlane& plane)
      : frame_(frame), plane_(plane), best_(frame.size(), std::numeric_limits<float>::infinity()) {
    plane_.distance.assign(frame.size(), CuePlanes::far);
    plane_.direction.assign(frame.size(), 0);
  }

  void segment(GridPoint a, GridPoint b) {
    const GridPoint d = b - a;
    double lie = std::atan2(d.east_m, d.north_m) * degrees;
    if (lie < 0) lie += 180;
    const int step = static_cast<int>(std::lround(lie * 128 / 180));
    // a lie that rounds up to 180 is 0 the other way round
    const bool turned = (std::atan2(d.east_m, d.north_m) < 0) != (step == 128);
    const auto lie7 = static_cast<std::uint8_t>(step & 127);
    const double squared = d.east_m * d.east_m + d.north_m * d.north_m;
    const double per = squared > 0 ? 1 / squared : 0;
    each_cell(a, b, [&](std::size_t i, GridPoint p) {
      const GridPoint ap = p - a;
      const double t = std::clamp((ap.east_m * d.east_m + ap.north_m * d.north_m) * per, 0.0, 1.0);
      const double x = ap.east_m - t * d.east_m, y = ap.north_m - t * d.north_m;
      const auto d2 = static_cast<float>(x * x + y * y);
      if (d2 >= best_[i]) return;
      best_[i] = d2;
      // p to the right of a-b: the line then lies to p's left
      const bool right = d.east_m * ap.north_m - d.north_m * ap.east_m < 0;
      plane_.direction[i] = static_cast<std::uint8_t>(lie7 | (right != turned ? 128 : 0));
    });
  }

  void point(GridPoint a) {
    each_cell(a, a, [&](std::size_t i, GridPoint p) {
      const GridPoint to = a - p;
      const auto d2 = static_cast<float>(to.east_m * to.east_m + to.north_m * to.north_m);
      if (d2 >= best_[i]) return;
      best_[i] = d2;
      plane_.direction[i] = static_cast<std::uint8_t>(
          static_cast<int>(std::lround(std::atan2(to.east_m, to.north_m) * degrees * 256 / 360)) &
          255);
    });
  }

  void finish() {
    const auto most = static_cast<float>(std::min(plane_.reach_m, 508.0));
    for (std::size_t i = 0; i < best_.size(); ++i) {
      if (best_[i] > most * most) continue;
      plane_.distance[i] = static_cast<std::uint8_t>(std::lround(std::sqrt(best_[i]) / 2));
    }
  }

 private:
  template <class Use>
  void each_cell(GridPoint a, GridPoint b, Use&& use) {
    const double reach = plane_.reach_m;
    const int first_row = std::max(
        0,
        static_cast<int>(std::floor(frame_.row_of({0, std::max(a.north_m, b.north_m) + reach}))));
    const int last_row = std::min(
        frame_.rows - 1,
        static_cast<int>(std::ceil(frame_.row_of({0, std::min(a.north_m, b.north_m) - reach}))));
    const int first_col = std::max(
        0, static_cast<int>(std::floor(frame_.col_of({std::min(a.east_m, b.east_m) - reach, 0}))));
    const int last_col = std::min(
        frame_.cols - 1,
        static_cast<int>(std::ceil(frame_.col_of({std::max(a.east_m, b.east_m) + reach, 0}))));
    for (int r = first_row; r <= last_row; ++r) {
      GridPoint p = frame_.centre(r, first_col);
      std::size_t i = static_cast<std::size_t>(r) * static_cast<std::size_t>(frame_.cols) +
                      static_cast<std::size_t>(std::max(first_col, 0));
      for (int c = first_col; c <= last_col; ++c, ++i, p.east_m += frame_.cell_m) use(i, p);
    }
  }

  const terrain::Frame& frame_;
  NearPlane& plane_;
  std::vector<float> best_;
};

bool may_touch(const terrain::Frame& f, double reach, const std::vector<GridPoint>& line) {
  double west = 1e18, east = -1e18, south = 1e18, north = -1e18;
  for (const GridPoint p : line) {
    west = std::min(west, p.east_m);
    east = std::max(east, p.east_m);
    south = std::min(south, p.north_m);
    north = std::max(north, p.north_m);
  }
  return east > f.west_m - reach && west < f.east_m() + reach && north > f.south_m() - reach &&
         south < f.north_m + reach;
}
}  // namespace

std::vector<NearPlane> near_planes(const walking::Ground& ground, const terrain::Frame& frame,
                                   numeric::Parallel& parallel) {
  std::vector<NearPlane> out;
  std::array<int, mapdata::kind_count> at{};
  at.fill(-1);
  std::vector<std::vector<std::size_t>> members;
  const auto plane_for = [&](Kind kind, bool line) -> int {
    auto& slot = at[static_cast<std::size_t>(kind)];
    if (slot < 0) {
      slot = static_cast<int>(out.size());
      const double seen = ground.kinds[kind].seen_from_m[0];
      out.push_back({kind, line, std::clamp(seen, 120.0, 300.0), {}, {}});
      members.emplace_back();
    }
    return slot;
  };
  const auto& map = ground.map;
  for (std::size_t i = 0; i < map.lines.size(); ++i) {
    const auto& line = map.lines[i];
    if (line.tunnel || line.label.kind == Kind::other || !may_touch(frame, 300, line.points))
      continue;
    members[static_cast<std::size_t>(plane_for(line.label.kind, true))].push_back(i);
  }
  for (std::size_t i = 0; i < map.points.size(); ++i) {
    const auto& point = map.points[i];
    const Kind kind = point.label.kind;
    if (kind == Kind::other || kind == Kind::spot_height || !may_touch(frame, 300, {point.at}))
      continue;
    const int slot = plane_for(kind, false);
    if (out[static_cast<std::size_t>(slot)].line) continue;
    members[static_cast<std::size_t>(slot)].push_back(i);
  }
  parallel.for_each_block(out.size(), [&](std::size_t k) {
    Painter painter(frame, out[k]);
    for (const std::size_t i : members[k]) {
      if (!out[k].line) {
        painter.point(map.points[i].at);
        continue;
      }
      const auto line = mapdata::simplify(map.lines[i].points, 3);
      for (std::size_t j = 1; j < line.size(); ++j) {
        if (may_touch(frame, out[k].reach_m, {line[j - 1], line[j]}))
          painter.segment(line[j - 1], line[j]);
      }
    }
    painter.finish();
  });
  std::ranges::sort(out, {}, &NearPlane::kind);
  return out;
}

}  // namespace lodeway::sight::detail
