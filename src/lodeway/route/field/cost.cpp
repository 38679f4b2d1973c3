#include "lodeway/route/field/cost.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>

#include "lodeway/walking/time_model.hpp"

namespace lodeway::route {

namespace {
const float root_2 = std::sqrt(2.0F), root_5 = std::sqrt(5.0F);
}  // namespace

const std::array<Move, move_count>& moves() {
  static const std::array<Move, move_count> all{{{-1, 0, 1},
                                                 {-1, 1, root_2},
                                                 {0, 1, 1},
                                                 {1, 1, root_2},
                                                 {1, 0, 1},
                                                 {1, -1, root_2},
                                                 {0, -1, 1},
                                                 {-1, -1, root_2},
                                                 {-2, 1, root_5},
                                                 {-1, 2, root_5},
                                                 {1, 2, root_5},
                                                 {2, 1, root_5},
                                                 {2, -1, root_5},
                                                 {1, -2, root_5},
                                                 {-1, -2, root_5},
                                                 {-2, -1, root_5}}};
  return all;
}

PaceTable::PaceTable(walking::TimeModel model, double flat_kmh)
    : table_(2 * half + 1), flat_(static_cast<float>(3.6 / flat_kmh)), cheapest_(unreached_s) {
  using walking::TimeModel;
  form_ = model == TimeModel::din_33466           ? Form::longer
          : model == TimeModel::naismith_langmuir ? Form::climb
                                                  : Form::speed;
  for (int k = 0; k <= 2 * half; ++k) {
    const double slope = static_cast<double>(k - half) / steps_a_unit;
    const double pace = walking::pace_s_per_m(model, slope, true, flat_kmh, 1.0);
    const double vertical = std::abs(slope) * (slope > 0 ? 3600.0 / 300 : 3600.0 / 500);
    table_[static_cast<std::size_t>(k)] =
        static_cast<float>(form_ == Form::longer  ? vertical
                           : form_ == Form::climb ? pace - 3.6 / flat_kmh
                                                  : pace);
    cheapest_ = std::min(cheapest_, this->pace(static_cast<std::size_t>(k), 1));
  }
}

float PaceTable::pace(std::size_t i, float slowness) const {
  const float t = table_[i], h = slowness * flat_;
  switch (form_) {
    case Form::speed:
      return slowness * t;
    case Form::climb:
      return h + t;
    case Form::longer:
      break;
  }
  return 0.75F * (h + t) + 0.25F * std::abs(h - t);
}

float PaceTable::step_s(float run_m, float rise_m, float slowness) const {
  assert(run_m > 0 && std::isfinite(rise_m));
  const float slope = std::clamp(rise_m * (1.0F / run_m), -2.0F, 2.0F);
  return run_m * pace(static_cast<std::size_t>(
                          static_cast<int>(std::nearbyint(slope * steps_a_unit)) + half),
                      slowness);
}

float PaceTable::dearest_s_per_m(float slowness) const {
  float most = 0;
  for (std::size_t i = 0; i < table_.size(); ++i) most = std::max(most, pace(i, slowness));
  return most;
}

CostGround cost_ground(const terrain::Elevation& heights, const walking::Cover& cover,
                       numeric::Parallel& parallel) {
  CostGround out;
  out.frame = heights.frame();
  out.stride = out.frame.cols + 4;
  const auto size =
      static_cast<std::size_t>(out.frame.rows + 4) * static_cast<std::size_t>(out.stride);
  out.height.assign(size, 0);
  out.slowness.assign(size, barred_slowness);
  constexpr int rows = 64;  // of a block
  const auto blocks = static_cast<std::size_t>((out.frame.rows + rows - 1) / rows);
  parallel.for_each_block(blocks, [&](std::size_t block) {
    const int first = static_cast<int>(block) * rows;
    for (int r = first; r < std::min(first + rows, out.frame.rows); ++r) {
      for (int c = 0; c < out.frame.cols; ++c) {
        if (cover.bar(r, c) != walking::Bar::none || !std::isfinite(heights[r, c])) continue;
        out.height[out.index(r, c)] = heights[r, c];
        out.slowness[out.index(r, c)] = attention / cover.factor(r, c);
      }
    }
  });
  return out;
}

float move_s(const CostGround& g, const PaceTable& pace, std::uint32_t from, int move) {
  const Move& m = moves()[static_cast<std::size_t>(move)];
  const auto at = [&](int row, int col) {
    return static_cast<std::uint32_t>(static_cast<int>(from) + row * g.stride + col);
  };
  const auto to = at(m.row, m.col);
  const float run = m.cells * static_cast<float>(g.frame.cell_m);
  const float rise = g.height[to] - g.height[from];
  if (move < 8) return pace.step_s(run, rise, 0.5F * (g.slowness[from] + g.slowness[to]));
  // Half way of a knight's move: between the two cells beside its middle.
  const auto a = at(m.row / 2, m.col / 2), b = at(m.row - m.row / 2, m.col - m.col / 2);
  const float middle = 0.5F * (g.height[a] + g.height[b]),
              slow = 0.5F * (g.slowness[a] + g.slowness[b]);
  return pace.step_s(0.5F * run, middle - g.height[from], 0.5F * (g.slowness[from] + slow)) +
         pace.step_s(0.5F * run, g.height[to] - middle, 0.5F * (slow + g.slowness[to]));
}

}  // namespace lodeway::route
