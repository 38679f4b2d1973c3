#include "lodeway/learn/debrief/match.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "lodeway/mapdata/polyline.hpp"

namespace lodeway::learn::detail {

namespace {
// One sigma of receiver and map together, and of how unevenly plan and track advance [practice].
// A point beyond most_cost sigmas costs no more: who is far off is not pulled anywhere.
constexpr double away_sd_m = 25, most_cost = 18, advance_sd = 0.5;
constexpr int back_steps = 2;
}  // namespace

std::vector<WalkedPoint> thinned(const std::vector<WalkedPoint>& track, double step_m) {
  std::vector<WalkedPoint> out;
  for (const auto& p : track) {
    if (out.empty() || earth::grid_distance_m(out.back().at, p.at) >= step_m) out.push_back(p);
  }
  if (!track.empty() && out.back().time_s < track.back().time_s) out.push_back(track.back());
  return out;
}

std::vector<Matched> match(const std::vector<GridPoint>& plan,
                           const std::vector<WalkedPoint>& track, double step_m) {
  const mapdata::Measured measured(plan);
  const auto states = static_cast<std::size_t>(std::ceil(measured.length_m() / step_m)) + 1;
  std::vector<GridPoint> places(states);
  for (std::size_t s = 0; s < states; ++s) places[s] = measured.at(static_cast<double>(s) * step_m);
  constexpr float never = 1e30F;
  std::vector<float> cost(states), next(states, never);
  std::vector<std::vector<std::int16_t>> came(track.size(), std::vector<std::int16_t>(states, 0));
  const auto away = [&](std::size_t i, std::size_t s) {
    const double d = earth::grid_distance_m(track[i].at, places[s]) / away_sd_m;
    return static_cast<float>(std::min(0.5 * d * d, most_cost));
  };
  for (std::size_t s = 0; s < states; ++s) cost[s] = away(0, s);
  for (std::size_t i = 1; i < track.size(); ++i) {
    const double moved = earth::grid_distance_m(track[i - 1].at, track[i].at) / step_m;
    const int most = back_steps + static_cast<int>(std::ceil(2 * moved)) + 1;
    std::ranges::fill(next, never);
    for (int by = -back_steps; by <= most; ++by) {
      const double off = (by - moved) / (advance_sd * std::max(moved, 1.0));
      const auto penalty = static_cast<float>(std::min(0.5 * off * off, most_cost));
      for (std::size_t s = 0; s < states; ++s) {
        const auto to = static_cast<std::ptrdiff_t>(s) + by;
        if (to < 0 || to >= static_cast<std::ptrdiff_t>(states)) continue;
        const float c = cost[s] + penalty;
        if (c >= next[static_cast<std::size_t>(to)]) continue;
        next[static_cast<std::size_t>(to)] = c;
        came[i][static_cast<std::size_t>(to)] = static_cast<std::int16_t>(by);
      }
    }
    for (std::size_t s = 0; s < states; ++s) cost[s] = next[s] + away(i, s);
  }
  std::vector<Matched> out(track.size());
  auto s = static_cast<std::size_t>(std::ranges::min_element(cost) - cost.begin());
  for (std::size_t i = track.size(); i-- > 0;) {
    // Finer than the steps: the nearest place within one of them.
    double best = std::numeric_limits<double>::infinity();
    for (int k = -10; k <= 10; ++k) {
      const double at =
          std::clamp((static_cast<double>(s) + 0.1 * k) * step_m, 0.0, measured.length_m());
      const double d = earth::grid_distance_m(track[i].at, measured.at(at));
      if (d < best) {
        best = d;
        out[i] = {at, d};
      }
    }
    s = static_cast<std::size_t>(static_cast<std::ptrdiff_t>(s) - came[i][s]);
  }
  return out;
}

}  // namespace lodeway::learn::detail
