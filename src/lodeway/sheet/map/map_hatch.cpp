#include "lodeway/sheet/map/map_hatch.hpp"

#include <algorithm>
#include <cmath>

#include "lodeway/sheet/map/strokes.hpp"
#include "lodeway/terrain/contours.hpp"
#include "lodeway/terrain/slope.hpp"

namespace lodeway::sheet {

namespace {

constexpr double unknown_every_mm = 2.4, avoided_every_mm = 1.7, steep_every_mm = 2.0,
                 look_every_mm = 0.3;
constexpr double tick_mm = 0.75, tick_every_mm = 2.0;
// Pairs of upright bars, in rows that hang on the grid.
constexpr double bars_every_mm = 4.4, bar_rows_mm = 3.2, bar_mm = 1.2, bars_apart_mm = 0.7;
constexpr double least_area_mm2 = 12;

/// Lines at 45 degrees over the map, kept where `inside` holds. They hang on the grid, not on the
/// page, so that neighbouring sheets agree.
template <class Inside>
std::vector<std::vector<Mm>> hatch(const MapFrame& f, double every_mm, bool rising, const Room& box,
                                   const Inside& inside) {
  std::vector<std::vector<Mm>> out;
  const double lean = rising ? -1 : 1;  // y = lean * x + c
  const Mm zero = f.on_page({0, 0});
  const double step = every_mm * std::sqrt(2.0), hang = zero.y - lean * zero.x;
  const double low = std::min({box.y0 - lean * box.x0, box.y0 - lean * box.x1}),
               high = std::max({box.y1 - lean * box.x0, box.y1 - lean * box.x1});
  for (double c = hang + std::ceil((low - hang) / step) * step; c <= high; c += step) {
    double x0 = std::max(box.x0, rising ? c - box.y1 : box.y0 - c),
           x1 = std::min(box.x1, rising ? c - box.y0 : box.y1 - c);
    bool open = false;
    for (double x = x0; x <= x1; x += look_every_mm) {
      const Mm p{x, lean * x + c};
      if (!inside(p)) {
        open = false;
        continue;
      }
      if (!open) out.push_back({p, p});
      open = true;
      out.back()[1] = p;
    }
  }
  std::erase_if(out, [](const auto& s) { return s[1].x - s[0].x < look_every_mm; });
  return out;
}

void edge(Page& page, const std::vector<Mm>& ring, double inward) {
  auto closed = ring;
  closed.push_back(ring.front());
  page.stroke(ring, {ink::night, 0.26, {}, true}, true);
  std::vector<std::vector<Mm>> ticks;
  each_step(closed, tick_every_mm, [&](Mm p, Mm d) {
    ticks.push_back({p, {p.x - inward * tick_mm * d.y, p.y + inward * tick_mm * d.x}});
  });
  page.strokes(std::move(ticks), {ink::night, 0.26});
}

/// Twice the area, above 0 when the ring turns clockwise as seen on the page.
double doubled_area(const std::vector<Mm>& ring) {
  double sum = 0;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Mm a = ring[i], b = ring[(i + 1) % ring.size()];
    sum += a.x * b.y - b.x * a.y;
  }
  return sum;
}

Room room_around(const std::vector<Mm>& ring, const MapFrame& f) {
  Room out{1e9, 1e9, -1e9, -1e9};
  for (const Mm p : ring) {
    out = {std::min(out.x0, p.x), std::min(out.y0, p.y), std::max(out.x1, p.x),
           std::max(out.y1, p.y)};
  }
  return {std::max(out.x0, f.at.x), std::max(out.y0, f.at.y), std::min(out.x1, f.at.x + f.w),
          std::min(out.y1, f.at.y + f.h)};
}

/// Closed by rule: a whole edge and pairs of upright bars, which stand where the whole pair is
/// inside; in an area too small for a pair of the rows, one at its middle.
void draw_closed(Page& page, const MapFrame& f, const mapdata::AreaFeature& area) {
  const auto ring = on_page(f, area.outer);
  const auto box = room_around(ring, f);
  std::vector<std::vector<Mm>> bars;
  const auto pair_at = [&](Mm p) {
    for (const double x : {p.x - 0.5 * bars_apart_mm, p.x + 0.5 * bars_apart_mm})
      bars.push_back({{x, p.y - 0.5 * bar_mm}, {x, p.y + 0.5 * bar_mm}});
  };
  const auto inside = [&](Mm p) {
    for (const double x : {p.x - bars_apart_mm, p.x + bars_apart_mm}) {
      for (const double y : {p.y - 0.75 * bar_mm, p.y + 0.75 * bar_mm}) {
        if (!mapdata::contains(area, f.on_ground({x, y}))) return false;
      }
    }
    return true;
  };
  const Mm zero = f.on_page({0, 0});
  const auto first = [](double hang, double low, double step) {
    return hang + std::ceil((low - hang) / step) * step;
  };
  bool odd = std::lround((first(zero.y, box.y0, bar_rows_mm) - zero.y) / bar_rows_mm) % 2 != 0;
  for (double y = first(zero.y, box.y0, bar_rows_mm); y <= box.y1; y += bar_rows_mm, odd = !odd) {
    for (double x = first(zero.x + (odd ? 0.5 * bars_every_mm : 0), box.x0, bars_every_mm);
         x <= box.x1; x += bars_every_mm) {
      if (inside({x, y})) pair_at({x, y});
    }
  }
  if (const Mm middle{0.5 * (box.x0 + box.x1), 0.5 * (box.y0 + box.y1)};
      bars.empty() && inside(middle))
    pair_at(middle);
  page.strokes(std::move(bars), {ink::night, 0.36});
  page.stroke(ring, {ink::night, 0.42, {}, true}, true);
  for (const auto& hole : area.holes)
    page.stroke(on_page(f, hole), {ink::night, 0.42, {}, true}, true);
}

/// The leader's own: a pale surface, a hatch that leans the other way, a dark edge, ticks that
/// point in.
void draw_avoided(Page& page, const MapFrame& f, const mapdata::AreaFeature& area) {
  const auto ring = on_page(f, area.outer);
  page.fill({ring}, ink::faint(ink::rowan_pale, 0.7));
  auto lines = hatch(f, avoided_every_mm, false, room_around(ring, f),
                     [&](Mm p) { return mapdata::contains(area, f.on_ground(p)); });
  page.strokes(std::move(lines), {ink::rowan, 0.30});
  edge(page, ring, doubled_area(ring) > 0 ? 1 : -1);
}

bool shows(const MapFrame& f, const mapdata::AreaFeature& area) {
  return area.outer.size() >= 3 && f.touches(area.outer, 0);
}

/// The mean over 3 x 3 cells, twice: the sheet shows where it is steep, not every stone.
terrain::Raster<float> smoothed(const terrain::Raster<float>& raw) {
  auto from = raw;
  for (int pass = 0; pass < 2; ++pass) {
    auto to = from;
    for (int r = 1; r + 1 < from.rows(); ++r) {
      for (int c = 1; c + 1 < from.cols(); ++c) {
        float sum = 0;
        for (int dr = -1; dr <= 1; ++dr) {
          for (int dc = -1; dc <= 1; ++dc) sum += from[r + dr, c + dc];
        }
        to[r, c] = sum / 9;
      }
    }
    from = std::move(to);
  }
  // Level beyond the rim and in voids, so that what is steep up to them has an edge there.
  for (int r = 0; r < from.rows(); ++r) {
    for (int c = 0; c < from.cols(); ++c) {
      const bool rim = r == 0 || c == 0 || r + 1 == from.rows() || c + 1 == from.cols();
      if (rim || !std::isfinite(from[r, c])) from[r, c] = 0;
    }
  }
  return from;
}

void draw_steep_strokes(Page& page, std::vector<std::vector<Mm>> lines,
                        std::vector<std::vector<Mm>> edges) {
  page.strokes(std::move(lines), {ink::rowan, 0.22});
  page.strokes(std::move(edges), {ink::night, 0.14, {0.8, 0.5}}, true);
}

/// It is the height model that says so: a broken edge. Answers whether there is any.
bool draw_steep(Page& page, const MapFrame& f, const terrain::Elevation& heights, double limit) {
  const auto slope = smoothed(terrain::slope_raster(heights));
  std::vector<std::vector<Mm>> edges, lines;
  for (auto& line : terrain::contours(slope, limit)) {
    if (std::abs(line.height_m - limit) > 1e-9 || !line.closed || !f.touches(line.points)) continue;
    auto ring = on_page(f, line.points, 0.2);
    // Steeper ground lies right of the line: only rings around it, not the holes in it.
    if (ring.size() < 4 || doubled_area(ring) < 2 * least_area_mm2) continue;
    mapdata::AreaFeature area;
    area.outer = std::move(line.points);
    for (auto& piece : hatch(f, steep_every_mm, true, room_around(ring, f), [&](Mm p) {
           const auto g = f.on_ground(p);
           return terrain::height_at(slope, g) > limit && mapdata::contains(area, g);
         }))
      lines.push_back(std::move(piece));
    edges.push_back(std::move(ring));
  }
  const bool any = !edges.empty();
  draw_steep_strokes(page, std::move(lines), std::move(edges));
  return any;
}

}  // namespace

bool draw_unknown(Page& page, const MapFrame& f, const terrain::Elevation& heights) {
  auto lines =
      hatch(f, unknown_every_mm, false, {f.at.x, f.at.y, f.at.x + f.w, f.at.y + f.h},
            [&](Mm p) { return !std::isfinite(terrain::height_at(heights, f.on_ground(p))); });
  if (lines.empty()) return false;
  page.strokes(std::move(lines), {ink::rule, 0.2, {1.2, 0.8}});
  return true;
}

void draw_steep_sign(Page& page, const MapFrame& f, const std::vector<earth::GridPoint>& ring) {
  mapdata::AreaFeature area;
  area.outer = ring;
  auto edge = on_page(f, ring);
  auto lines = hatch(f, steep_every_mm, true, room_around(edge, f),
                     [&](Mm p) { return mapdata::contains(area, f.on_ground(p)); });
  draw_steep_strokes(page, std::move(lines), {std::move(edge)});
}

KeptOff draw_hazard(Page& page, const MapFrame& f, const mapdata::MapData& map,
                    const std::vector<std::vector<earth::GridPoint>>& avoid,
                    const terrain::Elevation& heights, double max_slope_deg) {
  KeptOff out;
  for (const auto& area : map.areas) {
    if (area.label.kind != mapdata::Kind::forbidden || !shows(f, area)) continue;
    out.closed = true;
    draw_closed(page, f, area);
  }
  for (const auto& ring : avoid) {
    mapdata::AreaFeature area;
    area.outer = ring;
    if (!shows(f, area)) continue;
    out.avoided = true;
    draw_avoided(page, f, area);
  }
  if (max_slope_deg < 90) out.steep = draw_steep(page, f, heights, max_slope_deg);
  return out;
}

}  // namespace lodeway::sheet
