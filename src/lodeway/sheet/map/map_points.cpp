#include "lodeway/sheet/map/map_symbols.hpp"

namespace lodeway::sheet {

using mapdata::Kind;

void draw_points(Page& page, Labels& labels, const MapFrame& f, const mapdata::MapData& map) {
  const double k = ground_size(f.scale);
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
      case Kind::mast:
        page.stroke({{p.x, p.y + 0.4}, {p.x, p.y - 1.8}}, {ink::stone, 0.25 * k});
        page.strokes({{{p.x - 0.6, p.y - 1.2}, {p.x + 0.6, p.y - 1.2}},
                      {{p.x - 0.6, p.y + 0.4}, {p.x + 0.6, p.y + 0.4}}},
                     {ink::stone, 0.25 * k});
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

}  // namespace lodeway::sheet
