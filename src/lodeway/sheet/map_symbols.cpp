#include "lodeway/sheet/map_symbols.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

namespace lodeway::sheet {

namespace {

using earth::GridPoint;
using mapdata::AreaFeature;
using mapdata::Kind;
using mapdata::LineFeature;

double ground_size(const MapFrame& f) {
  return f.scale <= 12000 ? 1.15 : f.scale >= 40000 ? 0.85 : 1.0;
}

std::vector<Mm> on_page(const MapFrame& f, const std::vector<GridPoint>& line) {
  std::vector<Mm> out;
  for (const auto& p : line) {
    const Mm m = f.on_page(p);
    if (out.empty() || std::hypot(m.x - out.back().x, m.y - out.back().y) > 0.08) out.push_back(m);
  }
  if (out.size() < 2 && !line.empty()) out.push_back(f.on_page(line.back()));
  return out;
}

std::vector<std::vector<Mm>> rings_of(const MapFrame& f, const AreaFeature& area) {
  std::vector<std::vector<Mm>> out{on_page(f, area.outer)};
  for (const auto& hole : area.holes) out.push_back(on_page(f, hole));
  return out;
}

/// Calls use(place, direction) every `step` millimetres along a line, from half a step on.
void each_step(const std::vector<Mm>& line, double step, const std::function<void(Mm, Mm)>& use) {
  double left = 0.5 * step;
  for (std::size_t i = 1; i < line.size(); ++i) {
    const Mm a = line[i - 1], v{line[i].x - a.x, line[i].y - a.y};
    const double length = std::hypot(v.x, v.y);
    if (length == 0) continue;
    for (; left <= length; left += step)
      use({a.x + left / length * v.x, a.y + left / length * v.y}, {v.x / length, v.y / length});
    left -= length;
  }
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

void draw_marks(Page& page, const MapFrame& f, const AreaFeature& area) {
  const double k = ground_size(f);
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
      each_inside(f, area, 1.1, 0.9, [&](Mm p, int i, int j) {
        page.fill({circle({p.x + 0.6 * (jitter(i, j) - 0.5), p.y + 0.6 * (jitter(j, i) - 0.5)},
                          0.12 + 0.1 * jitter(i + j, j))},
                  ink::peat);
      });
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
    page.stroke(std::move(bows), {ink::holt, 0.22 * ground_size(f), {}, true}, true);
}

void draw_stream(Page& page, const MapFrame& f, const LineFeature& line,
                 const terrain::Elevation& heights) {
  const double k = ground_size(f);
  auto pts = on_page(f, line.points);
  const double down = terrain::height_at(heights, line.points.front()) -
                      terrain::height_at(heights, line.points.back());
  if (down < 0) std::ranges::reverse(pts);
  if (line.label.kind == Kind::river) {
    page.stroke(pts, {ink::tarn, 1.2 * k, {}, true});
    page.stroke(pts, {ink::tarn_pale, 0.75 * k, {}, true});
  } else {
    page.stroke(pts, {ink::tarn, (line.label.name.empty() ? 0.22 : 0.34) * k, {}, true});
  }
  std::vector<std::vector<Mm>> barbs;
  each_step(pts, line.label.kind == Kind::river ? 18 : 22, [&](Mm p, Mm d) {
    for (const int side : {-1, 1}) {
      barbs.push_back(
          {{p.x - 1.1 * d.x - side * 0.55 * d.y, p.y - 1.1 * d.y + side * 0.55 * d.x}, p});
    }
  });
  page.strokes(std::move(barbs), {ink::tarn, 0.2 * k, {}, true});
}

void draw_cliff(Page& page, const MapFrame& f, const LineFeature& line) {
  const double k = ground_size(f), side = line.falls == mapdata::Side::left ? -1 : 1;
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
  const double k = ground_size(f);
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
  }
}

void draw_lines(Page& page, const MapFrame& f, const mapdata::MapData& map,
                const terrain::Elevation& heights) {
  const double k = ground_size(f);
  for (const auto& line : map.lines) {
    const auto kind = line.label.kind;
    if (!f.touches(line.points) || line.tunnel) continue;
    if (kind == Kind::stream || kind == Kind::river || kind == Kind::ditch)
      draw_stream(page, f, line, heights);
  }
  for (const auto& area : map.areas) {
    if (!f.touches(area.outer)) continue;
    if (area.label.kind == Kind::lake || area.label.kind == Kind::sea)
      page.shape(rings_of(f, area), ink::tarn_pale, {ink::tarn, 0.30 * k, {}, true});
    if (area.label.kind == Kind::wood) draw_wood_edge(page, f, area);
    draw_marks(page, f, area);
  }
  for (const auto& line : map.lines) {
    if (f.touches(line.points) && line.label.kind == Kind::cliff) draw_cliff(page, f, line);
  }
  for (const auto& line : map.lines) {
    if (!f.touches(line.points) || line.tunnel) continue;
    draw_built_line(page, f, line);
  }
}

void draw_points(Page& page, Labels& labels, const MapFrame& f, const mapdata::MapData& map) {
  const double k = ground_size(f);
  for (const auto& point : map.points) {
    if (!f.near(point.at)) continue;
    const Mm p = f.on_page(point.at);
    double reach = 0.8;
    switch (point.label.kind) {
      case Kind::summit:
        page.fill({{{p.x, p.y - 1.05 * k},
                    {p.x + 0.75 * k, p.y},
                    {p.x, p.y + 1.05 * k},
                    {p.x - 0.75 * k, p.y}}},
                  ink::text);
        reach = 1.1;
        break;
      case Kind::spot_height:
        page.fill({circle(p, 0.32 * k)}, ink::text);
        break;
      case Kind::building:
      case Kind::hut:
      case Kind::shelter: {
        const double w = point.label.kind == Kind::hut ? 0.85 : 0.6;
        page.box(p.x - w * k, p.y - 0.67 * w * k, 2 * w * k, 1.34 * w * k, ink::text);
        break;
      }
      case Kind::ruin:
        page.frame(p.x - 0.6 * k, p.y - 0.4 * k, 1.2 * k, 0.8 * k, {ink::text, 0.2 * k});
        break;
      case Kind::bridge:
        for (const int s : {-1, 1})
          page.stroke({{p.x - 1.2, p.y + 1.5 * s},
                       {p.x - 0.8, p.y + s},
                       {p.x + 0.8, p.y + s},
                       {p.x + 1.2, p.y + 1.5 * s}},
                      {ink::stone, 0.32 * k});
        reach = 1.4;
        break;
      case Kind::ford:
        for (const int s : {-1, 1})
          page.stroke({{p.x - 0.7, p.y + 0.35 * s}, {p.x + 0.7, p.y + 0.35 * s}},
                      {ink::stone, 0.22 * k});
        break;
      case Kind::cairn:
        for (const auto& d : {Mm{-0.4, 0.3}, Mm{0.4, 0.3}, Mm{0, -0.4}})
          page.fill({circle({p.x + d.x, p.y + d.y}, 0.3 * k)}, ink::stone);
        break;
      case Kind::trig_point:
        page.stroke({{p.x, p.y - 1.6}, {p.x + 1.5, p.y + 1.0}, {p.x - 1.5, p.y + 1.0}},
                    {ink::text, 0.2 * k}, true);
        break;
      case Kind::sheepfold:
        page.frame(p.x - 0.6, p.y - 0.6, 1.2, 1.2, {ink::stone, 0.22 * k});
        break;
      case Kind::spring:
      case Kind::waterfall:
        page.stroke(circle(p, 0.5 * k), {ink::tarn, 0.25 * k}, true);
        break;
      case Kind::cave:
      case Kind::gate:
      case Kind::wayside_mark:
        page.stroke(circle(p, 0.45 * k), {ink::stone, 0.2 * k}, true);
        break;
      default:
        continue;
    }
    labels.hold({p.x - reach, p.y - reach, p.x + reach, p.y + reach});
  }
}

void draw_names(Page& page, Labels& labels, const MapFrame& f, const mapdata::MapData& map) {
  const auto height_words = [](double h) {
    return std::isfinite(h) && h > 0 ? std::to_string(std::lround(h)) : std::string();
  };
  const auto points = [&](Kind kind, const Type& type, bool with_height) {
    for (const auto& p : map.points) {
      if (p.label.kind != kind || !f.near(p.at)) continue;
      auto words = p.label.name;
      if (with_height) words += (words.empty() ? "" : " ") + height_words(p.height_m);
      if (!words.empty()) name_beside(page, labels, words, f.on_page(p.at), 1.5, type);
    }
  };
  const auto areas = [&](Kind kind, const Type& type) {
    for (const auto& a : map.areas) {
      if (a.label.kind != kind || a.label.name.empty() || !f.touches(a.outer, 0)) continue;
      Mm middle{0, 0};
      for (const auto& p : a.outer) middle = {middle.x + f.on_page(p).x, middle.y + f.on_page(p).y};
      const auto n = static_cast<double>(a.outer.size());
      name_over(page, labels, a.label.name, {middle.x / n, middle.y / n}, type);
    }
  };
  const auto lines = [&](Kind kind, const Type& type) {
    std::vector<std::pair<std::string, Mm>> set;
    for (const auto& l : map.lines) {
      if (l.label.kind != kind || l.label.name.empty() || !f.touches(l.points, 0)) continue;
      std::vector<Mm> inside;
      for (const auto& p : l.points) {
        if (f.near(p)) inside.push_back(f.on_page(p));
      }
      if (inside.size() < 2) continue;
      const Mm m = inside[inside.size() / 2];
      const bool near = std::ranges::any_of(set, [&](const auto& s) {
        return s.first == l.label.name && std::hypot(s.second.x - m.x, s.second.y - m.y) < 70;
      });
      if (!near && name_along(page, labels, l.label.name, inside, type))
        set.emplace_back(l.label.name, m);
    }
  };
  points(Kind::summit, {Face::words_bold, 2.9, ink::text, 0.8}, true);
  areas(Kind::lake, {Face::water, 3.0, ink::tarn, 0.7});
  points(Kind::settlement, {Face::words_bold, 2.8, ink::text, 0.8}, false);
  points(Kind::saddle, {Face::words_italic, 2.5, ink::text, 0.7}, false);
  points(Kind::hut, {Face::words, 2.5, ink::text, 0.7}, false);
  points(Kind::bridge, {Face::words, 2.4, ink::text, 0.7}, false);
  lines(Kind::river, {Face::water, 2.6, ink::tarn, 0.7});
  lines(Kind::stream, {Face::water, 2.4, ink::tarn, 0.7});
  lines(Kind::cliff, {Face::words_italic, 2.4, ink::text, 0.7});
  points(Kind::building, {Face::words, 2.3, ink::text, 0.7}, false);
  points(Kind::ruin, {Face::words, 2.3, ink::text, 0.7}, false);
  areas(Kind::marsh, {Face::words_italic, 2.5, ink::text, 0.7});
  areas(Kind::wood, {Face::words, 2.5, ink::stone, 0.7});
  lines(Kind::wall, {Face::words, 2.2, ink::stone, 0.7});
  points(Kind::spot_height, {Face::figures, 2.1, ink::text, 0.7}, true);
}

}  // namespace lodeway::sheet
