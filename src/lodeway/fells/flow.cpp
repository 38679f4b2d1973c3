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

constexpr std::array<std::array<int, 2>, 8> around{
    {{0, 1}, {1, 0}, {0, -1}, {-1, 0}, {1, 1}, {1, -1}, {-1, -1}, {-1, 1}}};

}  // namespace

Flow route_water(const Nodes& nodes, double rise_m, std::span<const std::uint8_t> level) {
  const std::size_t n = nodes.size();
  Flow flow{std::vector<std::int32_t>(n, -1), {}, nodes.h, std::vector<double>(n, 0.0)};
  flow.order.reserve(n);
  const auto [low, high] = std::minmax_element(nodes.h.begin(), nodes.h.end());
  BucketQueue queue(*low, *high, n);
  std::vector<std::uint8_t> state(n, 0);  // 0 untouched, 1 waiting, 2 done
  const int rows = nodes.rows, cols = nodes.cols;
  for (int r = 0; r < rows; ++r)
    for (int c = 0; c < cols; c += (r == 0 || r == rows - 1) ? 1 : cols - 1) {
      const auto k = static_cast<std::size_t>(r) * static_cast<std::size_t>(cols) +
                     static_cast<std::size_t>(c);
      state[k] = 1;
      queue.push(static_cast<std::int32_t>(k), nodes.h[k]);
    }
  for (std::int32_t popped = queue.pop(); popped >= 0; popped = queue.pop()) {
    const auto k = static_cast<std::size_t>(popped);
    const int r = popped / cols, c = popped % cols;
    const double z = flow.filled_m[k];
    double steepest = 0;
    for (const auto& step : around) {
      const int rr = r + step[0], cc = c + step[1];
      if (rr < 0 || cc < 0 || rr >= rows || cc >= cols) continue;
      const std::int32_t other = rr * cols + cc;
      const auto j = static_cast<std::size_t>(other);
      if (state[j] == 0) {
        state[j] = 1;
        const bool flat = !level.empty() && level[j] != 0;
        flow.filled_m[j] = std::max(nodes.h[j], flat ? z : z + rise_m);
        flow.receiver[j] = popped;  // its way out if nothing steeper is found
        queue.push(other, flow.filled_m[j]);
      } else if (state[j] == 2 && flow.receiver[k] >= 0) {
        const double dx = nodes.x[j] - nodes.x[k], dy = nodes.y[j] - nodes.y[k];
        const double slope = (z - flow.filled_m[j]) / std::sqrt(dx * dx + dy * dy);
        if (slope > steepest) {
          steepest = slope;
          flow.receiver[k] = other;
        }
      }
    }
    state[k] = 2;
    flow.order.push_back(popped);
  }
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
