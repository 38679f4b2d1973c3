#include "lodeway/fells/flow.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace lodeway::fells {
namespace {

/// First in, first out within a bucket; buckets by height.
class BucketQueue {
 public:
  BucketQueue(double lowest, double highest, std::size_t nodes)
      : lowest_(lowest),
        head_(static_cast<std::size_t>((highest - lowest) * per_metre) + 64, -1),
        tail_(head_.size(), -1),
        next_(nodes, -1) {}
  void push(std::int32_t node, double height) {
    const auto wanted = static_cast<std::size_t>(std::max(0.0, (height - lowest_) * per_metre));
    const std::size_t b = std::clamp(wanted, current_, head_.size() - 1);
    if (head_[b] < 0)
      head_[b] = node;
    else
      next_[static_cast<std::size_t>(tail_[b])] = node;
    tail_[b] = node;
  }
  [[nodiscard]] std::int32_t pop() {
    while (current_ < head_.size() && head_[current_] < 0) ++current_;
    if (current_ == head_.size()) return -1;
    const std::int32_t node = head_[current_];
    head_[current_] = next_[static_cast<std::size_t>(node)];
    return node;
  }

 private:
  static constexpr double per_metre = 20;
  double lowest_;
  std::vector<std::int32_t> head_, tail_, next_;
  std::size_t current_ = 0;
};

/// How far on in the list of nodes its eight neighbours stand, straight ones first.
std::array<std::int32_t, 8> around(std::int32_t cols) {
  return {1, cols, -1, -cols, cols + 1, cols - 1, -cols - 1, -cols + 1};
}

/// Fills the pits from the edge inwards and writes the order; every node gets the first neighbour
/// that was reached before it as its way out, the nodes of the edge none.
void flood(const Nodes& nodes, double rise_m, std::span<const std::uint8_t> level, Flow& flow) {
  const auto [low, high] = std::minmax_element(nodes.h.begin(), nodes.h.end());
  BucketQueue queue(*low, *high, nodes.size());
  enum : std::uint8_t { untouched, touched, edge };
  std::vector<std::uint8_t> state(nodes.size(), untouched);
  const int rows = nodes.rows, cols = nodes.cols;
  for (int r = 0; r < rows; ++r)
    for (int c = 0; c < cols; c += (r == 0 || r == rows - 1) ? 1 : cols - 1) {
      const auto k = static_cast<std::size_t>(r) * static_cast<std::size_t>(cols) +
                     static_cast<std::size_t>(c);
      state[k] = edge;
      queue.push(static_cast<std::int32_t>(k), nodes.h[k]);
    }
  const auto next_to = around(cols);
  for (std::int32_t popped = queue.pop(); popped >= 0; popped = queue.pop()) {
    const auto k = static_cast<std::size_t>(popped);
    const double z = flow.filled_m[k];
    flow.order.push_back(popped);
    const auto reach = [&](std::int32_t other) {
      const auto j = static_cast<std::size_t>(other);
      if (state[j] != untouched) return;
      state[j] = touched;
      const bool flat = !level.empty() && level[j] != 0;
      flow.filled_m[j] = std::max(nodes.h[j], flat ? z : z + rise_m);
      flow.receiver[j] = popped;  // its way out if nothing steeper is found
      queue.push(other, flow.filled_m[j]);
    };
    if (state[k] != edge) {
      for (const std::int32_t step : next_to) reach(popped + step);
      continue;
    }
    const int r = popped / cols, c = popped % cols;
    for (const std::int32_t step : next_to) {
      const int dr = (step + cols + 1) / cols - 1, dc = step - dr * cols;
      if (r + dr >= 0 && c + dc >= 0 && r + dr < rows && c + dc < cols) reach(popped + step);
    }
  }
}

/// Turns every node but those of the edge to the steepest of the neighbours that come before it.
/// In the order of the list, not of the flood: so each row is fetched once.
void turn_to_the_steepest(const Nodes& nodes, Flow& flow) {
  std::vector<std::int32_t> rank(nodes.size());
  for (std::size_t i = 0; i < flow.order.size(); ++i)
    rank[static_cast<std::size_t>(flow.order[i])] = static_cast<std::int32_t>(i);
  const auto next_to = around(nodes.cols);
  for (int r = 1; r + 1 < nodes.rows; ++r)
    for (int c = 1; c + 1 < nodes.cols; ++c) {
      const std::int32_t here = r * nodes.cols + c;
      const auto k = static_cast<std::size_t>(here);
      const double x = nodes.x[k], y = nodes.y[k], z = flow.filled_m[k];
      double steepest = 0;
      for (const std::int32_t step : next_to) {
        const auto j = static_cast<std::size_t>(here + step);
        const double down = z - flow.filled_m[j];
        if (down <= 0 || rank[j] > rank[k]) continue;
        const double dx = nodes.x[j] - x, dy = nodes.y[j] - y;
        const double slope = down / std::sqrt(dx * dx + dy * dy);
        if (slope > steepest) {
          steepest = slope;
          flow.receiver[k] = here + step;
        }
      }
    }
}

}  // namespace

Flow route_water(const Nodes& nodes, double rise_m, std::span<const std::uint8_t> level) {
  const std::size_t n = nodes.size();
  Flow flow{std::vector<std::int32_t>(n, -1), {}, nodes.h, std::vector<double>(n, 0.0)};
  flow.order.reserve(n);
  flood(nodes, rise_m, level, flow);
  turn_to_the_steepest(nodes, flow);
  const double cell = nodes.spacing_m * nodes.spacing_m;
  for (auto it = flow.order.rbegin(); it != flow.order.rend(); ++it) {
    const auto k = static_cast<std::size_t>(*it);
    flow.area_m2[k] += cell;
    if (flow.receiver[k] >= 0)
      flow.area_m2[static_cast<std::size_t>(flow.receiver[k])] += flow.area_m2[k];
  }
  return flow;
}

}  // namespace lodeway::fells
