#include "lodeway/route/legs/open_stretch.hpp"

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
  std::vector<Corner> crossings;
  for (std::size_t i = 0; i + 1 < open.size(); ++i) {
    for (const auto& met : c.around.lines().crossings(open[i], open[i + 1])) {
      const auto& line = map.lines[met.ref.line];
      if (line.tunnel) continue;
      const double order = static_cast<double>(i) + met.at_fraction;
      GridPoint bridge{};
      double least = bridge_reach_m;
      for (const auto& opening : c.prepared.cover.openings()) {
        if (const double d = earth::grid_distance_m(opening, met.at); d < least) {
          least = d;
          bridge = opening;
        }
      }
      if (least < bridge_reach_m) {
        add(bridge, order);  // before all else: without it the river is not crossed
      } else if (c.ground.kinds[line.label.kind].ticks) {
        crossings.push_back({met.at, order, true, -1});
      }
    }
  }
  for (const auto& met : crossings) add(met.at, met.order);
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

bool clear(const Cutting& c, GridPoint a, GridPoint b) {
  return earth::grid_distance_m(a, b) <= c.request.party.max_leg_m && c.prepared.cover.clear(a, b);
}

/// The stretch's own points from one to another in as few clear straight pieces as taking always
/// the farthest gives; where even neighbours are not clear (beside a river's cells), these.
std::vector<std::size_t> pulled_taut(const Cutting& c, const std::vector<GridPoint>& open,
                                     std::size_t from, std::size_t to) {
  std::vector<std::size_t> out;
  while (from < to) {
    std::size_t next = to;
    while (next > from + 1 && !clear(c, open[from], open[next])) --next;
    out.push_back(next);
    from = next;
  }
  return out;
}

/// Beside each bend of the taut line, on its outer side: what is gone round lies on the inner one,
/// and a party keeps a little off it.
void add_outer(const Cutting& c, const std::vector<GridPoint>& open,
               const std::vector<std::size_t>& taut, std::vector<Corner>& out) {
  const auto unit = [](GridPoint v) {
    return 1 / std::max(1e-9, std::hypot(v.east_m, v.north_m)) * v;
  };
  for (std::size_t k = 1; k + 1 < taut.size(); ++k) {
    const auto at = open[taut[k]];
    const auto inward = unit(open[taut[k - 1]] - at) + unit(open[taut[k + 1]] - at);
    if (std::hypot(inward.east_m, inward.north_m) < 0.05) continue;
    for (const double cells : {1.5, 4.0}) {
      const auto p = at - cells * c.prepared.cost.frame.cell_m * unit(inward);
      if (c.prepared.cover.bar_at(p) != walking::Bar::none) continue;
      out.push_back({p, static_cast<double>(taut[k]) + 0.25, false, -1});
    }
  }
}

std::vector<Corner> candidates(const Cutting& c, const std::vector<GridPoint>& open) {
  auto out = things_met(c, open);
  const std::size_t stride = std::max<std::size_t>(1, (open.size() + most_raw - 1) / most_raw);
  std::vector<std::size_t> own = pulled_taut(c, open, 0, open.size() - 1);
  const std::vector<GridPoint> backwards(open.rbegin(), open.rend());
  for (const auto i : pulled_taut(c, backwards, 0, open.size() - 1))
    own.push_back(open.size() - 1 - i);
  own.push_back(0);
  const auto order = [&] {
    std::ranges::sort(own);
    const auto twice = std::ranges::unique(own);
    own.erase(twice.begin(), twice.end());
  };
  order();
  add_outer(c, open, own, out);
  for (std::size_t i = 0; i < open.size(); i += stride) own.push_back(i);
  order();
  for (const auto i : own)
    out.push_back({open[i], static_cast<double>(i), false, static_cast<std::ptrdiff_t>(i)});
  std::ranges::stable_sort(out, {}, &Corner::order);
  // The stretch's own ends stay first and last.
  const auto first = std::ranges::find(out, 0, &Corner::raw);
  std::rotate(out.begin(), first, first + 1);
  const auto last =
      std::ranges::find(out, static_cast<std::ptrdiff_t>(open.size()) - 1, &Corner::raw);
  std::rotate(last, last + 1, out.end());
  return out;
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
  return clear(c, a, b) ? walk_s(c, a, b) : static_cast<double>(unreached_s);
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
      for (const auto k : pulled_taut(c, open, static_cast<std::size_t>(at[before[*j]].raw),
                                      static_cast<std::size_t>(at[*j].raw))) {
        out.push_back(open[k]);
      }
    } else {
      out.push_back(at[*j].at);
    }
  }
  return out;
}

}  // namespace lodeway::route
