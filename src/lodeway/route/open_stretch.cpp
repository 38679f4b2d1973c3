#include "lodeway/route/open_stretch.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

namespace lodeway::route {

namespace {

using earth::GridPoint;

constexpr std::size_t most_raw = 90, most_seen = 60;
constexpr double seen_reach_m = 60, apart_m = 20, bridge_reach_m = 60;

struct Corner {
  GridPoint at;
  double order = 0;         ///< along the stretch, in its points
  bool seen = false;        ///< something is there to see
  std::ptrdiff_t raw = -1;  ///< index of the stretch's own point, or -1
};

/// What the stretch crosses, and the points beside it, as places where a leg may well end.
std::vector<Corner> things_met(const Cutting& c, const std::vector<GridPoint>& open) {
  std::vector<Corner> out;
  const auto& map = c.ground.map;
  const auto add = [&](GridPoint at, double order) {
    if (c.prepared.cover.bar_at(at) != walking::Bar::none) return;
    if (std::ranges::none_of(
            out, [&](const Corner& k) { return earth::grid_distance_m(k.at, at) < apart_m; })) {
      out.push_back({at, order, true, -1});
    }
  };
  for (std::size_t i = 0; i + 1 < open.size(); ++i) {
    for (const auto& met : c.around.lines().crossings(open[i], open[i + 1])) {
      const auto& line = map.lines[met.ref.line];
      if (line.tunnel || !c.ground.kinds[line.label.kind].ticks) continue;
      GridPoint at = met.at;
      double least = bridge_reach_m;
      for (const auto& bridge : c.prepared.cover.openings()) {  // a beck or river is crossed there
        if (const double d = earth::grid_distance_m(bridge, met.at); d < least) {
          least = d;
          at = bridge;
        }
      }
      add(at, static_cast<double>(i) + met.at_fraction);
    }
  }
  for (const auto& point : map.points) {
    if (!c.ground.kinds[point.label.kind].ticks) continue;
    double least = seen_reach_m, order = -1;
    for (std::size_t i = 0; i < open.size(); ++i) {
      if (const double d = earth::grid_distance_m(point.at, open[i]); d < least) {
        least = d;
        order = static_cast<double>(i);
      }
    }
    if (order > 0 && order < static_cast<double>(open.size() - 1)) add(point.at, order);
  }
  if (out.size() > most_seen) out.resize(most_seen);
  return out;
}

std::vector<Corner> candidates(const Cutting& c, const std::vector<GridPoint>& open) {
  auto out = things_met(c, open);
  const std::size_t stride = std::max<std::size_t>(1, (open.size() + most_raw - 1) / most_raw);
  for (std::size_t i = 0; i < open.size(); i += stride) {
    out.push_back({open[i], static_cast<double>(i), false, static_cast<std::ptrdiff_t>(i)});
  }
  if (out.back().raw != static_cast<std::ptrdiff_t>(open.size()) - 1) {
    out.push_back({open.back(), static_cast<double>(open.size() - 1), false,
                   static_cast<std::ptrdiff_t>(open.size()) - 1});
  }
  std::ranges::stable_sort(out, {}, &Corner::order);
  // The stretch's own ends stay first and last.
  const auto first = std::ranges::find(out, 0, &Corner::raw);
  std::rotate(out.begin(), first, first + 1);
  const auto last =
      std::ranges::find(out, static_cast<std::ptrdiff_t>(open.size()) - 1, &Corner::raw);
  std::rotate(last, last + 1, out.end());
  return out;
}

/// Beside barred ground the found line itself, as few straight pieces as it takes.
void follow(const Cutting& c, const std::vector<GridPoint>& open, std::size_t from, std::size_t to,
            std::vector<GridPoint>& out) {
  while (from < to) {
    std::size_t next = to;
    while (next > from + 1 &&
           straight_s(c, open[from], open[next]) >= static_cast<double>(unreached_s))
      --next;
    out.push_back(open[next]);
    from = next;
  }
}

}  // namespace

double walk_s(const Cutting& c, GridPoint a, GridPoint b) {
  const auto& cost = c.prepared.cost;
  const double total = earth::grid_distance_m(a, b);
  if (total <= 0) return 0;
  const int steps = std::max(1, static_cast<int>(std::ceil(total / cost.frame.cell_m)));
  double seconds = 0, before = terrain::height_at(c.ground.elevation, a);
  for (int k = 1; k <= steps; ++k) {
    const auto p = a + (static_cast<double>(k) / steps) * (b - a);
    const auto middle = a + ((k - 0.5) / steps) * (b - a);
    const double z = terrain::height_at(c.ground.elevation, p), rise = z - before;
    const auto [r, col] = cost.frame.cell_of(middle);
    const float slowness =
        cost.frame.holds(r, col) ? std::min(20.0F, cost.slowness[cost.index(r, col)]) : 1.0F;
    seconds += static_cast<double>(
        c.prepared.pace.step_s(static_cast<float>(total / steps),
                               std::isfinite(rise) ? static_cast<float>(rise) : 0.0F, slowness));
    if (std::isfinite(z)) before = z;
  }
  return seconds;
}

double straight_s(const Cutting& c, GridPoint a, GridPoint b) {
  if (earth::grid_distance_m(a, b) > c.request.party.max_leg_m ||
      c.prepared.cover.first_bar(a, b).bar != walking::Bar::none) {
    return static_cast<double>(unreached_s);
  }
  return walk_s(c, a, b);
}

std::vector<GridPoint> corners(const Cutting& c, const std::vector<GridPoint>& open) {
  const auto at = candidates(c, open);
  constexpr double never = 1e300;
  std::vector<double> best(at.size(), never);
  std::vector<std::size_t> before(at.size(), 0);
  std::vector<bool> along_line(at.size(), false);
  best[0] = 0;
  std::size_t last_raw = 0;
  for (std::size_t j = 1; j < at.size(); ++j) {
    const double price = leg_costs_s + (at[j].seen || j + 1 == at.size() ? 0 : unseen_end_s);
    for (std::size_t i = 0; i < j; ++i) {
      if (best[i] >= never || best[i] + price >= best[j]) continue;
      const double s = straight_s(c, at[i].at, at[j].at);
      if (s >= static_cast<double>(unreached_s) || best[i] + s + price >= best[j]) continue;
      best[j] = best[i] + s + price;
      before[j] = i;
      along_line[j] = false;
    }
    if (at[j].raw < 0) continue;
    // The last resort between two of the stretch's own points: several legs along the found line.
    double s = 3 * leg_costs_s + price;
    for (auto k = at[last_raw].raw; k < at[j].raw; ++k) {
      s += walk_s(c, open[static_cast<std::size_t>(k)], open[static_cast<std::size_t>(k + 1)]);
    }
    if (best[last_raw] + s < best[j]) {
      best[j] = best[last_raw] + s;
      before[j] = last_raw;
      along_line[j] = true;
    }
    last_raw = j;
  }
  std::vector<std::size_t> chosen;
  for (std::size_t j = at.size() - 1; j != 0; j = before[j]) chosen.push_back(j);
  std::vector<GridPoint> out{at[0].at};
  for (auto j = chosen.rbegin(); j != chosen.rend(); ++j) {
    if (along_line[*j]) {
      follow(c, open, static_cast<std::size_t>(at[before[*j]].raw),
             static_cast<std::size_t>(at[*j].raw), out);
    } else {
      out.push_back(at[*j].at);
    }
  }
  return out;
}

}  // namespace lodeway::route
