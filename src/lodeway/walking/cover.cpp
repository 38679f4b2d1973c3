#include "lodeway/walking/cover.hpp"

#include <algorithm>
#include <cmath>

#include "lodeway/terrain/slope.hpp"

namespace lodeway::walking {

namespace {

using mapdata::AreaFeature;
using mapdata::Kind;
using Cells = terrain::Raster<std::uint8_t>;

constexpr double crossing_reach_m = 25;  // a bridge opens the river this far around it; *practice*
constexpr float slowest_factor = 0.05F;
/// Open ground whose cover the map does not show. Aitken 1977: 5 km/h on paths, tracks and roads, 4
/// on all other ground.
constexpr float unknown_cover_factor = 0.8F;

/// Calls use(row, col) for every cell whose centre lies in the rings (even-odd).
template <class Use>
void for_cells_inside(const terrain::Frame& f,
                      const std::vector<const std::vector<earth::GridPoint>*>& rings, Use&& use) {
  double north = -1e300, south = 1e300;
  for (const auto* ring : rings) {
    for (const auto& p : *ring) {
      north = std::max(north, p.north_m);
      south = std::min(south, p.north_m);
    }
  }
  const int first = std::max(
      0, static_cast<int>(std::floor(std::clamp((f.north_m - north) / f.cell_m - 0.5, -1.0, 1e9))));
  const int last = std::min(
      f.rows - 1,
      static_cast<int>(std::ceil(std::clamp((f.north_m - south) / f.cell_m - 0.5, -1.0, 1e9))));
  std::vector<double> cuts;
  for (int r = first; r <= last; ++r) {
    const double y = f.centre(r, 0).north_m;
    cuts.clear();
    for (const auto* ring : rings) {
      for (std::size_t i = 0, j = ring->size() - 1; i < ring->size(); j = i++) {
        const auto &a = (*ring)[i], &b = (*ring)[j];
        if ((a.north_m > y) == (b.north_m > y)) continue;
        cuts.push_back(a.east_m +
                       (y - a.north_m) / (b.north_m - a.north_m) * (b.east_m - a.east_m));
      }
    }
    std::ranges::sort(cuts);
    for (std::size_t k = 0; k + 1 < cuts.size(); k += 2) {
      const double from = std::ceil((cuts[k] - f.west_m) / f.cell_m - 0.5);
      const double to = std::floor((cuts[k + 1] - f.west_m) / f.cell_m - 0.5);
      for (int c = std::max(0, static_cast<int>(std::max(from, -1.0)));
           c <= std::min(to, f.cols - 1.0); ++c)
        use(r, c);
    }
  }
}

/// Every cell that a segment passes through, in order.
template <class Use>
void for_cells_along(const terrain::Frame& f, earth::GridPoint a, earth::GridPoint b, Use&& use) {
  const double length = earth::grid_distance_m(a, b);
  const int steps = std::max(1, static_cast<int>(std::ceil(length / (0.25 * f.cell_m))));
  std::pair<int, int> before{-1, -1};
  for (int k = 0; k <= steps; ++k) {
    const auto p = a + (static_cast<double>(k) / steps) * (b - a);
    const auto cell = f.cell_of(p);
    if (cell == before) continue;
    if (before.first >= 0 && cell.first != before.first && cell.second != before.second &&
        f.holds(before.first, cell.second)) {
      use(before.first, cell.second, p);  // no slipping through between two corners
    }
    if (f.holds(cell.first, cell.second) && !use(cell.first, cell.second, p)) return;
    before = cell;
  }
}

bool is_barrier(const mapdata::LineFeature& line, bool ford_streams) {
  if (line.tunnel) return false;
  return line.label.kind == Kind::river || line.label.kind == Kind::cliff ||
         (!ford_streams && line.label.kind == Kind::stream);
}

/// A river is crossed on what carries a bridge over it: its own lines, and bridge or ford points.
void open_crossings(const Ground& ground, Cells& bars) {
  const auto& f = bars.frame();
  const auto open = [&](int r, int c) {
    if (f.holds(r, c) && bars[r, c] == static_cast<std::uint8_t>(Bar::river)) bars[r, c] = 0;
  };
  const int reach = std::max(1, static_cast<int>(std::ceil(crossing_reach_m / f.cell_m)));
  for (const auto& point : ground.map.points) {
    if (point.label.kind != Kind::bridge && point.label.kind != Kind::ford) continue;
    const auto [row, col] = f.cell_of(point.at);
    for (int r = row - reach; r <= row + reach; ++r) {
      for (int c = col - reach; c <= col + reach; ++c) open(r, c);
    }
  }
  for (const auto& line : ground.map.lines) {
    if (!line.bridge) continue;
    for (std::size_t i = 1; i < line.points.size(); ++i) {
      for_cells_along(f, line.points[i - 1], line.points[i],
                      [&](int r, int c, earth::GridPoint) { return open(r, c), true; });
    }
  }
}

}  // namespace

std::string_view bar_words(Bar bar) {
  constexpr std::string_view words[] = {"nothing",
                                        "the edge of the ground file",
                                        "ground of unknown height",
                                        "water",
                                        "ground over the party's slope limit",
                                        "a river without a crossing",
                                        "a cliff",
                                        "an area to avoid",
                                        "forbidden ground"};
  return words[static_cast<std::size_t>(bar)];
}

Cover::Cover(const Ground& ground, const Request& request)
    : kinds_(ground.elevation.frame(), static_cast<std::uint8_t>(Kind::other)),
      bars_(ground.elevation.frame(), 0) {
  const auto& f = frame();
  for (int k = 0; k < mapdata::kind_count; ++k) {
    const double factor = ground.kinds[static_cast<Kind>(k)].speed_factor;
    factor_of_kind_[static_cast<std::size_t>(k)] =
        std::max(slowest_factor, static_cast<float>(factor));
  }
  factor_of_kind_[static_cast<std::size_t>(Kind::other)] = unknown_cover_factor;
  const auto set_bar = [&](int r, int c, Bar bar) { bars_[r, c] = static_cast<std::uint8_t>(bar); };
  for (int r = 0; r < f.rows; ++r) {
    for (int c = 0; c < f.cols; ++c) {
      const double slope = terrain::slope_deg(terrain::gradient(ground.elevation, r, c));
      if (!(slope <= request.party.max_slope_deg))
        set_bar(r, c, std::isnan(slope) ? Bar::void_height : Bar::steep);
    }
  }
  for (const auto& area : ground.map.areas) {
    std::vector<const std::vector<earth::GridPoint>*> rings{&area.outer};
    for (const auto& hole : area.holes) rings.push_back(&hole);
    const auto kind = area.label.kind;
    const bool water = kind == Kind::lake || kind == Kind::sea;
    const bool barred = water || kind == Kind::glacier || ground.kinds[kind].forbids;
    for_cells_inside(f, rings, [&](int r, int c) {
      kinds_[r, c] = static_cast<std::uint8_t>(kind);
      if (barred) set_bar(r, c, water ? Bar::water : Bar::forbidden);
    });
  }
  for (const auto& line : ground.map.lines) {
    if (!is_barrier(line, request.party.ford_streams)) continue;
    const Bar bar = line.label.kind == Kind::cliff ? Bar::cliff : Bar::river;
    for (std::size_t i = 1; i < line.points.size(); ++i) {
      for_cells_along(f, line.points[i - 1], line.points[i], [&](int r, int c, earth::GridPoint) {
        if (bars_[r, c] == 0) set_bar(r, c, bar);
        return true;
      });
    }
  }
  open_crossings(ground, bars_);
  for (const auto& avoid : request.avoid) {
    for_cells_inside(f, {&avoid.ring}, [&](int r, int c) { set_bar(r, c, Bar::avoided); });
  }
}

Bar Cover::bar_at(earth::GridPoint p) const {
  if (!frame().contains(p)) return Bar::outside;
  const auto [r, c] = frame().cell_of(p);
  return bar(r, c);
}

double Cover::mean_factor(const std::vector<earth::GridPoint>& line) const {
  double length = 0, time = 0;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const double piece = earth::grid_distance_m(line[i - 1], line[i]);
    const int steps = std::max(1, static_cast<int>(std::ceil(piece / frame().cell_m)));
    for (int k = 0; k < steps; ++k) {
      const auto p = line[i - 1] + ((k + 0.5) / steps) * (line[i] - line[i - 1]);
      const auto [r, c] = frame().cell_of(p);
      length += piece / steps;
      time += piece / steps / (frame().holds(r, c) ? static_cast<double>(factor(r, c)) : 1.0);
    }
  }
  return time > 0 ? length / time : 1.0;
}

Cover::Blocked Cover::first_bar(earth::GridPoint a, earth::GridPoint b) const {
  if (!frame().contains(a)) return {Bar::outside, a};
  Blocked out;
  for_cells_along(frame(), a, b, [&](int r, int c, earth::GridPoint p) {
    if (bar(r, c) != Bar::none && out.bar == Bar::none) out = {bar(r, c), p};
    return out.bar == Bar::none;
  });
  if (out.bar == Bar::none && !frame().contains(b)) return {Bar::outside, b};
  return out;
}

}  // namespace lodeway::walking
