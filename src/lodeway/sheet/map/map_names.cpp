#include <algorithm>
#include <cmath>
#include <optional>

#include "lodeway/sheet/map/map_symbols.hpp"
#include "lodeway/sheet/map/strokes.hpp"
#include "lodeway/units/text.hpp"

namespace lodeway::sheet {

namespace {

using mapdata::Kind;

constexpr double small_name_mm = 2.3, same_name_apart_mm = 70, least_lake_mm = 8;

/// In the unit that the sheet's contours count.
std::string height_words(double h_m, bool feet) {
  const double h = feet ? h_m / units::metres_per_foot : h_m;
  return std::isfinite(h) && h > 0 ? std::to_string(std::lround(h)) : std::string();
}

/// The place deepest inside the part of an area that the map shows; nothing when it shows none.
/// By a lattice of 24 x 24 places over that part.
std::optional<Mm> deep_inside(const MapFrame& f, const mapdata::AreaFeature& area) {
  constexpr int lattice = 24;
  auto ring = on_page(f, area.outer, 0.5);
  Room box{1e9, 1e9, -1e9, -1e9};
  for (const Mm p : ring) {
    box = {std::min(box.x0, p.x), std::min(box.y0, p.y), std::max(box.x1, p.x),
           std::max(box.y1, p.y)};
  }
  box = {std::max(box.x0, f.at.x), std::max(box.y0, f.at.y), std::min(box.x1, f.at.x + f.w),
         std::min(box.y1, f.at.y + f.h)};
  if (ring.empty() || box.x0 >= box.x1 || box.y0 >= box.y1) return std::nullopt;
  ring.push_back(ring.front());
  std::optional<Mm> best;
  double deepest = 0;
  for (int j = 0; j < lattice; ++j) {
    for (int i = 0; i < lattice; ++i) {
      const Mm p{box.x0 + (i + 0.5) / lattice * (box.x1 - box.x0),
                 box.y0 + (j + 0.5) / lattice * (box.y1 - box.y0)};
      if (!mapdata::contains(area, f.on_ground(p))) continue;
      // Names lie along: room to the sides counts, so the map's own sides are looked at too.
      const double deep = std::min({distance_mm(p, ring), p.x - f.at.x, f.at.x + f.w - p.x,
                                    2 * (p.y - f.at.y), 2 * (f.at.y + f.h - p.y)});
      if (deep > deepest) {
        deepest = deep;
        best = p;
      }
    }
  }
  return best;
}

class Names {
 public:
  Names(Page& page, Labels& labels, const MapFrame& f, const mapdata::MapData& map,
        const terrain::Elevation* heights, bool feet)
      : page_(page), labels_(labels), f_(f), map_(map), heights_(heights), feet_(feet) {}

  void points(Kind kind, const Type& type, bool with_height = false) {
    if (dropped(type)) return;
    for (const auto& p : map_.points) {
      if (p.label.kind != kind || !f_.near(p.at)) continue;
      auto words = p.label.name;
      if (with_height) words += (words.empty() ? "" : " ") + height_words(p.height_m, feet_);
      if (!words.empty()) name_beside(page_, labels_, words, f_.on_page(p.at), 1.5, type);
    }
  }

  void areas(Kind kind, const Type& type) {
    if (dropped(type)) return;
    for (const auto& a : map_.areas) {
      if (a.label.kind != kind || !f_.touches(a.outer, 0)) continue;
      const bool lake = kind == Kind::lake && heights_ != nullptr;
      if (a.label.name.empty() && !lake) continue;
      GroundBox box;
      box.add(a.outer);
      if (a.label.name.empty() && f_.mm(std::min(box.wide(), box.high())) < least_lake_mm) continue;
      const auto middle = deep_inside(f_, a);
      if (!middle) continue;
      const bool named =
          !a.label.name.empty() && name_over(page_, labels_, a.label.name, *middle, type);
      if (lake) level(*middle, named, type);
    }
  }

  /// A name that runs along, again after 70 mm.
  void lines(Kind kind, const Type& type) {
    if (dropped(type)) return;
    std::vector<std::pair<std::string, Mm>> set;
    const Mm low = f_.at, high{f_.at.x + f_.w, f_.at.y + f_.h};
    for (const auto& l : map_.lines) {
      if (l.label.kind != kind || l.label.name.empty() || !f_.touches(l.points, 0)) continue;
      for (const auto& piece : pieces_inside(on_page(f_, l.points), low, high)) {
        if (piece.size() < 2) continue;
        const Mm m = piece[piece.size() / 2];
        const bool near = std::ranges::any_of(set, [&](const auto& s) {
          return s.first == l.label.name &&
                 std::hypot(s.second.x - m.x, s.second.y - m.y) < same_name_apart_mm;
        });
        if (!near && name_along(page_, labels_, l.label.name, piece, type))
          set.emplace_back(l.label.name, m);
      }
    }
  }

 private:
  /// The smallest names leave a small scale first.
  [[nodiscard]] bool dropped(const Type& type) const {
    return f_.scale >= 40000 && type.size_mm < small_name_mm;
  }

  /// A lake's level, in the slope of water names, under the name.
  void level(Mm at, bool named, const Type& type) {
    const double h = terrain::height_at(*heights_, f_.on_ground(at));
    const auto words = height_words(h, feet_);
    if (words.empty()) return;
    const Type small{type.face, 2.2, type.ink, type.halo_mm};
    (void)name_over(page_, labels_, words, {at.x, at.y + (named ? 3.4 : 0.0)}, small);
  }

  Page& page_;
  Labels& labels_;
  const MapFrame& f_;
  const mapdata::MapData& map_;
  const terrain::Elevation* heights_;
  bool feet_;
};

}  // namespace

void draw_names(Page& page, Labels& labels, const MapFrame& f, const mapdata::MapData& map,
                const terrain::Elevation* heights, bool feet) {
  Names names(page, labels, f, map, heights, feet);
  names.points(Kind::summit, {Face::words_bold, 2.9, ink::text, 0.8}, true);
  names.areas(Kind::lake, {Face::water, 3.0, ink::tarn, 0.7});
  names.areas(Kind::sea, {Face::water, 3.4, ink::tarn, 0.7});
  names.points(Kind::settlement, {Face::words_bold, 2.8, ink::text, 0.8});
  names.points(Kind::saddle, {Face::words_italic, 2.5, ink::text, 0.7});
  names.points(Kind::hut, {Face::words, 2.5, ink::text, 0.7});
  names.points(Kind::shelter, {Face::words, 2.4, ink::text, 0.7});
  names.points(Kind::bridge, {Face::words, 2.4, ink::text, 0.7});
  names.lines(Kind::river, {Face::water, 2.6, ink::tarn, 0.7});
  names.lines(Kind::stream, {Face::water, 2.4, ink::tarn, 0.7});
  names.lines(Kind::cliff, {Face::words_italic, 2.4, ink::text, 0.7});
  names.points(Kind::building, {Face::words, 2.3, ink::text, 0.7});
  names.points(Kind::ruin, {Face::words, 2.3, ink::text, 0.7});
  names.points(Kind::waterfall, {Face::water, 2.3, ink::tarn, 0.7});
  names.points(Kind::mast, {Face::words, 2.3, ink::text, 0.7});
  names.areas(Kind::marsh, {Face::words_italic, 2.5, ink::text, 0.7});
  names.areas(Kind::wood, {Face::words, 2.5, ink::stone, 0.7});
  names.areas(Kind::forbidden, {Face::words_bold, 2.5, ink::night, 0.8});
  names.lines(Kind::road, {Face::words, 2.3, ink::stone, 0.7});
  names.lines(Kind::wall, {Face::words, 2.2, ink::stone, 0.7});
  names.lines(Kind::path, {Face::words_italic, 2.2, ink::stone, 0.7});
  names.points(Kind::spot_height, {Face::figures, 2.1, ink::text, 0.7}, true);
}

}  // namespace lodeway::sheet
