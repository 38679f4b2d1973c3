#include "lodeway/sheet/map/stream_width.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "lodeway/sheet/map/strokes.hpp"

namespace lodeway::sheet {

namespace {

using mapdata::Kind;

constexpr double head_mm = 0.20, foot_mm = 0.54, full_m = 12000, around_m = 2000;

struct Node {
  const mapdata::LineFeature* feature = nullptr;
  std::vector<earth::GridPoint> points;                          ///< from its head down
  std::vector<std::pair<std::size_t, std::size_t>> tributaries;  ///< (at point, node)
  double total_m = -1;                                           ///< below 0: not summed yet
  bool summing = false;                                          ///< a ring of water ends here
};

using Place = std::pair<long, long>;
Place place(earth::GridPoint p) { return {std::lround(p.east_m), std::lround(p.north_m)}; }

double sum_of(std::vector<Node>& nodes, std::size_t i, int depth = 0) {
  constexpr int deepest = 300;
  auto& n = nodes[i];
  if (n.total_m >= 0) return n.total_m;
  if (n.summing || depth > deepest) return 0;
  n.summing = true;
  double sum = mapdata::length_m(n.points);
  for (const auto& [at, other] : n.tributaries) sum += sum_of(nodes, other, depth + 1);
  n.summing = false;
  return n.total_m = sum;
}

}  // namespace

std::vector<WaterLine> water_lines(const MapFrame& f, const mapdata::MapData& map,
                                   const terrain::Elevation& heights) {
  std::vector<Node> nodes;
  for (const auto& line : map.lines) {
    const auto kind = line.label.kind;
    if (kind != Kind::stream && kind != Kind::river && kind != Kind::ditch) continue;
    if (line.tunnel || line.points.size() < 2 || !f.touches(line.points, f.mm(around_m))) continue;
    Node n;
    n.feature = &line;
    n.points = line.points;
    const double falls = terrain::height_at(heights, line.points.front()) -
                         terrain::height_at(heights, line.points.back());
    if (falls < 0) std::ranges::reverse(n.points);
    nodes.push_back(std::move(n));
  }
  std::map<Place, std::vector<std::size_t>> ending;
  for (std::size_t i = 0; i < nodes.size(); ++i) ending[place(nodes[i].points.back())].push_back(i);
  for (std::size_t i = 0; i < nodes.size(); ++i) {
    auto& n = nodes[i];
    for (std::size_t p = 0; p + 1 < n.points.size(); ++p) {
      const auto found = ending.find(place(n.points[p]));
      if (found == ending.end()) continue;
      for (const auto other : found->second) {
        if (other != i) n.tributaries.emplace_back(p, other);
      }
    }
  }
  std::vector<WaterLine> out;
  for (std::size_t i = 0; i < nodes.size(); ++i) {
    const auto& n = nodes[i];
    if (!f.touches(n.points)) continue;
    WaterLine water;
    water.kind = n.feature->label.kind;
    double gathered = 0;
    std::size_t next = 0;
    for (std::size_t p = 0; p < n.points.size(); ++p) {
      if (p > 0) gathered += earth::grid_distance_m(n.points[p - 1], n.points[p]);
      for (; next < n.tributaries.size() && n.tributaries[next].first == p; ++next)
        gathered += sum_of(nodes, n.tributaries[next].second);
      const Mm m = f.on_page(n.points[p]);
      const bool last = p + 1 == n.points.size();
      if (!water.line.empty() && !last &&
          std::hypot(m.x - water.line.back().x, m.y - water.line.back().y) < 0.08)
        continue;
      water.line.push_back(m);
      water.width_mm.push_back(head_mm +
                               (foot_mm - head_mm) * std::sqrt(std::min(1.0, gathered / full_m)));
    }
    out.push_back(std::move(water));
  }
  return out;
}

}  // namespace lodeway::sheet
