#include "lodeway/sheet/map/map_symbols.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

#include "lodeway/sheet/map/stream_width.hpp"
#include "lodeway/sheet/map/strokes.hpp"

namespace lodeway::sheet {

namespace {

using earth::GridPoint;
using mapdata::AreaFeature;
using mapdata::Kind;
using mapdata::LineFeature;

std::vector<std::vector<Mm>> rings_of(const MapFrame& f, const AreaFeature& area) {
  std::vector<std::vector<Mm>> out{on_page(f, area.outer)};
  for (const auto& hole : area.holes) out.push_back(on_page(f, hole));
  return out;
}

/// A repeatable figure in [0, 1) for a lattice place: marks are jittered, never random.
double jitter(int i, int j) {
  const double s = std::sin(12.9898 * i + 78.233 * j) * 43758.5453;
  return s - std::floor(s);
}

/// Calls use(place, i, j) for a lattice of places inside an area and the map.
void each_inside(const MapFrame& f, const AreaFeature& area, double dx, double dy,
                 const std::function<void(Mm, int, int)>& use) {
  Room box{1e9, 1e9, -1e9, -1e9};
  for (const auto& p : area.outer) {
    const Mm m = f.on_page(p);
    box = {std::min(box.x0, m.x), std::min(box.y0, m.y), std::max(box.x1, m.x),
           std::max(box.y1, m.y)};
  }
  box = {std::max(box.x0, f.at.x), std::max(box.y0, f.at.y), std::min(box.x1, f.at.x + f.w),
         std::min(box.y1, f.at.y + f.h)};
  for (int j = static_cast<int>(std::ceil(box.y0 / dy)); j * dy <= box.y1; ++j) {
    for (int i = static_cast<int>(std::ceil(box.x0 / dx)); i * dx <= box.x1; ++i) {
      const Mm p{(i + (j % 2 != 0 ? 0.5 : 0.0)) * dx, j * dy};
      if (mapdata::contains(area, f.on_ground(p))) use(p, i, j);
    }
  }
}

/// Dots, larger toward the foot: their size is by height between the area's top and bottom.
void draw_scree(Page& page, const MapFrame& f, const AreaFeature& area,
                const terrain::Elevation& heights) {
  double low = 1e9, high = -1e9;
  for (const auto& p : area.outer) {
    const double h = terrain::height_at(heights, p);
    if (!std::isfinite(h)) continue;
    low = std::min(low, h);
    high = std::max(high, h);
  }
  std::vector<std::vector<Mm>> dots;
  each_inside(f, area, 1.1, 0.9, [&](Mm p, int i, int j) {
    const double h = terrain::height_at(heights, f.on_ground(p));
    const double down = high > low && std::isfinite(h)
                            ? std::clamp((high - h) / (high - low), 0.0, 1.0)
                            : jitter(i + j, j);
    const double r = 0.10 + 0.13 * down;
    const Mm c{p.x + 0.6 * (jitter(i, j) - 0.5), p.y + 0.6 * (jitter(j, i) - 0.5)};
    dots.push_back({{c.x - r, c.y - 0.4 * r},
                    {c.x - 0.3 * r, c.y - r},
                    {c.x + r, c.y - 0.4 * r},
                    {c.x + 0.7 * r, c.y + r},
                    {c.x - 0.6 * r, c.y + 0.8 * r}});
  });
  page.fill(std::move(dots), ink::peat);
}

void draw_marks(Page& page, const MapFrame& f, const AreaFeature& area,
                const terrain::Elevation& heights) {
  const double k = ground_size(f.scale);
  std::vector<std::vector<Mm>> marks;
  switch (area.label.kind) {
    case Kind::marsh:
      each_inside(f, area, 4.0, 1.75, [&](Mm p, int, int) {
        marks.push_back({{p.x - 0.9, p.y}, {p.x - 0.05, p.y}});
        marks.push_back({{p.x + 0.25, p.y}, {p.x + 1.1, p.y}});
        marks.push_back({{p.x + 0.1, p.y - 0.3}, {p.x + 0.1, p.y - 1.05}});
      });
      page.strokes(std::move(marks), {ink::tarn, 0.18 * k});
      break;
    case Kind::wood:
      each_inside(f, area, 5.0, 4.4, [&](Mm p, int i, int j) {
        const double x = p.x + 1.4 * (jitter(i, j) - 0.5), y = p.y + 1.4 * (jitter(j, i) - 0.5);
        marks.push_back(
            {{x, y + 0.6}, {x - 0.42, y - 0.05}, {x, y - 0.6}, {x + 0.42, y - 0.05}, {x, y + 0.6}});
      });
      page.strokes(std::move(marks), {ink::holt, 0.18 * k});
      break;
    case Kind::scree:
      draw_scree(page, f, area, heights);
      break;
    case Kind::scrub:
      each_inside(f, area, 4.2, 3.6, [&](Mm p, int i, int j) {
        const double x = p.x + 1.4 * (jitter(i, j) - 0.5), y = p.y + 1.4 * (jitter(j, i) - 0.5);
        marks.push_back({{x - 0.45, y - 0.5}, {x, y + 0.3}, {x + 0.45, y - 0.5}});
      });
      page.strokes(std::move(marks), {ink::holt, 0.18 * k});
      break;
    case Kind::bare_rock:
      each_inside(f, area, 3.0, 2.4, [&](Mm p, int i, int j) {
        const double x = p.x + 1.2 * (jitter(i, j) - 0.5), y = p.y + 1.0 * (jitter(j, i) - 0.5);
        marks.push_back({{x - 0.6, y + 0.3}, {x - 0.1, y - 0.3}, {x + 0.6, y - 0.2}});
      });
      page.strokes(std::move(marks), {ink::stone, 0.2 * k});
      break;
    case Kind::boulders:
      each_inside(f, area, 3.2, 2.6, [&](Mm p, int i, int j) {
        const double s = 0.4 + 0.25 * jitter(i, j);
        marks.push_back({{p.x - s, p.y + 0.2},
                         {p.x - 0.5 * s, p.y - 0.8 * s},
                         {p.x + 0.5 * s, p.y - 0.7 * s},
                         {p.x + s, p.y + 0.1},
                         {p.x, p.y + 0.7 * s},
                         {p.x - s, p.y + 0.2}});
      });
      page.strokes(std::move(marks), {ink::peat, 0.18 * k});
      break;
    default:
      break;
  }
}

void draw_wood_edge(Page& page, const MapFrame& f, const AreaFeature& area) {
  // Bows outward: outer rings run counter-clockwise on the ground, so clockwise turns on the page
  // are out.
  std::vector<Mm> bows;
  auto ring = on_page(f, area.outer);
  ring.push_back(ring.front());
  each_step(ring, 1.24, [&](Mm p, Mm d) {
    bows.push_back({p.x - 0.62 * d.x, p.y - 0.62 * d.y});
    bows.push_back({p.x - 0.25 * d.x - 0.42 * d.y, p.y - 0.25 * d.y + 0.42 * d.x});
    bows.push_back({p.x + 0.25 * d.x - 0.42 * d.y, p.y + 0.25 * d.y + 0.42 * d.x});
  });
  if (bows.size() > 2)
    page.stroke(std::move(bows), {ink::holt, 0.22 * ground_size(f.scale), {}, true}, true);
}

/// A river has banks; a stream widens with the water it gathers. Barbs point down.
void draw_stream(Page& page, const MapFrame& f, const WaterLine& water) {
  const double k = ground_size(f.scale);
  const auto& pts = water.line;
  const bool river = water.kind == Kind::river;
  if (river) {
    page.stroke(pts, {ink::tarn, 1.2 * k, {}, true});
    page.stroke(pts, {ink::tarn_pale, 0.75 * k, {}, true});
  } else {
    // In pieces of one width, so that a piece of paper holds thousands of becks.
    for (std::size_t i = 0; i + 1 < pts.size();) {
      std::size_t j = i + 1;
      while (j + 1 < pts.size() && water.width_mm[j] - water.width_mm[i] < 0.04) ++j;
      page.stroke({pts.begin() + static_cast<std::ptrdiff_t>(i),
                   pts.begin() + static_cast<std::ptrdiff_t>(j) + 1},
                  {ink::tarn, water.width_mm[i] * k, {}, true});
      i = j;
    }
  }
  std::vector<std::vector<Mm>> barbs;
  each_step(pts, river ? 18 : 22, [&](Mm p, Mm d) {
    for (const int side : {-1, 1}) {
      barbs.push_back(
          {{p.x - 1.1 * d.x - side * 0.55 * d.y, p.y - 1.1 * d.y + side * 0.55 * d.x}, p});
    }
  });
  page.strokes(std::move(barbs), {ink::tarn, 0.2 * k, {}, true});
}

void draw_cliff(Page& page, const MapFrame& f, const LineFeature& line) {
  const double k = ground_size(f.scale), side = line.falls == mapdata::Side::left ? -1 : 1;
  const auto pts = on_page(f, line.points);
  page.stroke(pts, {ink::text, 0.42 * k, {}, true});
  std::vector<std::vector<Mm>> teeth;
  int n = 0;
  each_step(pts, 0.72 * k, [&](Mm p, Mm d) {
    const double length = (n++ % 3 == 0 ? 1.15 : 0.67) * k;
    // Right of the direction of travel on the page is (-d.y, d.x), with y downwards.
    teeth.push_back({p, {p.x - side * length * d.y, p.y + side * length * d.x}});
    if (line.falls == mapdata::Side::none)
      teeth.push_back({p, {p.x + length * d.y, p.y - length * d.x}});
  });
  page.strokes(std::move(teeth), {ink::text, 0.24 * k});
}

void draw_built_line(Page& page, const MapFrame& f, const LineFeature& line) {
  const double k = ground_size(f.scale);
  const auto pts = on_page(f, line.points);
  std::vector<std::vector<Mm>> marks;
  const auto stroke = [&](double width, std::vector<double> dash) {
    page.stroke(pts, {ink::stone, width * k, std::move(dash)});
  };
  switch (line.label.kind) {
    case Kind::path:
      return stroke(0.34, {1.5, 0.7});
    case Kind::faint_path:
      return stroke(0.28, {0.8, 1.2});
    case Kind::track:
      return stroke(0.50, {4.2, 0.9});
    case Kind::road:
      page.stroke(pts, {ink::stone, 1.25 * k, {}, true});
      return page.stroke(pts, {ink::paper, 0.78 * k, {}, true});
    case Kind::forbidden:  // a motorway: a road of two halves
      page.stroke(pts, {ink::stone, 1.7 * k, {}, true});
      page.stroke(pts, {ink::paper, 1.2 * k, {}, true});
      return page.stroke(pts, {ink::stone, 0.5 * k, {}, true});
    case Kind::railway:
    case Kind::aerialway:
      each_step(pts, 3.0, [&](Mm p, Mm d) {
        marks.push_back({{p.x - 0.7 * d.y, p.y + 0.7 * d.x}, {p.x + 0.7 * d.y, p.y - 0.7 * d.x}});
      });
      break;
    case Kind::wall:
    case Kind::hedge:
      each_step(pts, 2.0, [&](Mm p, Mm d) {
        const double s = 0.33 * k;
        page.fill({{{p.x - s * d.x - s * d.y, p.y - s * d.y + s * d.x},
                    {p.x + s * d.x - s * d.y, p.y + s * d.y + s * d.x},
                    {p.x + s * d.x + s * d.y, p.y + s * d.y - s * d.x},
                    {p.x - s * d.x + s * d.y, p.y - s * d.y - s * d.x}}},
                  ink::stone);
      });
      return stroke(0.20, {});
    case Kind::fence:
      each_step(pts, 3.2, [&](Mm p, Mm d) {
        for (const double o : {-0.25, 0.25}) {
          marks.push_back(
              {{p.x + o * d.x - 0.5 * d.y - 0.2 * d.x, p.y + o * d.y + 0.5 * d.x - 0.2 * d.y},
               {p.x + o * d.x + 0.5 * d.y + 0.2 * d.x, p.y + o * d.y - 0.5 * d.x + 0.2 * d.y}});
        }
      });
      break;
    case Kind::power_line:
      each_step(pts, 9.6, [&](Mm p, Mm d) {
        for (const double o : {-0.4, 0.4})
          marks.push_back({{p.x + o * d.x - 0.9 * d.y, p.y + o * d.y + 0.9 * d.x},
                           {p.x + o * d.x + 0.9 * d.y, p.y + o * d.y - 0.9 * d.x}});
      });
      break;
    default:
      return;
  }
  stroke(0.17, {});
  page.strokes(std::move(marks), {ink::stone, 0.22 * k});
}

}  // namespace

void draw_surfaces(Page& page, const MapFrame& f, const mapdata::MapData& map) {
  for (const auto& area : map.areas) {
    if (!f.touches(area.outer)) continue;
    const auto kind = area.label.kind;
    if (kind == Kind::wood) page.fill(rings_of(f, area), ink::holt_pale);
    if (kind == Kind::built_up) page.fill(rings_of(f, area), ink::faint(ink::rule, 0.25));
    if (kind == Kind::glacier) page.fill(rings_of(f, area), ink::faint(ink::tarn_pale, 0.5));
    if (kind == Kind::scrub) page.fill(rings_of(f, area), ink::faint(ink::holt_pale, 0.5));
  }
}

/// A broken rim where only the heights say that there is water.
void draw_standing_water(Page& page, const MapFrame& f, const mapdata::AreaFeature& area) {
  const double k = ground_size(f.scale);
  if (area.label.origin != mapdata::Origin::from_relief) {
    page.shape(rings_of(f, area), ink::tarn_pale, {ink::tarn, 0.30 * k, {}, true});
    return;
  }
  page.shape(rings_of(f, area), ink::faint(ink::tarn_pale, 0.5),
             {ink::tarn, 0.30 * k, {1.2 * k, 0.8 * k}, true});
}

void draw_lines(Page& page, const MapFrame& f, const mapdata::MapData& map,
                const terrain::Elevation& heights) {
  for (const auto& water : water_lines(f, map, heights)) draw_stream(page, f, water);
  for (const auto& area : map.areas) {
    if (!f.touches(area.outer)) continue;
    if (area.label.kind == Kind::lake || area.label.kind == Kind::sea)
      draw_standing_water(page, f, area);
    if (area.label.kind == Kind::wood) draw_wood_edge(page, f, area);
    draw_marks(page, f, area, heights);
  }
  for (const auto& line : map.lines) {
    if (f.touches(line.points) && line.label.kind == Kind::cliff) draw_cliff(page, f, line);
  }
  for (const auto& line : map.lines) {
    if (!f.touches(line.points) || line.tunnel) continue;
    draw_built_line(page, f, line);
  }
}

}  // namespace lodeway::sheet
