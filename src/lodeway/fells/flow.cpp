#include "lodeway/fells/flow.hpp"

#include <algorithm>
#include <cmath>

namespace lodeway::fells {

namespace {
constexpr std::int32_t nowhere = -1, untouched = -2;  // of a receiver
}

/// First in, first out within a bucket; buckets by height.
class Router::BucketQueue {
 public:
  BucketQueue(double lowest, double highest, int cols, std::vector<Spot>& spots)
      : lowest_(lowest),
        cols_(cols),
        buckets_(static_cast<std::size_t>((highest - lowest) * per_metre) + 64),
        spots_(spots) {}
  void push(std::int32_t node, double height) {
    const auto wanted = static_cast<std::size_t>(std::max(0.0, (height - lowest_) * per_metre));
    auto& bucket = buckets_[std::clamp(wanted, current_, buckets_.size() - 1)];
    if (bucket.head < 0)
      bucket.head = node;
    else
      spots_[static_cast<std::size_t>(bucket.tail)].next = node;
    bucket.tail = node;
  }
  [[nodiscard]] std::int32_t pop() {
    while (current_ < buckets_.size() && buckets_[current_].head < 0) ++current_;
    if (current_ == buckets_.size()) return -1;
    auto& head = buckets_[current_].head;
    const std::int32_t node = head;
    head = spots_[static_cast<std::size_t>(node)].next;
    if (head >= 0) fetch(head);
    return node;
  }

 private:
  static constexpr double per_metre = 20;
  struct Bucket {
    std::int32_t head = -1, tail = -1;
  };
  /// Neighbours in height lie anywhere: memory is asked for the next node's, and the rows beside
  /// it, while this one is worked on. Asking beyond the list's ends is allowed.
  void fetch(std::int32_t node) const {
    const auto* spot = spots_.data() + node;
    __builtin_prefetch(spot);
    __builtin_prefetch(spot - cols_);
    __builtin_prefetch(spot + cols_);
  }
  double lowest_;
  std::ptrdiff_t cols_;
  std::vector<Bucket> buckets_;
  std::vector<Spot>& spots_;
  std::size_t current_ = 0;
};

Router::Router(const Nodes& nodes, numeric::Parallel& parallel)
    : rows_(nodes.rows),
      cols_(nodes.cols),
      spacing_m_(nodes.spacing_m),
      on_lattice_m_{spacing_m_, std::sqrt(2 * (spacing_m_ * spacing_m_))},
      parallel_(parallel),
      around_{1, cols_, -1, -cols_, cols_ + 1, cols_ - 1, -cols_ - 1, -cols_ + 1} {
  if (nodes.x.empty()) return;
  const std::array<std::size_t, 4> steps{0, 1, 4, 5};
  for (std::size_t i = 0; i < apart_.size(); ++i) {
    apart_[i].assign(nodes.size(), 0.0);
    const auto step = static_cast<std::size_t>(around_[steps[i]]);
    for (std::size_t k = 0; k + step < nodes.size(); ++k) {
      const double dx = nodes.x[k + step] - nodes.x[k], dy = nodes.y[k + step] - nodes.y[k];
      apart_[i][k] = std::sqrt(dx * dx + dy * dy);
    }
  }
}

/// Fills the pits from the edge inwards and writes the order; every node gets the first neighbour
/// that was reached before it as its way out, the nodes of the edge none.
template <class Flat>
void Router::flood(double rise_m, const Flat& flat) {
  const auto [low, high] = std::ranges::minmax(spots_, {}, &Spot::filled_m);
  BucketQueue queue(low.filled_m, high.filled_m, cols_, spots_);
  for (int r = 0; r < rows_; ++r)
    for (int c = 0; c < cols_; c += (r == 0 || r == rows_ - 1) ? 1 : cols_ - 1) {
      const std::int32_t k = r * cols_ + c;
      auto& spot = spots_[static_cast<std::size_t>(k)];
      spot.receiver = nowhere;
      queue.push(k, spot.filled_m);
    }
  flow_.order.clear();
  for (std::int32_t popped = queue.pop(); popped >= 0; popped = queue.pop()) {
    auto& spot = spots_[static_cast<std::size_t>(popped)];
    spot.next = static_cast<std::int32_t>(flow_.order.size());
    flow_.order.push_back(popped);
    const double z = spot.filled_m;
    const auto reach = [&](std::int32_t other) {
      const auto j = static_cast<std::size_t>(other);
      auto& there = spots_[j];
      if (there.receiver != untouched) return;
      there.filled_m = std::max(there.filled_m, flat(j) ? z : z + rise_m);
      there.receiver = popped;  // its way out if nothing steeper is found
      queue.push(other, there.filled_m);
    };
    if (spot.receiver != nowhere) {
      for (const std::int32_t step : around_) reach(popped + step);
      continue;
    }
    const int r = popped / cols_, c = popped % cols_;
    for (const std::int32_t step : around_) {
      const int dr = (step + cols_ + 1) / cols_ - 1, dc = step - dr * cols_;
      if (r + dr >= 0 && c + dc >= 0 && r + dr < rows_ && c + dc < cols_) reach(popped + step);
    }
  }
}

/// `apart(i, k)`: metres from node k to its neighbour in direction i.
template <class Apart>
void Router::turn_row(int row, const Apart& apart) {
  for (int c = 0; c < cols_; ++c) {
    const std::int32_t here = row * cols_ + c;
    const auto k = static_cast<std::size_t>(here);
    const auto& spot = spots_[k];
    std::int32_t receiver = spot.receiver;
    if (receiver != nowhere) {
      double steepest = 0;
      for (std::size_t i = 0; i < around_.size(); ++i) {
        const std::int32_t other = here + around_[i];
        const auto& there = spots_[static_cast<std::size_t>(other)];
        const double slope = (spot.filled_m - there.filled_m) / apart(i, k);
        // Both asked at once: which it is cannot be foreseen, and a wrong guess costs more.
        const bool steeper = (slope > steepest) & (there.next < spot.next);
        steepest = steeper ? slope : steepest;
        receiver = steeper ? other : receiver;
      }
    }
    flow_.receiver[k] = receiver;
    flow_.filled_m[k] = spot.filled_m;
  }
}

/// Turns every node but those of the edge to the steepest of the neighbours that come before it.
/// In the order of the list, not of the flood: so each row is fetched once.
void Router::turn_to_the_steepest() {
  flow_.receiver.resize(spots_.size());
  flow_.filled_m.resize(spots_.size());
  if (apart_[0].empty()) {
    for_each_row(parallel_, rows_, [&](int row) {
      turn_row(row, [&](std::size_t i, std::size_t) { return on_lattice_m_[i / 4]; });
    });
    return;
  }
  const auto lines = [&] {
    std::array<std::pair<const double*, std::ptrdiff_t>, 8> out;
    const std::array<std::size_t, 8> which{0, 1, 0, 1, 2, 3, 2, 3};
    for (std::size_t i = 0; i < out.size(); ++i)
      out[i] = {apart_[which[i]].data(), std::min(0, around_[i])};
    return out;
  }();
  for_each_row(parallel_, rows_, [&](int row) {
    turn_row(row, [&](std::size_t i, std::size_t k) {
      return lines[i].first[static_cast<std::ptrdiff_t>(k) + lines[i].second];
    });
  });
}

void Router::add_areas() {
  const double cell = spacing_m_ * spacing_m_;
  flow_.area_m2.assign(spots_.size(), 0.0);
  for (auto it = flow_.order.rbegin(); it != flow_.order.rend(); ++it) {
    const auto k = static_cast<std::size_t>(*it);
    flow_.area_m2[k] += cell;
    if (flow_.receiver[k] >= 0)
      flow_.area_m2[static_cast<std::size_t>(flow_.receiver[k])] += flow_.area_m2[k];
  }
}

const Flow& Router::route(std::span<const double> heights_m, double rise_m,
                          std::span<const std::uint8_t> level) {
  spots_.resize(heights_m.size());
  flow_.order.reserve(heights_m.size());
  std::ranges::transform(heights_m, spots_.begin(),
                         [](double h) { return Spot{h, untouched, -1}; });
  if (level.empty())
    flood(rise_m, [](std::size_t) { return false; });
  else
    flood(rise_m, [&](std::size_t j) { return level[j] != 0; });
  turn_to_the_steepest();
  add_areas();
  return flow_;
}

}  // namespace lodeway::fells
