/// How much of a detour a way over a place is, roughly: so that legs that leave the lines are
/// looked for only where they may lead a way that is among the best. Method:
/// docs/method/legs-to-choose-from.md
#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <queue>
#include <span>

#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/route/graph/leg_graph.hpp"
#include "lodeway/route/legs/open_stretch.hpp"

namespace lodeway::route {

namespace {

using earth::GridPoint;

// All *practice*:
constexpr double wide_m = 40;  // a cell of open ground
constexpr float kept = 0.9F;   // of rise and slowness: steps go eight ways only, over wide cells
constexpr double by_the_end = 0.7;  // of what a leg costs beside walking; the rest by its length
constexpr double sample_m = 20;     // along a line
constexpr double least_entered_m = 80;  // shorter pieces are met at their ends only
constexpr double slack_s = 600;         // so much more time is no detour
constexpr float never = std::numeric_limits<float>::infinity();

/// What is added on the way to a node; by their first or their last node.
struct Link {
  std::uint32_t from, to;
  float seconds;
};

class Links {
 public:
  Links(std::size_t nodes, const std::vector<Link>& all, bool backwards)
      : start_(nodes + 1, 0), links_(all.size()) {
    const auto tail = [&](const Link& l) { return backwards ? l.to : l.from; };
    for (const auto& l : all) ++start_[tail(l) + 1];
    for (std::size_t i = 0; i < nodes; ++i) start_[i + 1] += start_[i];
    auto next = start_;
    for (const auto& l : all) {
      links_[next[tail(l)]++] = {l.from, backwards ? l.from : l.to, l.seconds};
    }
  }
  [[nodiscard]] std::span<const Link> of(std::uint32_t node) const {
    return std::span(links_).subspan(start_[node], start_[node + 1] - start_[node]);
  }

 private:
  std::vector<std::uint32_t> start_;
  std::vector<Link> links_;
};

}  // namespace

LegGraph::Footing LegGraph::footing(double likeliest) const {
  const auto& cover = seeking_.cutting.prepared.cover;
  const auto& heights = seeking_.cutting.ground.elevation;
  const auto& f = cover.frame();
  const int times = std::max(1, static_cast<int>(std::lround(wide_m / f.cell_m)));
  const auto middle = 0.5 * (from_.at + to_.at);
  const double half = 0.5 * reach_m_ + wide_m;
  const auto held = [](double v, int most) {
    return static_cast<int>(std::clamp(std::floor(v), 0.0, static_cast<double>(most)));
  };
  const int left = held((middle.east_m - half - f.west_m) / f.cell_m, f.cols),
            right = held((middle.east_m + half - f.west_m) / f.cell_m + 1, f.cols),
            top = held((f.north_m - middle.north_m - half) / f.cell_m, f.rows),
            bottom = held((f.north_m - middle.north_m + half) / f.cell_m + 1, f.rows);
  Footing out;
  out.frame = {f.west_m + left * f.cell_m, f.north_m - top * f.cell_m, f.cell_m * times,
               (bottom - top + times - 1) / times, (right - left + times - 1) / times};
  const auto& g = out.frame;
  std::vector<float> height(g.size()), factor(g.size());
  float last = 0;
  for (int r = 0; r < g.rows; ++r) {
    for (int c = 0; c < g.cols; ++c) {
      const int row = top + r * times, col = left + c * times;
      float best = 0;
      for (int i = row; i < std::min(row + times, f.rows); ++i) {
        for (int j = col; j < std::min(col + times, f.cols); ++j)
          best = std::max(best, cover.factor(i, j));
      }
      const float z =
          heights[std::min(row + times / 2, f.rows - 1), std::min(col + times / 2, f.cols - 1)];
      if (terrain::is_height(z)) last = z;  // a void is passed over as legs that are guessed do
      const auto k = static_cast<std::size_t>(r * g.cols + c);
      height[k] = last;
      factor[k] = std::min(best, 1.0F);
    }
  }
  const auto again = static_cast<float>(1 + guessed_retry * (1 - likeliest));
  out.there_s.assign(8 * g.size(), never);
  for (int r = 0; r < g.rows; ++r) {
    for (int c = 0; c < g.cols; ++c) {
      const auto k = static_cast<std::size_t>(r * g.cols + c);
      for (std::size_t m = 0; m < 8; ++m) {
        const auto& move = moves()[m];
        if (!g.holds(r + move.row, c + move.col)) continue;
        const auto to = static_cast<std::size_t>((r + move.row) * g.cols + c + move.col);
        const float slowness = kept / std::max(std::max(factor[k], factor[to]), 0.05F);
        out.there_s[8 * k + m] = again * seeking_.cutting.prepared.pace.step_s(
                                             move.cells * static_cast<float>(g.cell_m),
                                             kept * (height[to] - height[k]), slowness);
      }
    }
  }
  return out;
}

/// The least time over a stand, along the lines as they cost and over open ground as quick as legs
/// may be, beside the least of all.
void LegGraph::find_detours() {
  auto& have = *have_;
  const auto& lines = seeking_.lines;
  const double doubt_s = 60 * seeking_.judge.habits().doubt_min;
  // How surely each stand is found at best.
  std::vector<double> chance;
  double likeliest = 0;
  for (const auto& stand : have.stands) {
    chance.push_back(likely(stand, 1));
    likeliest = std::max(likeliest, chance.back());
  }
  const auto ground = footing(likeliest);
  const auto& g = ground.frame;
  const auto first_cell = first_met();
  const std::size_t nodes = first_cell + g.size();
  const auto cell_at = [&](GridPoint p) {
    auto [row, col] = g.cell_of(p);
    row = std::clamp(row, 0, g.rows - 1);
    col = std::clamp(col, 0, g.cols - 1);
    return first_cell + static_cast<std::uint32_t>(row * g.cols + col);
  };
  std::vector<Link> links;
  for (const auto& a : have.along) {
    links.push_back({a.arc.from, a.arc.to, static_cast<float>(a.arc.cost.seconds)});
  }
  double least_s = static_cast<double>(never);  // of a leg, beside walking
  for (std::size_t i = 0; i < have.stands.size(); ++i) {
    const auto& stand = have.stands[i];
    const auto cell = cell_at(stand.at);
    if (stand.place != last()) links.push_back({stand.place, cell, 0});
    if (stand.place == first() || (chance[i] < hopeless && stand.place != last())) continue;
    const double seconds = leg_costs_s + (1 - chance[i]) * doubt_s;
    least_s = std::min(least_s, seconds);
    links.push_back({cell, stand.place, static_cast<float>(by_the_end * seconds)});
  }
  for (const auto piece : have.live_pieces) {
    const auto& along = lines.pieces[piece];
    if (along.length_m < least_entered_m) continue;
    least_s = std::min<double>(least_s, 2 * leg_costs_s);
    const mapdata::Measured measured(along.points);
    const auto enter = [&](std::uint32_t cell, double from_m, double to_m) {
      for (const auto run : {2 * piece, 2 * piece + 1}) {
        const auto& cost = have.run_costs[run];
        if (!cost.open) continue;
        const double left = run % 2 == 0 ? along.length_m - to_m : from_m;
        const double share = std::clamp((left - sample_m) / along.length_m, 0.0, 1.0);
        links.push_back({cell, run_place(run),
                         static_cast<float>(by_the_end * 2 * leg_costs_s + share * cost.seconds)});
      }
    };
    std::uint32_t cell = nothing;
    double entered = 0, at = 0;
    for (;; at = std::min(at + sample_m, along.length_m)) {
      const auto next = cell_at(measured.at(at));
      if (next != cell && cell != nothing) enter(cell, entered, at);
      if (next != cell) entered = at;
      cell = next;
      if (at >= along.length_m) break;
    }
    enter(cell, entered, at);
  }
  std::array<float, 8> length;
  for (std::size_t m = 0; m < 8; ++m) length[m] = moves()[m].cells * static_cast<float>(g.cell_m);
  const auto by_m =
      static_cast<float>((1 - by_the_end) * least_s / seeking_.cutting.request.party.max_leg_m);
  const Links out(nodes, links, false), in(nodes, links, true);
  std::array<std::vector<float>, 2> to;
  seeking_.parallel.for_each_block(to.size(), [&](std::size_t block) {
    const bool back = block == 0;
    auto& sums = to[block];
    sums.assign(nodes, never);
    using Item = std::pair<float, std::uint32_t>;
    std::priority_queue<Item, std::vector<Item>, std::greater<>> heap;
    const auto reach = [&](std::uint32_t node, float sum) {
      if (!(sum < sums[node])) return;
      sums[node] = sum;
      heap.emplace(sum, node);
    };
    reach(back ? last() : first(), 0);
    while (!heap.empty()) {
      const auto [sum, node] = heap.top();
      heap.pop();
      if (sum > sums[node]) continue;
      for (const auto& link : (back ? in : out).of(node)) reach(link.to, sum + link.seconds);
      if (node < first_cell) continue;
      const auto k = node - first_cell;
      const int row = static_cast<int>(k) / g.cols, col = static_cast<int>(k) % g.cols;
      for (std::uint32_t m = 0; m < 8; ++m) {
        const auto& move = moves()[m];
        if (!g.holds(row + move.row, col + move.col)) continue;
        const auto next =
            static_cast<std::uint32_t>(static_cast<int>(k) + move.row * g.cols + move.col);
        const float step =
            back ? ground.there_s[8 * next + (m + 4) % 8] : ground.there_s[8 * k + m];
        reach(first_cell + next, sum + step + by_m * length[m]);
      }
    }
    sums.resize(first_cell);
  });
  const double best = static_cast<double>(to[0][first()]) + slack_s;
  have.detour.clear();
  for (const auto& stand : have.stands) {
    const double sum = static_cast<double>(to[0][stand.place] + to[1][stand.place]);
    have.detour.push_back((sum + slack_s) / best);
  }
}

}  // namespace lodeway::route
