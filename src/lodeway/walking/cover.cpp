#include "lodeway/walking/cover.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>

#include "lodeway/mapdata/house_among.hpp"
#include "lodeway/mapdata/streets.hpp"
#include "lodeway/terrain/slope.hpp"

namespace lodeway::walking {

namespace {

using mapdata::AreaFeature;
using mapdata::Kind;
using Cells = terrain::Raster<std::uint8_t>;

constexpr double crossing_reach_m = 25;  // a bridge opens the river this far around it; *practice*
/// Barred areas narrower than this many cells bar their outline's cells too: with centres alone a
/// channel would leak.
constexpr double narrow_cells = 2;
constexpr double beside_bridge_m = 5;
/// About a house of a settlement so much is built up: gardens, yards, what fences them. *Practice*.
constexpr double about_house_m = 40;
/// About a corner of streets: half way to the next.
constexpr double about_corner_m = mapdata::among_within_m / 2;
constexpr double same_corner = 1e-9;  // of the segment
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

enum class Corners : unsigned char {
  go_round,  ///< from side to side: what is drawn this way lets nothing through
  cross      ///< a line that meets a corner exactly touches neither of the two cells beside it
};

/// Every cell that a segment passes through, in order.
/// use(row, col, place where it is entered) -> go on?
template <class Use>
void for_cells_along(const terrain::Frame& f, earth::GridPoint a, earth::GridPoint b,
                     Corners corners, Use&& use) {
  if (std::max(a.east_m, b.east_m) < f.west_m || std::min(a.east_m, b.east_m) > f.east_m() ||
      std::max(a.north_m, b.north_m) < f.south_m() || std::min(a.north_m, b.north_m) > f.north_m) {
    return;
  }
  const double x = (a.east_m - f.west_m) / f.cell_m, y = (f.north_m - a.north_m) / f.cell_m;
  const double dx = (b.east_m - f.west_m) / f.cell_m - x,
               dy = (f.north_m - b.north_m) / f.cell_m - y;
  auto [row, col] = f.cell_of(a);
  const auto [end_row, end_col] = f.cell_of(b);
  const int right = dx > 0 ? 1 : -1, down = dy > 0 ? 1 : -1;
  const auto at_col = [&] { return (col + (dx > 0 ? 1 : 0) - x) / dx; };
  const auto at_row = [&] { return (row + (dy > 0 ? 1 : 0) - y) / dy; };
  double t = 0;
  for (;;) {
    if (f.holds(row, col) && !use(row, col, a + std::clamp(t, 0.0, 1.0) * (b - a))) return;
    if (row == end_row && col == end_col) return;
    const bool both = row != end_row && col != end_col;
    const double to_col = at_col(), to_row = at_row();
    const bool sideways = row == end_row || (both && to_col <= to_row);
    t = sideways ? to_col : to_row;
    if (both && corners == Corners::cross && std::abs(to_col - to_row) < same_corner) {
      row += down;
      col += right;
    } else {
      (sideways ? col : row) += sideways ? right : down;
    }
  }
}

/// Twice the area over the outline: the width of a long narrow thing.
double mean_width_m(const AreaFeature& area) {
  double twice = 0, outline = 0;
  for (std::size_t i = 0, j = area.outer.size() - 1; i < area.outer.size(); j = i++) {
    const auto a = area.outer[j] - area.outer[0], b = area.outer[i] - area.outer[0];
    twice += a.east_m * b.north_m - a.north_m * b.east_m;
    outline += earth::grid_distance_m(a, b);
  }
  return outline > 0 ? std::abs(twice) / outline : 0;
}

/// A line that nobody may set foot on: a motorway. The map's own ways pass over or under it, for it
/// has no crossing on the level; one on a bridge of its own bars nothing below it.
bool is_closed(const mapdata::LineFeature& line) {
  return line.label.kind == Kind::forbidden && !line.bridge;
}

bool is_barrier(const mapdata::LineFeature& line, bool ford_streams) {
  if (line.tunnel) return false;
  if (is_closed(line)) return true;
  return line.label.kind == Kind::river || line.label.kind == Kind::cliff ||
         (!ford_streams && line.label.kind == Kind::stream);
}

/// The cells about the houses of settlements and the corners of streets, for which maps seldom draw
/// an area.
void build_up(const Ground& ground, const Cells& bars, Cells& kinds) {
  const auto& f = kinds.frame();
  const auto about = [&](earth::GridPoint at, double within_m) {
    const int reach = std::max(1, static_cast<int>(std::ceil(within_m / f.cell_m)));
    const auto [row, col] = f.cell_of(at);
    for (int r = row - reach; r <= row + reach; ++r) {
      for (int c = col - reach; c <= col + reach; ++c) {
        if (f.holds(r, c) && bars[r, c] == 0 &&
            earth::grid_distance_m(f.centre(r, c), at) <= within_m)
          kinds[r, c] = static_cast<std::uint8_t>(Kind::built_up);
      }
    }
  };
  const auto among = mapdata::houses_among_others(ground.map);
  for (std::size_t i = 0; i < among.size(); ++i) {
    if (among[i] != 0) about(ground.map.points[i].at, about_house_m);
  }
  for (const auto at : mapdata::street_corners(ground.map)) about(at, about_corner_m);
}

/// A river is crossed on what carries a bridge over it: its own lines, and bridge or ford points.
/// `openings`: bridges and fords as points.
void open_crossings(const Ground& ground, const std::vector<earth::GridPoint>& openings,
                    Cells& bars) {
  const auto& f = bars.frame();
  const auto open = [&](int r, int c) {
    if (f.holds(r, c) && bars[r, c] == static_cast<std::uint8_t>(Bar::river)) bars[r, c] = 0;
  };
  const int reach = std::max(1, static_cast<int>(std::ceil(crossing_reach_m / f.cell_m)));
  for (const auto& at : openings) {
    const auto [row, col] = f.cell_of(at);
    for (int r = row - reach; r <= row + reach; ++r) {
      for (int c = col - reach; c <= col + reach; ++c) {
        if (earth::grid_distance_m(f.centre(r, c), at) <= crossing_reach_m + 0.5 * f.cell_m)
          open(r, c);
      }
    }
  }
  for (const auto& line : ground.map.lines) {
    if (!line.bridge) continue;
    for (std::size_t i = 1; i < line.points.size(); ++i) {
      for_cells_along(f, line.points[i - 1], line.points[i], Corners::go_round,
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
                                        "closed ground"};
  return words[static_cast<std::size_t>(bar)];
}

std::string bar_words(const Cover::Blocked& blocked) {
  const std::string words(bar_words(blocked.bar));
  return blocked.name.empty() ? words : words + " (" + blocked.name + ")";
}

Cover::Cover(const Ground& ground, const Request& request, const terrain::Raster<float>* slopes)
    : kinds_(ground.elevation.frame(), static_cast<std::uint8_t>(Kind::other)),
      bars_(ground.elevation.frame(), 0) {
  const auto& f = frame();
  for (int k = 0; k < mapdata::kind_count; ++k) {
    const double factor = ground.kinds[static_cast<Kind>(k)].speed_factor;
    factor_of_kind_[static_cast<std::size_t>(k)] =
        std::max(slowest_factor, static_cast<float>(factor));
  }
  factor_of_kind_[static_cast<std::size_t>(Kind::other)] = unknown_cover_factor;
  const auto set_bar = [&](int r, int c, Bar bar) {
    const auto by = static_cast<std::uint8_t>(bars_[r, c] & met_here);
    bars_[r, c] = static_cast<std::uint8_t>(static_cast<std::uint8_t>(bar) | by);
  };
  for (int r = 0; r < f.rows; ++r) {
    for (int c = 0; c < f.cols; ++c) {
      const double slope = slopes != nullptr
                               ? static_cast<double>((*slopes)[r, c])
                               : terrain::slope_deg(terrain::gradient(ground.elevation, r, c));
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
    const auto take = [&](int r, int c) {
      kinds_[r, c] = static_cast<std::uint8_t>(kind);
      if (barred) set_bar(r, c, water ? Bar::water : Bar::forbidden);
    };
    for_cells_inside(f, rings, take);
    if (!barred) continue;
    if (!area.label.name.empty()) named_.push_back({area.label, area.outer, {}});
    if (mean_width_m(area) > narrow_cells * f.cell_m) continue;
    for (std::size_t i = 0, j = area.outer.size() - 1; i < area.outer.size(); j = i++) {
      for_cells_along(f, area.outer[j], area.outer[i], Corners::go_round,
                      [&](int r, int c, earth::GridPoint) { return take(r, c), true; });
    }
  }
  build_up(ground, bars_, kinds_);
  std::vector<mapdata::LineFeature> lines;
  const auto draw = [&](const mapdata::LineFeature& line, Bar bar) {
    for (std::size_t i = 1; i < line.points.size(); ++i) {
      for_cells_along(f, line.points[i - 1], line.points[i], Corners::go_round,
                      [&](int r, int c, earth::GridPoint) {
                        if (this->bar(r, c) == Bar::none) set_bar(r, c, bar);
                        return true;
                      });
    }
  };
  for (const auto& line : ground.map.lines) {
    if (!is_barrier(line, request.party.ford_streams)) continue;
    lines.push_back(line);
    barrier_labels_.push_back(line.label);
    if (line.label.kind != Kind::cliff) draw(line, Bar::river);
  }
  barriers_ = mapdata::LineIndex(lines);
  std::vector<mapdata::LineFeature> bridges;
  std::ranges::copy_if(ground.map.lines, std::back_inserter(bridges),
                       &mapdata::LineFeature::bridge);
  bridges_ = mapdata::LineIndex(bridges);
  std::vector<earth::GridPoint> open;
  for (const auto& point : ground.map.points) {
    if (point.label.kind != Kind::bridge && point.label.kind != Kind::ford) continue;
    openings_.push_back(point.at);
    const auto bar = bar_at(point.at);  // one in a lake or on a steep bank serves its own path only
    if (bar == Bar::none || bar == Bar::river) open.push_back(point.at);
  }
  openings_by_place_ = mapdata::PointIndex(openings_);
  open_crossings(ground, open, bars_);
  for (const auto& line : ground.map.lines) {  // after the bridges: they open no cliff
    if (line.label.kind == Kind::cliff && !line.tunnel) draw(line, Bar::cliff);
  }
  for (const auto& line : lines) {
    for (std::size_t i = 1; i < line.points.size(); ++i) {
      for_cells_along(
          f, line.points[i - 1], line.points[i], Corners::go_round,
          [&](int r, int c, earth::GridPoint) { return bars_[r, c] |= met_here, true; });
    }
  }
  for (const auto& avoid : request.avoid) {
    for_cells_inside(f, {&avoid.ring}, [&](int r, int c) { set_bar(r, c, Bar::avoided); });
    if (!avoid.name.empty()) {
      named_.insert(named_.begin(), {{Kind::forbidden, avoid.name}, avoid.ring, {}});
    }
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
      // Who goes along a shore walks beside the water whose cells the line clips: on open ground.
      const double here = !frame().holds(r, c)          ? 1.0
                          : bar(r, c) == Bar::water ? static_cast<double>(unknown_cover_factor)
                                                    : static_cast<double>(factor(r, c));
      time += piece / steps / here;
    }
  }
  return time > 0 ? length / time : 1.0;
}

Cover::Blocked Cover::line_met(earth::GridPoint a, earth::GridPoint b) const {
  for (const auto& c : barriers_.crossings(a, b)) {
    const auto& label = barrier_labels_[c.ref.line];
    if (label.kind != Kind::cliff && (!openings_by_place_.near(c.at, at_bridge_m).empty() ||
                                      !bridges_.near(c.at, beside_bridge_m).empty())) {
      continue;
    }
    if (label.kind == Kind::forbidden)
      return {Bar::forbidden, c.at, label.name.empty() ? "line closed to walkers" : label.name};
    return {label.kind == Kind::cliff ? Bar::cliff : Bar::river, c.at, label.name};
  }
  return {};
}

namespace {
/// Rivers and cliffs bar as lines, not as cells; a steep place may be set out from or come to.
bool bars_leg(Bar bar, bool at_an_end) {
  if (bar == Bar::none || bar == Bar::river || bar == Bar::cliff) return false;
  return bar != Bar::steep || !at_an_end;
}
}  // namespace

Cover::Blocked Cover::first_bar(earth::GridPoint a, earth::GridPoint b) const {
  if (!frame().contains(a)) return {Bar::outside, a, {}};
  Blocked out;
  const auto cell_a = frame().cell_of(a), cell_b = frame().cell_of(b);
  for_cells_along(frame(), a, b, Corners::cross, [&](int r, int c, earth::GridPoint p) {
    const Bar here = bar(r, c);
    if (!bars_leg(here, std::pair{r, c} == cell_a || std::pair{r, c} == cell_b)) return true;
    out = {here, p, name_at(p)};
    if (out.name.empty()) out.name = name_at(frame().centre(r, c));
    return false;
  });
  if (auto line = line_met(a, b);
      line.bar != Bar::none && (out.bar == Bar::none || earth::grid_distance_m(a, line.at) <
                                                            earth::grid_distance_m(a, out.at))) {
    out = std::move(line);
  }
  if (out.bar == Bar::none && !frame().contains(b)) return {Bar::outside, b, {}};
  return out;
}

bool Cover::clear(earth::GridPoint a, earth::GridPoint b) const {
  if (!frame().contains(a) || !frame().contains(b)) return false;
  const auto cell_a = frame().cell_of(a), cell_b = frame().cell_of(b);
  bool barred = false, met = false;
  for_cells_along(frame(), a, b, Corners::cross, [&](int r, int c, earth::GridPoint) {
    met = met || (bars_[r, c] & met_here) != 0;
    barred = bars_leg(bar(r, c), std::pair{r, c} == cell_a || std::pair{r, c} == cell_b);
    return !barred;
  });
  return !barred && (!met || line_met(a, b).bar == Bar::none);
}

std::string Cover::name_at(earth::GridPoint p) const {
  const auto bar = bar_at(p);
  if (bar != Bar::water && bar != Bar::avoided && bar != Bar::forbidden) return {};
  const auto found = std::ranges::find_if(
      named_, [&](const AreaFeature& area) { return mapdata::contains(area, p); });
  return found == named_.end() ? std::string() : found->label.name;
}

}  // namespace lodeway::walking
