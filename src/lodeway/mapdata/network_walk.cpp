/// Following the net: chains of like edges, and the shortest walk.
#include <algorithm>
#include <cmath>
#include <limits>
#include <map>
#include <queue>

#include "lodeway/mapdata/network.hpp"
#include "lodeway/mapdata/polyline.hpp"

namespace lodeway::mapdata {

std::vector<Chain> Network::chains(std::span<const LineFeature> lines) const {
  const auto alike = [&](std::uint32_t a, std::uint32_t b) {
    const auto &x = lines[edges_[a].line].label, &y = lines[edges_[b].line].label;
    return x.kind == y.kind && x.name == y.name;
  };
  /// The one edge that goes on from `edge` through `node`, or no_edge.
  const auto onward = [&](std::uint32_t edge, std::uint32_t node) {
    std::uint32_t other = no_edge;
    int count = 0;
    for (const auto e : nodes_[node].edges) {
      if (!alike(e, edge)) continue;
      ++count;
      if (e != edge) other = e;
    }
    return count == 2 ? other : no_edge;
  };
  std::vector<Chain> out;
  std::vector<bool> done(edges_.size(), false);
  for (std::uint32_t first = 0; first < edges_.size(); ++first) {
    if (done[first]) continue;
    // Back to where the chain begins, then forward to its end.
    const auto walk = [&](std::uint32_t edge, bool back, auto&& visit) {
      const auto begin = edge;
      while (true) {
        if (!visit(edge, back)) return;
        const auto node = back ? edges_[edge].from : edges_[edge].to;
        const auto next = onward(edge, node);
        if (next == no_edge || next == begin) return;
        back = edges_[next].from != node;
        edge = next;
      }
    };
    std::uint32_t start = first;
    bool start_back = false;
    walk(first, true, [&](std::uint32_t e, bool back) {
      start = e;
      start_back = !back;
      return true;
    });
    Chain chain;
    walk(start, start_back, [&](std::uint32_t e, bool back) {
      if (done[e]) return false;
      done[e] = true;
      if (chain.nodes.empty()) chain.nodes.push_back(back ? edges_[e].to : edges_[e].from);
      chain.edges.push_back(e);
      chain.backwards.push_back(back);
      chain.nodes.push_back(back ? edges_[e].from : edges_[e].to);
      return true;
    });
    out.push_back(std::move(chain));
  }
  return out;
}

std::vector<GridPoint> Network::points_of(const Chain& chain) const {
  std::vector<GridPoint> out;
  for (std::size_t i = 0; i < chain.edges.size(); ++i) {
    auto points = edges_[chain.edges[i]].points;
    if (chain.backwards[i]) std::ranges::reverse(points);
    out.insert(out.end(), points.begin() + (out.empty() ? 0 : 1), points.end());
  }
  return out;
}

std::vector<OnNetwork> Network::touch(GridPoint p, double radius_m) const {
  std::vector<OnNetwork> out;
  for (const auto& n : index_.near(p, radius_m))
    out.push_back({n.ref.line, n.along_m, n.at, n.distance_m});
  std::ranges::stable_sort(out, {}, &OnNetwork::away_m);
  return out;
}

namespace {

/// A stretch of an edge, walked from one distance to another.
void add_piece(NetworkWalk& walk, const NetworkEdge& edge, double from_m, double to_m) {
  const auto piece = Measured(edge.points).piece(from_m, to_m);
  for (const auto p : piece) {
    if (!walk.points.empty() && walk.points.back() == p) continue;
    if (!walk.points.empty()) walk.lines.push_back(edge.line);
    walk.points.push_back(p);
  }
}

}  // namespace

std::optional<NetworkWalk> Network::shortest(std::span<const OnNetwork> from,
                                             std::span<const OnNetwork> to, double change_m) const {
  constexpr double never = std::numeric_limits<double>::infinity();
  // A state is an edge walked to one of its ends: 2 edge (backwards, to `from`) or 2 edge + 1.
  using State = std::uint32_t;
  std::vector<double> cost(2 * edges_.size(), never);
  std::vector<State> before(cost.size(), no_edge);           // no_edge: set out here
  std::vector<std::uint32_t> set_out(cost.size(), no_edge);  // index into `from`
  using Item = std::pair<double, State>;
  std::priority_queue<Item, std::vector<Item>, std::greater<>> heap;
  const auto offer = [&](State s, double sum, State via, std::uint32_t begin) {
    if (sum >= cost[s]) return;
    cost[s] = sum;
    before[s] = via;
    set_out[s] = begin;
    heap.emplace(sum, s);
  };
  double least = never;
  std::size_t best_from = 0, best_to = 0;
  State best_state = no_edge;  // no_edge: both on one edge
  for (std::uint32_t i = 0; i < from.size(); ++i) {
    const auto& a = from[i];
    offer(2 * a.edge, a.along_m + 2 * a.away_m, no_edge, i);
    offer(2 * a.edge + 1, edges_[a.edge].length_m - a.along_m + 2 * a.away_m, no_edge, i);
    for (std::size_t k = 0; k < to.size(); ++k) {
      if (to[k].edge != a.edge) continue;
      const double sum = std::abs(to[k].along_m - a.along_m) + 2 * (a.away_m + to[k].away_m);
      if (sum < least) {
        least = sum;
        best_from = i;
        best_to = k;
      }
    }
  }
  std::multimap<std::uint32_t, std::size_t> ends;  // of each node: places of `to` reached from it
  for (std::size_t k = 0; k < to.size(); ++k) {
    ends.emplace(edges_[to[k].edge].from, k);
    ends.emplace(edges_[to[k].edge].to, k);
  }
  while (!heap.empty()) {
    const auto [sum, state] = heap.top();
    heap.pop();
    if (sum >= least) break;
    if (sum > cost[state]) continue;
    const auto& here = edges_[state / 2];
    const auto node = state % 2 == 1 ? here.to : here.from;
    const auto changed = [&](const NetworkEdge& e) { return e.line != here.line ? change_m : 0; };
    for (auto [k, last] = ends.equal_range(node); k != last; ++k) {
      const auto& t = to[k->second];
      const auto& edge = edges_[t.edge];
      double rest = never;
      if (edge.from == node) rest = t.along_m;
      if (edge.to == node) rest = std::min(rest, edge.length_m - t.along_m);
      const double whole = sum + changed(edge) + rest + 2 * t.away_m;
      if (whole >= least) continue;
      least = whole;
      best_state = state;
      best_to = k->second;
    }
    for (const auto e : nodes_[node].edges) {
      const auto& edge = edges_[e];
      const double next = sum + edge.length_m + changed(edge);
      if (edge.from == node) offer(2 * e + 1, next, state, set_out[state]);
      if (edge.to == node) offer(2 * e, next, state, set_out[state]);
    }
  }
  if (least == never) return std::nullopt;
  NetworkWalk out;
  const auto& end = to[best_to];
  if (best_state == no_edge) {
    add_piece(out, edges_[end.edge], from[best_from].along_m, end.along_m);
  } else {
    std::vector<State> states;
    for (State s = best_state; s != no_edge; s = before[s]) states.push_back(s);
    std::ranges::reverse(states);
    for (std::size_t i = 0; i < states.size(); ++i) {
      const auto& edge = edges_[states[i] / 2];
      const bool forward = states[i] % 2 == 1;
      const double begin = i > 0 ? (forward ? 0 : edge.length_m) : from[set_out[states[0]]].along_m;
      add_piece(out, edge, begin, forward ? edge.length_m : 0);
    }
    const auto& last = edges_[states.back() / 2];
    const auto node = states.back() % 2 == 1 ? last.to : last.from;
    const auto& edge = edges_[end.edge];
    const bool from_first =
        edge.from == node && (edge.to != node || end.along_m <= edge.length_m / 2);
    add_piece(out, edge, from_first ? 0 : edge.length_m, end.along_m);
  }
  if (out.points.size() < 2) return std::nullopt;
  out.length_m = mapdata::length_m(out.points);
  return out;
}

}  // namespace lodeway::mapdata
