#include "lodeway/landmarks/relief_features.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <initializer_list>
#include <iterator>

#include "lodeway/mapdata/line_index.hpp"
#include "lodeway/mapdata/point_index.hpp"
#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/mapdata/strokes.hpp"
#include "lodeway/terrain/coarsened.hpp"
#include "lodeway/terrain/drainage.hpp"
#include "lodeway/terrain/ridges.hpp"
#include "lodeway/terrain/streams.hpp"
#include "lodeway/terrain/summits.hpp"

namespace lodeway::landmarks {

namespace {

using earth::GridPoint;
using mapdata::Kind;
using mapdata::LineFeature;
using mapdata::MapData;
using terrain::Elevation;
using terrain::StreamLine;

constexpr double most_cells = 16e6;  // what bounds the memory: about 30 bytes a cell
constexpr double most_turn_deg = 75, turn_reach_m = 100, gap_m = 120;
constexpr double simplify_cells = 0.25;

bool is_one_of(Kind kind, std::initializer_list<Kind> kinds) {
  return std::ranges::find(kinds, kind) != kinds.end();
}

std::vector<LineFeature> lines_of(const MapData& map, std::initializer_list<Kind> kinds) {
  std::vector<LineFeature> chosen;
  for (const auto& line : map.lines) {
    if (is_one_of(line.label.kind, kinds)) chosen.push_back(line);
  }
  return chosen;
}

/// Whether the ground falls (`way` 1) or rises (-1) on both sides of a place on a line that runs
/// along `d` there.
bool stands_out(const Elevation& heights, GridPoint p, GridPoint d, double way,
                const ReliefScale& scale) {
  const double length = mapdata::length_of(d);
  if (!(length > 0)) return false;
  const GridPoint left{-scale.side_m * d.north_m / length, scale.side_m * d.east_m / length};
  const double own = terrain::height_at(heights, p);
  return way * (own - terrain::height_at(heights, p + left)) >= scale.side_rise_m &&
         way * (own - terrain::height_at(heights, p - left)) >= scale.side_rise_m;
}

/// Pieces of a line, in metres along it, where `good` holds; gaps of up to `bridged_m` count as
/// good.
std::vector<std::pair<double, double>> good_pieces(const mapdata::Measured& line, double step_m,
                                                   double least_m,
                                                   const std::function<bool(double)>& good,
                                                   double bridged_m) {
  std::vector<std::pair<double, double>> out;
  const int steps = std::max(1, static_cast<int>(std::ceil(line.length_m() / step_m)));
  const double each = line.length_m() / steps;
  for (int i = 0; i <= steps; ++i) {
    const double at = i == steps ? line.length_m() : i * each;
    if (!good(at)) continue;
    if (!out.empty() && at - out.back().second <= bridged_m + 1.5 * each) {
      out.back().second = at;
    } else {
      out.emplace_back(at, at);
    }
  }
  std::erase_if(out, [&](const auto& piece) { return piece.second - piece.first < least_m; });
  return out;
}

/// Lines of cells made into strokes without the cells' steps, and cut to what stands out.
std::vector<LineFeature> lines_that_stand_out(const Elevation& heights,
                                              const std::vector<StreamLine>& lines, Kind kind,
                                              double way, const mapdata::LineIndex& mapped,
                                              const ReliefScale& scale) {
  const double cell = heights.frame().cell_m;
  std::vector<std::vector<GridPoint>> parts;
  for (const auto& line : lines) {
    parts.push_back(mapdata::simplify(mapdata::without_steps(line.points), simplify_cells * cell));
  }
  std::vector<LineFeature> out;
  for (const auto& stroke : mapdata::strokes(parts, most_turn_deg, turn_reach_m)) {
    const mapdata::Measured line(stroke.points);
    int order = 1;
    for (const std::size_t part : stroke.parts) order = std::max(order, lines[part].order);
    const auto good = [&](double at) {
      const auto p = line.at(at), along = line.at(at + 3 * cell) - line.at(at - 3 * cell);
      return stands_out(heights, p, along, way, scale) && mapped.near(p, scale.near_m).empty();
    };
    for (const auto& [from, to] : good_pieces(line, cell, scale.least_length_m, good, gap_m)) {
      LineFeature feature{{kind, "", mapdata::Origin::from_relief}, line.piece(from, to)};
      feature.order = static_cast<unsigned char>(std::min(order, 255));
      out.push_back(std::move(feature));
    }
  }
  return out;
}

/// The map's standing water, with boxes round it.
class Lakes {
 public:
  explicit Lakes(const MapData& map) {
    for (const auto& area : map.areas) {
      if (!is_one_of(area.label.kind, {Kind::lake, Kind::sea})) continue;
      Box box{&area, area.outer.front(), area.outer.front()};
      for (const auto& p : area.outer) {
        box.low = {std::min(box.low.east_m, p.east_m), std::min(box.low.north_m, p.north_m)};
        box.high = {std::max(box.high.east_m, p.east_m), std::max(box.high.north_m, p.north_m)};
      }
      boxes_.push_back(box);
    }
  }
  [[nodiscard]] bool hold(GridPoint p) const {
    return std::ranges::any_of(boxes_, [&](const Box& b) {
      return p.east_m >= b.low.east_m && p.east_m <= b.high.east_m && p.north_m >= b.low.north_m &&
             p.north_m <= b.high.north_m && mapdata::contains(*b.area, p);
    });
  }

 private:
  struct Box {
    const mapdata::AreaFeature* area;
    GridPoint low, high;
  };
  std::vector<Box> boxes_;
};

/// Whether known ground lies all round within `reach_m`.
bool known_around(const Elevation& heights, GridPoint p, double reach_m) {
  const auto [row, col] = heights.frame().cell_of(p);
  const int reach = std::max(1, static_cast<int>(reach_m / heights.frame().cell_m));
  for (int r = row - reach; r <= row + reach; ++r) {
    for (int c = col - reach; c <= col + reach; ++c) {
      if (!heights.frame().holds(r, c) || !terrain::is_height(heights[r, c])) return false;
    }
  }
  return true;
}

/// Along the rim and voids lines only gather what cannot leave the known ground: cut there.
std::vector<LineFeature> streams_of(const Elevation& heights, const std::vector<StreamLine>& lines,
                                    const MapData& map) {
  const Lakes lakes(map);
  const double cell_m = heights.frame().cell_m;
  std::vector<LineFeature> out;
  for (const auto& found : lines) {
    const auto points =
        mapdata::simplify(mapdata::without_steps(found.points), simplify_cells * cell_m);
    const mapdata::Measured line(points);
    const auto good = [&](double at) {
      const auto p = line.at(at);
      return known_around(heights, p, 2 * cell_m) && !lakes.hold(p);
    };
    const auto pieces = good_pieces(line, cell_m, cell_m, good, 0);
    for (const auto& [from, to] : pieces) {
      LineFeature stream{{Kind::stream, "", mapdata::Origin::from_relief}, line.piece(from, to)};
      stream.order = static_cast<unsigned char>(std::min(found.order, 255));
      out.push_back(std::move(stream));
    }
  }
  return out;
}

}  // namespace

Elevation at_relief_scale(const Elevation& heights, const ReliefScale& scale) {
  const auto& frame = heights.frame();
  const double cells = static_cast<double>(frame.size());
  const int times = std::max(
      1, static_cast<int>(std::ceil(std::max(scale.least_cell_m / frame.cell_m * (1 - 1e-9),
                                             std::sqrt(cells / most_cells)))));
  return terrain::coarsened(heights, times);
}

std::vector<LineFeature> relief_ridges(const Elevation& heights, const MapData& map,
                                       const ReliefScale& scale) {
  if (heights.empty()) return {};
  const auto lines = terrain::ridge_lines(heights, scale.ridge_area_m2, scale.prominence_m);
  return lines_that_stand_out(heights, lines, Kind::ridge_line, 1,
                              mapdata::LineIndex(lines_of(map, {Kind::ridge_line})), scale);
}

std::vector<LineFeature> relief_valleys(const Elevation& heights, const MapData& map,
                                        const ReliefScale& scale) {
  if (heights.empty()) return {};
  const auto drainage = terrain::drainage(heights);
  auto water = lines_of(map, {Kind::stream, Kind::river, Kind::ditch});
  std::vector<LineFeature> out;
  if (water.empty()) {
    out = streams_of(heights, terrain::stream_lines(drainage, scale.stream_area_m2), map);
    water = out;
  }
  for (auto& line : lines_of(map, {Kind::shore, Kind::valley_line})) {
    water.push_back(std::move(line));
  }
  auto valleys =
      lines_that_stand_out(heights, terrain::stream_lines(drainage, scale.valley_area_m2),
                           Kind::valley_line, -1, mapdata::LineIndex(water), scale);
  std::ranges::move(valleys, std::back_inserter(out));
  return out;
}

std::vector<mapdata::PointFeature> relief_points(const Elevation& heights, const MapData& map,
                                                 const ReliefScale& scale) {
  std::vector<mapdata::PointFeature> out;
  if (heights.empty()) return out;
  std::vector<GridPoint> mapped_tops, mapped_saddles;
  for (const auto& p : map.points) {
    if (p.label.kind == Kind::summit) mapped_tops.push_back(p.at);
    if (p.label.kind == Kind::saddle) mapped_saddles.push_back(p.at);
  }
  const mapdata::PointIndex tops(std::move(mapped_tops)), saddles(std::move(mapped_saddles));
  const auto add = [&](Kind kind, GridPoint at, double height, const mapdata::PointIndex& mapped) {
    if (!known_around(heights, at, scale.side_m)) return;
    if (!mapped.near(at, scale.near_point_m).empty()) return;
    out.push_back({{kind, "", mapdata::Origin::from_relief}, at, height});
  };
  const auto found = terrain::summits(heights, scale.prominence_m);
  for (const auto& top : found) add(Kind::summit, top.at, top.height_m, tops);
  for (const auto& top : found) {
    if (top.has_col) add(Kind::saddle, top.col, top.col_height_m, saddles);
  }
  return out;
}

}  // namespace lodeway::landmarks
