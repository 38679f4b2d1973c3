#pragma once
/// The plain judge: a binary heap over the same edges.
#include <queue>

#include "lodeway/route/field/field.hpp"

namespace lodeway::route {

inline std::vector<float> plain_dijkstra(const CostGround& g, const PaceTable& pace,
                                         const LineGraph* lines, std::span<const Seed> seeds,
                                         Direction direction) {
  const bool there = direction == Direction::from_seeds;
  const std::size_t nodes = g.height.size() + (lines != nullptr ? lines->at.size() : 0);
  std::vector<float> seconds(nodes, unreached_s);
  using Item = std::pair<float, std::uint32_t>;
  std::priority_queue<Item, std::vector<Item>, std::greater<>> heap;
  const auto relax = [&](std::uint32_t to, float s) {
    if (s < seconds[to]) {
      seconds[to] = s;
      heap.emplace(s, to);
    }
  };
  const auto edges = [&](std::span<const LineGraph::Edge> all, float s) {
    for (const auto& e : all) relax(e.to, s + (there ? e.there_s : e.back_s));
  };
  for (const auto& s : seeds) relax(s.node, s.seconds);
  while (!heap.empty()) {
    const auto [s, id] = heap.top();
    heap.pop();
    if (s > seconds[id]) continue;
    if (id >= g.height.size()) {
      const auto k = id - lines->first;
      edges(std::span(lines->edges).subspan(lines->start[k], lines->start[k + 1] - lines->start[k]),
            s);
      continue;
    }
    for (int m = 0; m < move_count; ++m) {
      const auto to = static_cast<std::uint32_t>(
          static_cast<int>(id) + moves()[static_cast<std::size_t>(m)].row * g.stride +
          moves()[static_cast<std::size_t>(m)].col);
      // The move that undoes m: the same step from the other end, so that `to_seeds` walks it
      // forwards.
      const int undo = m < 8 ? (m + 4) % 8 : 8 + (m - 8 + 4) % 8;
      relax(to, s + (there ? move_s(g, pace, id, m) : move_s(g, pace, to, undo)));
    }
    if (lines == nullptr) continue;
    for (std::size_t j = 0; j < lines->joined_cells.size(); ++j) {
      if (lines->joined_cells[j] == id) {
        edges(std::span(lines->joined_edges)
                  .subspan(lines->joined_start[j],
                           lines->joined_start[j + 1] - lines->joined_start[j]),
              s);
      }
    }
  }
  return seconds;
}

}  // namespace lodeway::route
