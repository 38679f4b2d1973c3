#include <algorithm>
#include <cmath>

#include "lodeway/fells/design.hpp"
#include "lodeway/fells/features.hpp"
#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/terrain/contours.hpp"

namespace lodeway::fells {

namespace {

using earth::GridPoint;
using mapdata::Kind;

constexpr double beck_m2 = 0.35e6,
                 river_m2 = 14e6;  // drained ground from which a beck, a river is drawn
constexpr double name_reach_m = 450, another_beck = 2.2;

double ring_area(const std::vector<GridPoint>& ring) {
  double sum = 0;
  for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
    sum += ring[j].east_m * ring[i].north_m - ring[i].east_m * ring[j].north_m;
  }
  return sum / 2;
}

/// The shores as rings; a beck that meets one gives it a vertex where they meet.
class Shores {
 public:
  Shores(const Land& land, numeric::Parallel& parallel) : rings_(land.lakes.size()) {
    parallel.for_each_block(rings_.size(), [&](std::size_t i) {
      const auto& frame = land.heights.frame();
      const auto row_of = [&](std::int32_t k) { return k / frame.cols; };
      const auto col_of = [&](std::int32_t k) { return k % frame.cols; };
      const auto [top, bottom] = std::ranges::minmax(land.lakes[i].cells, {}, row_of);
      const auto [left, right] = std::ranges::minmax(land.lakes[i].cells, {}, col_of);
      terrain::Raster<float> field(
          window(frame, row_of(top), col_of(left), row_of(bottom), col_of(right)), 0.0F);
      for (const auto k : land.lakes[i].cells) {
        const auto [r, c] = field.frame().cell_of(frame.centre(row_of(k), col_of(k)));
        field[r, c] = 1.0F;
      }
      auto found = outlines(field, 2000);
      const auto largest =
          std::ranges::max_element(found, {}, [](const auto& r) { return std::abs(ring_area(r)); });
      rings_[i] = mapdata::smoothed(*largest, 1);
    });
  }
  /// The nearest place on the shore of lake `index`, now a vertex of it.
  GridPoint meet(std::size_t index, GridPoint p) {
    auto& ring = rings_[index];
    std::size_t after = 0;
    GridPoint best = ring.front();
    double least = 1e18;
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const auto a = ring[i], leg = ring[(i + 1) % ring.size()] - a;
      const double t =
          std::clamp(((p.east_m - a.east_m) * leg.east_m + (p.north_m - a.north_m) * leg.north_m) /
                         (leg.east_m * leg.east_m + leg.north_m * leg.north_m),
                     0.0, 1.0);
      const auto q = a + t * leg;
      if (const double d = distance_m(p, q); d < least) {
        least = d;
        best = q;
        after = i;
      }
    }
    if (best == ring[after] || best == ring[(after + 1) % ring.size()]) return best;
    ring.insert(ring.begin() + static_cast<std::ptrdiff_t>(after) + 1, best);
    return best;
  }
  [[nodiscard]] const std::vector<GridPoint>& ring(std::size_t index) const {
    return rings_[index];
  }

 private:
  std::vector<std::vector<GridPoint>> rings_;
};

class Becks {
 public:
  Becks(const Land& land, Shores& shores)
      : land_(land),
        shores_(shores),
        givers_(land.flow.receiver.size(), 0),
        name_(givers_.size(), -1) {
    for (std::size_t k = 0; k < givers_.size(); ++k) {
      if (wet_enough(k) && land.flow.receiver[k] >= 0)
        ++givers_[static_cast<std::size_t>(land.flow.receiver[k])];
    }
    const auto becks = design::becks();
    for (std::size_t b = 0; b < becks.size(); ++b) give_name(static_cast<int>(b));
  }

  void draw(mapdata::MapData& map) const {
    for (std::size_t k = 0; k < givers_.size(); ++k) {
      if (!wet_enough(k)) continue;
      const bool begins = givers_[k] != 1 || crosses_shore_above(k);
      if (begins) chain(k, map);
    }
  }

 private:
  [[nodiscard]] int cols() const { return land_.heights.cols(); }
  [[nodiscard]] bool lake(std::size_t k) const { return land_.wet.cells()[k] != 0; }
  [[nodiscard]] bool wet_enough(std::size_t k) const { return land_.flow.area_m2[k] >= beck_m2; }
  [[nodiscard]] GridPoint at(std::size_t k) const {
    return land_.heights.frame().centre(static_cast<int>(k) / cols(), static_cast<int>(k) % cols());
  }
  [[nodiscard]] std::size_t next(std::size_t k) const {
    return static_cast<std::size_t>(land_.flow.receiver[k]);
  }
  [[nodiscard]] bool last(std::size_t k) const { return land_.flow.receiver[k] < 0; }
  [[nodiscard]] bool crosses_shore_above(std::size_t k) const {
    return !lake(k) && shore_giver(k) != 0;
  }
  /// 1 + the index of the lake that drains into the cell, 0 where none does.
  [[nodiscard]] std::size_t shore_giver(std::size_t k) const {
    const int r = static_cast<int>(k) / cols(), c = static_cast<int>(k) % cols();
    for (int i = std::max(0, r - 1); i <= std::min(land_.heights.rows() - 1, r + 1); ++i) {
      for (int j = std::max(0, c - 1); j <= std::min(cols() - 1, c + 1); ++j) {
        const auto g = static_cast<std::size_t>(i * cols() + j);
        if (g != k && land_.flow.receiver[g] == static_cast<std::int32_t>(k) && wet_enough(g) &&
            lake(g)) {
          return land_.wet.cells()[g];
        }
      }
    }
    return 0;
  }

  /// From the nearest beck cell up along its largest giver, and down until it joins a larger one;
  /// lakes end it.
  void give_name(int index) {
    const auto& name = design::becks()[static_cast<std::size_t>(index)];
    const auto place = design::place(name.x_km, name.y_km);
    std::size_t start = givers_.size();
    double best = name_reach_m;
    for (std::size_t k = 0; k < givers_.size(); ++k) {
      if (!wet_enough(k) || lake(k)) continue;
      const double d = distance_m(place, at(k)) -
                       0.15 * name_reach_m * std::min(1.0, land_.flow.area_m2[k] / 3e6);
      if (d < best) {
        best = d;
        start = k;
      }
    }
    if (start == givers_.size()) return;
    for (auto k = start; name_[k] < 0; k = next(k)) {
      name_[k] = index;
      if (last(k) || land_.flow.area_m2[next(k)] > another_beck * land_.flow.area_m2[k] ||
          name_[next(k)] >= 0 || lake(next(k)))
        break;
    }
    for (auto k = largest_giver(start); k < givers_.size() && name_[k] < 0 && !lake(k);
         k = largest_giver(k))
      name_[k] = index;
  }
  [[nodiscard]] std::size_t largest_giver(std::size_t k) const {
    const int r = static_cast<int>(k) / cols(), c = static_cast<int>(k) % cols();
    auto best = givers_.size();
    double most = beck_m2;
    for (int i = std::max(0, r - 1); i <= std::min(land_.heights.rows() - 1, r + 1); ++i) {
      for (int j = std::max(0, c - 1); j <= std::min(cols() - 1, c + 1); ++j) {
        const auto g = static_cast<std::size_t>(i * cols() + j);
        if (land_.flow.receiver[g] == static_cast<std::int32_t>(k) &&
            land_.flow.area_m2[g] >= most) {
          most = land_.flow.area_m2[g];
          best = g;
        }
      }
    }
    return best;
  }

  /// Down from k to the next meeting of becks, shore, change of name or edge.
  void chain(std::size_t k, mapdata::MapData& map) const {
    mapdata::LineFeature line;
    const bool river = land_.flow.area_m2[k] >= river_m2;
    const int name = name_[k];
    if (lake(k)) return;
    if (name >= 0) line.label.name = design::becks()[static_cast<std::size_t>(name)].name;
    line.label.kind = river ? Kind::river : Kind::stream;
    if (const auto above = shore_giver(k)) {
      line.points.push_back(shores_.meet(above - 1, at(k)));
      if (givers_[k] >
          1) {  // others come in just below the lake: they need its end as a meeting place
        line.points.push_back(at(k));
        map.lines.push_back(line);
        line.points.clear();
      }
    }
    line.points.push_back(at(k));
    while (!last(k)) {
      const auto n = next(k);
      line.points.push_back(lake(n) ? shores_.meet(land_.wet.cells()[n] - 1U, at(k)) : at(n));
      k = n;
      if (givers_[n] != 1 || lake(n) || (land_.flow.area_m2[n] >= river_m2) != river ||
          name_[n] != name)
        break;
    }
    // A chain that ends only because the name or size changed is gone on with from there.
    const bool more = !last(k) && !lake(k) && givers_[k] == 1;
    if (line.points.size() < 2) return;
    line.points = mapdata::without_steps(std::move(line.points));
    map.lines.push_back(std::move(line));
    if (more) chain(k, map);
  }

  const Land& land_;
  Shores& shores_;
  std::vector<int> givers_, name_;
};

}  // namespace

terrain::Frame window(const terrain::Frame& frame, int top, int left, int bottom, int right) {
  top = std::max(0, top - 2), left = std::max(0, left - 2);
  bottom = std::min(frame.rows - 1, bottom + 2), right = std::min(frame.cols - 1, right + 2);
  return {frame.west_m + frame.cell_m * left, frame.north_m - frame.cell_m * top, frame.cell_m,
          bottom - top + 1, right - left + 1};
}

std::vector<std::vector<GridPoint>> outlines(const terrain::Raster<float>& field, double least_m2) {
  std::vector<std::vector<GridPoint>> out;
  for (auto& c : terrain::contours(field, 0.5)) {
    if (!c.closed || c.height_m != 0.5) continue;
    const double area = ring_area(c.points);
    if (area >= 0 || -area < least_m2) continue;  // higher inside: clockwise
    std::ranges::reverse(c.points);
    out.push_back(std::move(c.points));
  }
  return out;
}

double height_near(const Land& land, GridPoint p) {
  auto [r, c] = land.heights.frame().cell_of(p);
  r = std::clamp(r, 0, land.heights.rows() - 1);
  c = std::clamp(c, 0, land.heights.cols() - 1);
  return land.heights[r, c];
}

double distance_m(GridPoint a, GridPoint b) {
  const auto d = b - a;
  return std::sqrt(d.east_m * d.east_m + d.north_m * d.north_m);
}

void add_water(const Land& land, mapdata::MapData& map, numeric::Parallel& parallel) {
  Shores shores(land, parallel);
  Becks(land, shores).draw(map);
  for (std::size_t i = 0; i < land.lakes.size(); ++i) {
    const auto& ring = shores.ring(i);
    mapdata::LineFeature shore{{Kind::shore, land.lakes[i].name}, ring};
    shore.points.push_back(ring.front());
    map.areas.push_back({{Kind::lake, land.lakes[i].name}, ring, {}});
    map.lines.push_back(std::move(shore));
  }
}

}  // namespace lodeway::fells
