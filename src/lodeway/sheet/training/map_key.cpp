/// The key under the map piece.
#include <algorithm>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/sheet/map/map_symbols.hpp"
#include "lodeway/sheet/training/training_page.hpp"

namespace lodeway::sheet::training {

void draw_key(Page& page, const MapFrame& frame, const walking::Ground& ground, Mm at,
              units::Language language) {
  using mapdata::Kind;
  constexpr double sign_w = 10, sign_h = 3.6, gap = 1.2, after = 4;
  double x = at.x;
  for (const auto kind :
       {Kind::mast, Kind::power_line, Kind::wall, Kind::fence, Kind::road, Kind::path}) {
    const bool point = kind == Kind::mast;
    const bool there =
        point ? std::ranges::any_of(
                    ground.map.points,
                    [&](const auto& p) { return p.label.kind == kind && frame.near(p.at); })
              : std::ranges::any_of(ground.map.lines, [&](const auto& line) {
                  return line.label.kind == kind && frame.touches(line.points, 0);
                });
    if (!there) continue;
    // A map of a centimetre, with nothing on it but the sign.
    MapFrame small = frame;
    small.at = {x, at.y - 0.5 * sign_h};
    small.w = point ? sign_h : sign_w;
    small.h = sign_h;
    mapdata::MapData map;
    const double middle = small.at.y + 0.5 * sign_h;
    if (point) {
      mapdata::PointFeature one;
      one.label.kind = kind;
      one.at = small.on_ground({x + 0.5 * small.w, middle});
      map.points.push_back(one);
    } else {
      // A power line has a pole each 9.6 mm: one of them shows.
      const double before = kind == Kind::power_line ? 0.2 : 1;
      mapdata::LineFeature one;
      one.label.kind = kind;
      one.points = {small.on_ground({x - before, middle}),
                    small.on_ground({x + small.w + 1, middle})};
      map.lines.push_back(std::move(one));
    }
    page.clip(small.at.x, small.at.y, small.w, small.h);
    Labels labels({0, 0, 0, 0});
    draw_lines(page, small, map, ground.elevation);
    draw_points(page, labels, small, map);
    page.unclip();
    x += small.w + gap;
    x += page.text(landmarks::thing(kind, {}, language), {x, at.y + 1}, words(8.5)) + after;
  }
}

}  // namespace lodeway::sheet::training
