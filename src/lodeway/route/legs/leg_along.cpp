#include <algorithm>
#include <cmath>
#include <map>
#include <queue>

#include <fmt/format.h>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/route/legs/cut_legs.hpp"
#include "lodeway/walking/course.hpp"

namespace lodeway::route {

namespace {

using earth::GridPoint;
using walking::Bar;
using walking::Leg;

constexpr double snap_m = 75, same_m = 0.01, look_m = 2000;
constexpr double at_once_m = 25;  // so few metres along another thing are no leg; *practice*
constexpr double change_m = 40;   // a change of line counts as this, so that one line is kept to

}  // namespace

walking::Cover::Blocked along_bar(const Cutting& c, mapdata::Kind kind, GridPoint a, GridPoint b) {
  const auto& cover = c.prepared.cover;
  if (!walking::is_path(kind)) {
    auto met = cover.first_bar(a, b);
    // a stream ends in its river: who follows it to there stands on one bank, and the place where
    // both meet is on both
    const bool own = (met.bar == Bar::river && kind == mapdata::Kind::river) ||
                     (met.bar == Bar::water && kind == mapdata::Kind::shore);
    return own ? walking::Cover::Blocked{} : met;
  }
  const int steps = std::max(
      1, static_cast<int>(std::ceil(2 * earth::grid_distance_m(a, b) / cover.frame().cell_m)));
  for (int k = 0; k <= steps; ++k) {
    const auto p = a + (static_cast<double>(k) / steps) * (b - a);
    const auto bar = cover.bar_at(p);
    if (bar == Bar::avoided || bar == Bar::forbidden || bar == Bar::outside)
      return {bar, p, cover.name_at(p)};
  }
  return {};
}

namespace {

/// The lines that lead as a graph of their own vertices, with the two places hung in where they
/// touch.
class LineWalk {
 public:
  explicit LineWalk(const Cutting& c) : c_(c) {
    for (std::uint32_t l = 0; l < c.ground.map.lines.size(); ++l) {
      if (!leads(l)) continue;
      const auto& points = c.ground.map.lines[l].points;
      for (std::size_t i = 0; i + 1 < points.size(); ++i)
        join(node(points[i]), node(points[i + 1]), l);
    }
  }

  /// Hangs a place onto every leading line within reach, unless a river or cliff lies between.
  [[nodiscard]] std::vector<std::size_t> touch(GridPoint at) {
    std::vector<std::size_t> out;
    for (const auto& near : c_.around.lines().near(at, snap_m)) {
      if (!leads(near.ref.line)) continue;
      const auto& line = c_.ground.map.lines[near.ref.line];
      if (line.label.kind != mapdata::Kind::river &&
          c_.prepared.cover.line_met(at, near.at).bar != Bar::none)
        continue;
      const auto here = node(near.at);
      join(here, node(line.points[near.ref.segment]), near.ref.line);
      join(here, node(line.points[near.ref.segment + 1]), near.ref.line);
      out.push_back(here);
    }
    return out;
  }

  /// "the nearest is a wall, 120 m off", or that there is none.
  [[nodiscard]] std::string nearest(GridPoint at) const {
    const mapdata::NearLine* best = nullptr;
    const auto all = c_.around.lines().near(at, look_m);
    for (const auto& near : all) {
      if (leads(near.ref.line) && (best == nullptr || near.distance_m < best->distance_m))
        best = &near;
    }
    if (best == nullptr) return fmt::format("there is none within {:.0f} m", look_m);
    const auto& label = c_.ground.map.lines[best->ref.line].label;
    return fmt::format("the nearest, {}, is {:.0f} m off",
                       label.name.empty() ? mapdata::kind_words(label.kind) : label.name,
                       best->distance_m);
  }

  struct Found {
    std::vector<GridPoint> points;
    std::vector<std::uint32_t> lines;  ///< of each step
    walking::Cover::Blocked bar;       ///< the first that forbids it, when bars were not minded
  };
  /// Shortest by length.
  [[nodiscard]] Found shortest(const std::vector<std::size_t>& from,
                               const std::vector<std::size_t>& to, GridPoint start, GridPoint end,
                               bool mind_bars) const {
    std::vector<double> cost(at_.size(), 1e300);
    std::vector<std::pair<std::size_t, std::uint32_t>> before(at_.size(), {at_.size(), no_parent});
    using Item = std::pair<double, std::size_t>;
    std::priority_queue<Item, std::vector<Item>, std::greater<>> heap;
    for (const auto s : from) {
      cost[s] = std::min(cost[s], 2 * earth::grid_distance_m(start, at_[s]));
      heap.emplace(cost[s], s);
    }
    std::size_t best = at_.size();
    double least = 1e300;
    while (!heap.empty() && heap.top().first < least) {
      const auto [d, n] = heap.top();
      heap.pop();
      if (d > cost[n]) continue;
      if (std::ranges::find(to, n) != to.end()) {
        if (const double sum = d + 2 * earth::grid_distance_m(at_[n], end); sum < least) {
          least = sum;
          best = n;
        }
      }
      for (const auto& [m, line] : next_[n]) {
        const bool change = before[n].second != no_parent && before[n].second != line;
        const double sum = d + earth::grid_distance_m(at_[n], at_[m]) + (change ? change_m : 0);
        if (sum >= cost[m]) continue;
        if (mind_bars && bar(line, n, m).bar != Bar::none) continue;
        cost[m] = sum;
        before[m] = {n, line};
        heap.emplace(sum, m);
      }
    }
    Found out;
    for (auto n = best; n < at_.size(); n = before[n].first) {
      out.points.push_back(at_[n]);
      if (before[n].second == no_parent) break;
      out.lines.push_back(before[n].second);
      if (const auto met = bar(before[n].second, before[n].first, n); met.bar != Bar::none)
        out.bar = met;
    }
    std::ranges::reverse(out.points);
    std::ranges::reverse(out.lines);
    return out;
  }

 private:
  [[nodiscard]] bool leads(std::uint32_t l) const {
    const auto& line = c_.ground.map.lines[l];
    return !line.tunnel && c_.ground.kinds[line.label.kind].leads;
  }
  [[nodiscard]] walking::Cover::Blocked bar(std::uint32_t line, std::size_t a,
                                            std::size_t b) const {
    return along_bar(c_, c_.ground.map.lines[line].label.kind, at_[a], at_[b]);
  }
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

/// The steps as pieces: a new one where what is followed is another thing.
std::vector<Piece> pieces_of(const Cutting& c, const std::vector<GridPoint>& points,
                             const std::vector<std::uint32_t>& lines) {
  std::vector<Piece> out;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const auto& label = c.ground.map.lines[lines[i]].label;
    const auto* last = out.empty() ? nullptr : &c.ground.map.lines[out.back().line].label;
    if (last == nullptr || last->kind != label.kind || last->name != label.name) {
      out.push_back({lines[i], {points[i]}});
    }
    out.back().points.push_back(points[i + 1]);
  }
  return out;
}

/// Who stands beside what is followed sets no leg for the few steps to it along another thing, nor
/// for the last few to the end.
void join_ends(std::vector<Piece>& pieces) {
  if (pieces.size() > 1 && mapdata::length_m(pieces.front().points) < at_once_m) {
    auto& next = pieces[1].points;
    const auto& first = pieces.front().points;
    next.insert(next.begin(), first.begin(), first.end() - 1);
    pieces.erase(pieces.begin());
  }
  if (pieces.size() > 1 && mapdata::length_m(pieces.back().points) < at_once_m) {
    auto& before = pieces[pieces.size() - 2].points;
    const auto& last = pieces.back().points;
    before.insert(before.end(), last.begin() + 1, last.end());
    pieces.pop_back();
  }
}

}  // namespace

Result<std::vector<Leg>> leg_along(const Cutting& c, const walking::Waypoint& from,
                                   const walking::Waypoint& to) {
  LineWalk walk(c);
  const auto starts = walk.touch(from.at), ends = walk.touch(to.at);
  const auto fault = [&](const std::string& why) {
    return fail(FaultCode::no_way, fmt::format("along from {} to {}: {}", from.name, to.name, why));
  };
  for (const auto& [touched, point] : {std::pair{&starts, &from}, std::pair{&ends, &to}}) {
    if (!touched->empty()) continue;
    return fault(fmt::format("no line that leads within {:.0f} m of {}: {}", snap_m, point->name,
                             walk.nearest(point->at)));
  }
  const auto found = walk.shortest(starts, ends, from.at, to.at, true);
  if (found.lines.empty()) {
    const auto over = walk.shortest(starts, ends, from.at, to.at, false);
    if (over.lines.empty()) return fault("the lines of the map do not join the two");
    return fault(fmt::format("what joins the two meets {} at {:.0f} {:.0f}",
                             walking::bar_words(over.bar), over.bar.at.east_m,
                             over.bar.at.north_m));
  }
  auto pieces = pieces_of(c, found.points, found.lines);
  auto& first = pieces.front().points;
  if (!(first.front() == from.at)) first.insert(first.begin(), from.at);
  if (!(pieces.back().points.back() == to.at)) pieces.back().points.push_back(to.at);
  join_ends(pieces);
  return legs_of(c, pieces, from.name, to.name);
}

}  // namespace lodeway::route
