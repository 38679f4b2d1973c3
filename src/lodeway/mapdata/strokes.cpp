#include "lodeway/mapdata/strokes.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <map>
#include <numbers>
#include <utility>

#include "lodeway/mapdata/polyline.hpp"

namespace lodeway::mapdata {

namespace {

/// Line k's first point is end 2k, its last is end 2k + 1.
using End = std::size_t;
constexpr End no_end = SIZE_MAX;
constexpr End other_end(End e) { return e ^ 1U; }

/// The way on from the end into its line, of length 1; zero where the line comes back at once.
GridPoint outward(const std::vector<GridPoint>& line, bool last, double reach_m) {
  const Measured m(line);
  const auto d = last ? m.at(m.length_m() - reach_m) - line.back() : m.at(reach_m) - line.front();
  const double length = length_of(d);
  return length > 0 ? (1 / length) * d : GridPoint{0, 0};
}

struct Joint {
  double straightness;  // the cosine of the turn
  End a, b;
};

std::vector<End> partners(std::span<const std::vector<GridPoint>> lines, double most_turn_deg,
                          double reach_m) {
  std::map<std::pair<double, double>, std::vector<End>> nodes;
  std::vector<GridPoint> ways(2 * lines.size());
  for (std::size_t k = 0; k < lines.size(); ++k) {
    for (const bool last : {false, true}) {
      const auto p = last ? lines[k].back() : lines[k].front();
      const End e = 2 * k + (last ? 1 : 0);
      nodes[{p.east_m, p.north_m}].push_back(e);
      ways[e] = outward(lines[k], last, reach_m);
    }
  }
  const double least = std::cos(most_turn_deg * std::numbers::pi / 180);
  std::vector<End> out(2 * lines.size(), no_end);
  for (const auto& [at, ends] : nodes) {
    std::vector<Joint> joints;
    for (std::size_t i = 0; i < ends.size(); ++i) {
      for (std::size_t j = i + 1; j < ends.size(); ++j) {
        const double cosine = -dot(ways[ends[i]], ways[ends[j]]);
        if (cosine >= least) joints.push_back({cosine, ends[i], ends[j]});
      }
    }
    std::ranges::stable_sort(joints, std::ranges::greater{}, &Joint::straightness);
    for (const Joint& joint : joints) {
      if (out[joint.a] != no_end || out[joint.b] != no_end) continue;
      out[joint.a] = joint.b;
      out[joint.b] = joint.a;
    }
  }
  return out;
}

}  // namespace

std::vector<Stroke> strokes(std::span<const std::vector<GridPoint>> lines, double most_turn_deg,
                            double reach_m) {
  const auto next = partners(lines, most_turn_deg, reach_m);
  std::vector<bool> used(lines.size(), false);
  std::vector<Stroke> out;
  for (std::size_t k = 0; k < lines.size(); ++k) {
    if (used[k]) continue;
    End in = 2 * k;  // back to where the stroke begins, or round a ring to the line itself
    while (next[in] != no_end && other_end(next[in]) != 2 * k) in = other_end(next[in]);
    Stroke stroke;
    for (End e = in; e != no_end && !used[e / 2]; e = next[other_end(e)]) {
      auto piece = lines[e / 2];
      if (e % 2 == 1) std::ranges::reverse(piece);
      stroke.points.insert(stroke.points.end(), piece.begin() + (stroke.points.empty() ? 0 : 1),
                           piece.end());
      stroke.parts.push_back(e / 2);
      used[e / 2] = true;
    }
    out.push_back(std::move(stroke));
  }
  return out;
}

}  // namespace lodeway::mapdata
