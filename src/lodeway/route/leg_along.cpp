#include <algorithm>
#include <cmath>
#include <map>
#include <queue>

#include <fmt/format.h>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/route/cut_legs.hpp"

namespace lodeway::route {

namespace {

using earth::GridPoint;
using walking::Leg;

constexpr double snap_m = 75, same_m = 0.01;

/// The lines that lead as a graph of their own vertices, with the two places hung in where they
/// touch.
class LineWalk {
 public:
  explicit LineWalk(const Cutting& c) : c_(c) {
    for (std::uint32_t l = 0; l < c.ground.map.lines.size(); ++l) {
      const auto& line = c.ground.map.lines[l];
      if (line.tunnel || !c.ground.kinds[line.label.kind].leads) continue;
      for (std::size_t i = 0; i + 1 < line.points.size(); ++i)
        join(node(line.points[i]), node(line.points[i + 1]), l);
    }
  }

  /// Hangs a place onto every leading line within reach: it cuts the segment it touches.
  [[nodiscard]] std::vector<std::size_t> touch(GridPoint at) {
    std::vector<std::size_t> out;
    for (const auto& near : c_.around.lines().near(at, snap_m)) {
      const auto& line = c_.ground.map.lines[near.ref.line];
      if (line.tunnel || !c_.ground.kinds[line.label.kind].leads) continue;
      const auto here = node(near.at), a = node(line.points[near.ref.segment]),
                 b = node(line.points[near.ref.segment + 1]);
      join(here, a, near.ref.line);
      join(here, b, near.ref.line);
      out.push_back(here);
    }
    return out;
  }

  struct Found {
    std::vector<GridPoint> points;
    std::vector<std::uint32_t> lines;  ///< of each step
  };
  /// Shortest by length; a change from one line to another counts as 40 m, so that one line is kept
  /// to.
  [[nodiscard]] Found shortest(const std::vector<std::size_t>& from,
                               const std::vector<std::size_t>& to, GridPoint start,
                               GridPoint end) const {
    std::vector<double> cost(at_.size(), 1e300);
    std::vector<std::pair<std::size_t, std::uint32_t>> before(at_.size(), {at_.size(), no_parent});
    using Item = std::pair<double, std::size_t>;
    std::priority_queue<Item, std::vector<Item>, std::greater<>> heap;
    for (const auto s : from) {
      cost[s] = 2 * earth::grid_distance_m(start, at_[s]);
      heap.emplace(cost[s], s);
    }
    while (!heap.empty()) {
      const auto [d, n] = heap.top();
      heap.pop();
      if (d > cost[n]) continue;
      for (const auto& [m, line] : next_[n]) {
        const bool change = before[n].second != no_parent && before[n].second != line;
        const double sum = d + earth::grid_distance_m(at_[n], at_[m]) + (change ? 40 : 0);
        if (sum >= cost[m]) continue;
        cost[m] = sum;
        before[m] = {n, line};
        heap.emplace(sum, m);
      }
    }
    std::size_t best = at_.size();
    double least = 1e300;
    for (const auto t : to) {
      const double sum = cost[t] + 2 * earth::grid_distance_m(at_[t], end);
      if (sum < least) {
        least = sum;
        best = t;
      }
    }
    Found out;
    for (auto n = best; n < at_.size(); n = before[n].first) {
      out.points.push_back(at_[n]);
      if (before[n].second != no_parent) out.lines.push_back(before[n].second);
    }
    std::ranges::reverse(out.points);
    std::ranges::reverse(out.lines);
    return out;
  }

 private:
  std::size_t node(GridPoint p) {
    const std::pair key{std::llround(p.east_m / same_m), std::llround(p.north_m / same_m)};
    const auto [found, fresh] = nodes_.try_emplace(key, at_.size());
    if (fresh) {
      at_.push_back(p);
      next_.emplace_back();
    }
    return found->second;
  }
  void join(std::size_t a, std::size_t b, std::uint32_t line) {
    if (a == b) return;
    next_[a].emplace_back(b, line);
    next_[b].emplace_back(a, line);
  }

  const Cutting& c_;
  std::map<std::pair<long long, long long>, std::size_t> nodes_;
  std::vector<GridPoint> at_;
  std::vector<std::vector<std::pair<std::size_t, std::uint32_t>>> next_;
};

}  // namespace

Result<std::vector<Leg>> leg_along(const Cutting& c, const walking::Waypoint& from,
                                   const walking::Waypoint& to) {
  LineWalk walk(c);
  const auto starts = walk.touch(from.at), ends = walk.touch(to.at);
  if (starts.empty() || ends.empty()) {
    return fail(FaultCode::no_way,
                fmt::format("along from {} to {}: no line that leads within {:.0f} m of {}",
                            from.name, to.name, snap_m, starts.empty() ? from.name : to.name));
  }
  const auto found = walk.shortest(starts, ends, from.at, to.at);
  if (found.lines.empty()) {
    return fail(FaultCode::no_way,
                fmt::format("along from {} to {}: the lines of the map do not join the two",
                            from.name, to.name));
  }
  std::vector<Leg> out;
  std::vector<int> followed;
  const auto same = [&](std::uint32_t a, std::uint32_t b) {
    const auto &x = c.ground.map.lines[a].label, &y = c.ground.map.lines[b].label;
    return a == b || (x.kind == y.kind && x.name == y.name);
  };
  for (std::size_t i = 0; i < found.lines.size(); ++i) {
    if (out.empty() || !same(found.lines[i], found.lines[i - 1])) {
      out.emplace_back();
      out.back().kind = walking::LegKind::along;
      out.back().line.push_back(i == 0 ? from.at : found.points[i]);
      if (i == 0 && !(from.at == found.points[0])) out.back().line.push_back(found.points[0]);
      followed.push_back(static_cast<int>(found.lines[i]));
    }
    out.back().line.push_back(found.points[i + 1]);
  }
  if (!(out.back().line.back() == to.at)) out.back().line.push_back(to.at);
  for (std::size_t i = 0; i < out.size(); ++i) {
    out[i].from = i == 0 ? from.name : out[i - 1].to;
    const auto name = landmarks::words(c.around.place(out[i].line.back()), c.language);
    out[i].to = i + 1 == out.size() ? to.name : name;
    describe(out[i], c, followed[i]);
  }
  return out;
}

}  // namespace lodeway::route
