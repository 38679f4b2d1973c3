#include "lodeway/terrain/drainage.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <limits>
#include <queue>
#include <span>
#include <vector>

#include "lodeway/terrain/detail/basins.hpp"

namespace lodeway::terrain {

namespace {

using detail::Padded;
constexpr std::array<int, 8> flat_preference{0, 2, 4, 6, 1, 3, 5, 7};

/// The height at which each basin spills: Priority-Flood over basins in place of cells. A basin's
/// cells below that height are under water, the others keep their own height, so this is all that
/// is needed.
std::vector<float> spill_heights(std::size_t basins, const std::vector<detail::Pass>& passes) {
  std::vector<std::uint32_t> start(basins + 1, 0);
  for (const auto& p : passes) ++start[p.a + 1], ++start[p.b + 1];
  for (std::size_t i = 1; i <= basins; ++i) start[i] += start[i - 1];
  struct Exit {
    float height;
    std::uint32_t to;
  };
  std::vector<Exit> exits(2 * passes.size());
  auto fill = start;
  for (const auto& p : passes) {
    exits[fill[p.a]++] = {p.height, p.b};
    exits[fill[p.b]++] = {p.height, p.a};
  }
  std::vector<float> spill(basins, std::numeric_limits<float>::infinity());
  spill[0] = -std::numeric_limits<float>::infinity();
  const auto later = [](const Exit& a, const Exit& b) { return a.height > b.height; };
  std::priority_queue<Exit, std::vector<Exit>, decltype(later)> front(later);
  front.push({spill[0], 0});
  while (!front.empty()) {
    const auto [height, at] = front.top();
    front.pop();
    if (height > spill[at]) continue;
    for (auto e = start[at]; e < start[at + 1]; ++e) {
      const float over = std::max(height, exits[e].height);
      if (over >= spill[exits[e].to]) continue;
      spill[exits[e].to] = over;
      front.push({over, exits[e].to});
    }
  }
  return spill;
}

/// Raises the pits of `ground`; `descent` becomes that of the filled ground.
void fill(Padded& ground, std::vector<std::uint8_t>& descent, std::span<const std::uint8_t> sinks) {
  descent = detail::steepest_descent(ground);
  const auto basins = detail::basins_of(ground, descent, true, sinks);
  if (basins.bottom.size() == 1) return;
  const auto spill = spill_heights(basins.bottom.size(), detail::lowest_passes(ground, basins));
  for (std::size_t i = 0; i < ground.z.size(); ++i) {
    if (basins.label[i] != detail::Basins::none) {
      ground.z[i] = std::max(ground.z[i], spill[basins.label[i]]);
    }
  }
  descent = detail::steepest_descent(ground);
}

/// Gives a direction to the cells of flats, layer by layer from where the flat drains.
void drain_flats(const Padded& ground, std::vector<std::uint8_t>& to) {
  constexpr std::uint8_t waiting = detail::no_lower;
  std::vector<std::size_t> layer, next;
  const auto way_to_drained = [&](std::size_t i) {
    for (const int k : flat_preference) {
      const std::size_t j = ground.next(i, k);
      if (ground.z[j] == ground.z[i] && to[j] != waiting) return k;
    }
    return -1;
  };
  std::vector<std::pair<std::size_t, std::uint8_t>> found;
  for (std::size_t i = 0; i < to.size(); ++i) {
    if (to[i] != waiting) continue;
    const int k = way_to_drained(i);
    if (k >= 0) found.emplace_back(i, static_cast<std::uint8_t>(k));
  }
  while (!found.empty()) {
    layer.clear();
    for (const auto& [i, k] : found) {
      to[i] = k;
      layer.push_back(i);
    }
    found.clear();
    next.clear();
    for (const std::size_t i : layer) {
      for (int k = 0; k < 8; ++k) {
        const std::size_t j = ground.next(i, k);
        if (to[j] == waiting && ground.z[j] == ground.z[i]) next.push_back(j);
      }
    }
    std::ranges::sort(next);
    next.erase(std::unique(next.begin(), next.end()), next.end());
    for (const std::size_t j : next) {
      found.emplace_back(j, static_cast<std::uint8_t>(way_to_drained(j)));
    }
  }
}

std::vector<std::uint32_t> count_upstream(const Padded& ground, std::span<const std::uint8_t> to) {
  std::vector<std::uint8_t> givers(to.size(), 0);
  for (std::size_t i = 0; i < to.size(); ++i) {
    if (to[i] < 8) ++givers[ground.next(i, to[i])];
  }
  std::vector<std::uint32_t> count(to.size());
  for (std::size_t i = 0; i < to.size(); ++i) count[i] = to[i] == flow_unknown ? 0 : 1;
  for (std::size_t head = 0; head < to.size(); ++head) {
    if (givers[head] != 0) continue;
    // Down from a head for as long as everything that joins is counted; `done` keeps a cell that
    // this walk completed ahead of the scan from being taken for a head.
    constexpr std::uint8_t done = 255;
    std::size_t i = head;
    givers[i] = done;
    while (to[i] < 8) {
      const std::size_t j = ground.next(i, to[i]);
      count[j] += count[i];
      if (--givers[j] != 0) break;
      givers[j] = done;
      i = j;
    }
  }
  return count;
}

template <class T>
void copy_out(const Padded& ground, const std::vector<T>& from, Raster<T>& to) {
  for (int r = 0; r < ground.rows; ++r) {
    std::copy_n(from.data() + ground.at(r, 0), ground.cols, to.row(r).data());
  }
}

Drainage drain(const Elevation& heights, const Raster<std::uint8_t>* sinks) {
  const Frame& frame = heights.frame();
  Drainage out{Elevation(frame), Raster<std::uint8_t>(frame), Raster<std::uint32_t>(frame)};
  if (heights.empty()) return out;
  Padded ground(heights);
  std::vector<std::uint8_t> marks, to;
  if (sinks != nullptr) {
    assert(sinks->frame().rows == frame.rows && sinks->frame().cols == frame.cols);
    marks.assign(ground.z.size(), 0);
    for (int r = 0; r < frame.rows; ++r) {
      std::copy_n(sinks->row(r).data(), frame.cols, marks.data() + ground.at(r, 0));
    }
  }
  fill(ground, to, marks);
  for (std::size_t i = 0; i < to.size(); ++i) {
    const bool sink = !marks.empty() && marks[i] != 0 && to[i] != flow_unknown;
    if (sink || to[i] == (detail::no_lower | detail::at_rim)) {
      to[i] = flows_away | detail::at_rim;  // so that it is not one of those still waiting
    } else {
      to[i] &= 15;
    }
  }
  drain_flats(ground, to);
  for (auto& k : to) k &= 15;
  copy_out(ground, ground.z, out.filled);
  copy_out(ground, count_upstream(ground, to), out.upstream);
  copy_out(ground, to, out.to);
  return out;
}

}  // namespace

std::pair<int, int> downstream(int row, int col, std::uint8_t to) {
  assert(to < 8);
  return {row + detail::down_rows[to], col + detail::down_cols[to]};
}

Drainage drainage(const Elevation& heights) { return drain(heights, nullptr); }

Drainage drainage(const Elevation& heights, const Raster<std::uint8_t>& sinks) {
  return drain(heights, &sinks);
}

}  // namespace lodeway::terrain
