#include "lodeway/landmarks/in_sight.hpp"

#include <algorithm>
#include <limits>
#include <map>
#include <utility>

#include "lodeway/mapdata/polyline.hpp"

namespace lodeway::landmarks {

namespace {

using earth::GridPoint;
using mapdata::Kind;
using terrain::Seen;

bool is_surface(Kind k) { return k == Kind::lake || k == Kind::sea; }
bool runs(Kind k) { return k == Kind::stream || k == Kind::river; }

/// Places of one thing: how many there are, how many are seen, and which of those is nearest.
class Tally {
 public:
  Tally(const terrain::Raster<Seen>& seen, GridPoint eye) : seen_(seen), eye_(eye) {}
  void add(GridPoint p) {
    const auto [row, col] = seen_.frame().cell_of(p);
    if (!seen_.frame().holds(row, col)) return;
    ++all_;
    if (seen_[row, col] != Seen::seen) return;
    ++in_sight_;
    if (const double d = earth::grid_distance_m(eye_, p); d < nearest_m_) {
      nearest_m_ = d;
      nearest_ = p;
    }
  }
  [[nodiscard]] bool empty() const { return all_ == 0; }
  /// Adds the thing to what is seen, if any of it is.
  void tell(Kind kind, const std::string& name, const terrain::Elevation& heights,
            std::vector<InSight>& out) const {
    if (in_sight_ == 0) return;
    out.push_back({kind, name, nearest_, terrain::height_at(heights, nearest_), nearest_m_,
                   earth::grid_bearing(eye_, nearest_),
                   static_cast<double>(in_sight_) / static_cast<double>(all_)});
  }

 private:
  const terrain::Raster<Seen>& seen_;
  GridPoint eye_, nearest_{};
  double nearest_m_ = std::numeric_limits<double>::infinity();
  std::size_t all_ = 0, in_sight_ = 0;
};

bool seen_around(const terrain::Raster<Seen>& seen, GridPoint p) {
  const auto [row, col] = seen.frame().cell_of(p);
  for (int r = row - 1; r <= row + 1; ++r) {
    for (int c = col - 1; c <= col + 1; ++c) {
      if (seen.frame().holds(r, c) && seen[r, c] == Seen::seen) return true;
    }
  }
  return false;
}

void add_cells(const mapdata::AreaFeature& area, const terrain::Frame& frame, Tally& tally) {
  int top = frame.rows, bottom = -1, left = frame.cols, right = -1;
  for (const auto& p : area.outer) {
    const auto [row, col] = frame.cell_of(p);
    top = std::min(top, row), bottom = std::max(bottom, row);
    left = std::min(left, col), right = std::max(right, col);
  }
  for (int r = std::max(0, top); r <= std::min(bottom, frame.rows - 1); ++r) {
    for (int c = std::max(0, left); c <= std::min(right, frame.cols - 1); ++c) {
      if (mapdata::contains(area, frame.centre(r, c))) tally.add(frame.centre(r, c));
    }
  }
  if (tally.empty()) tally.add(area.outer.front());
}

void nearest_first(std::vector<InSight>& list) {
  std::ranges::stable_sort(list, {}, &InSight::distance_m);
}

}  // namespace

std::vector<InSight> in_sight(const terrain::Elevation& heights, const mapdata::MapData& map,
                              const terrain::Raster<Seen>& seen, GridPoint eye) {
  std::vector<InSight> tops, water;
  for (const auto& p : map.points) {
    if (p.label.kind != Kind::summit || !seen_around(seen, p.at)) continue;
    if (earth::grid_distance_m(eye, p.at) < 2 * seen.frame().cell_m) continue;  // stood on
    tops.push_back({Kind::summit, p.label.name, p.at, terrain::height_at(heights, p.at),
                    earth::grid_distance_m(eye, p.at), earth::grid_bearing(eye, p.at), 1});
  }
  for (const auto& area : map.areas) {
    if (!is_surface(area.label.kind) || area.outer.empty()) continue;
    Tally tally(seen, eye);
    add_cells(area, seen.frame(), tally);
    tally.tell(area.label.kind, area.label.name, heights, water);
  }
  std::map<std::pair<Kind, std::string>, Tally> by_name;
  for (const auto& line : map.lines) {
    if (!runs(line.label.kind) || line.label.name.empty() || line.tunnel) continue;
    auto& tally = by_name.try_emplace({line.label.kind, line.label.name}, seen, eye).first->second;
    const mapdata::Measured along(line.points);
    for (double at = 0; at <= along.length_m(); at += seen.frame().cell_m) tally.add(along.at(at));
  }
  for (const auto& [what, tally] : by_name) tally.tell(what.first, what.second, heights, water);
  nearest_first(tops);
  nearest_first(water);
  tops.insert(tops.end(), water.begin(), water.end());
  return tops;
}

}  // namespace lodeway::landmarks
