#include "lodeway/sight/cue_planes.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <limits>
#include <numbers>
#include <type_traits>

#include "lodeway/sight/detail/near_planes.hpp"
#include "lodeway/terrain/coarsened.hpp"
#include "lodeway/terrain/visibility.hpp"

namespace lodeway::sight {

namespace {
using terrain::Frame;
using terrain::Landform;

Form form_of(Landform form) {
  switch (form) {
    case Landform::flat:
      return Form::flat;
    case Landform::summit:
      return Form::top;
    case Landform::ridge:
      return Form::ridge;
    case Landform::spur:
      return Form::spur;
    case Landform::shoulder:
    case Landform::slope:
    case Landform::footslope:
      return Form::slope;
    case Landform::hollow:
    case Landform::pit:
      return Form::hollow;
    case Landform::valley:
      return Form::valley;
    case Landform::unknown:
      break;
  }
  return Form::unknown;
}

/// The part of a raster's frame that a window covers, in whole cells.
Frame cut(const Frame& all, const std::optional<Window>& window, int& row0, int& col0) {
  row0 = col0 = 0;
  if (!window) return all;
  row0 = std::clamp(static_cast<int>(std::floor((all.north_m - window->north_m) / all.cell_m)), 0,
                    std::max(all.rows - 1, 0));
  col0 = std::clamp(static_cast<int>(std::floor((window->west_m - all.west_m) / all.cell_m)), 0,
                    std::max(all.cols - 1, 0));
  const int row1 =
      std::clamp(static_cast<int>(std::ceil((all.north_m - window->south_m) / all.cell_m)),
                 row0 + 1, all.rows);
  const int col1 = std::clamp(
      static_cast<int>(std::ceil((window->east_m - all.west_m) / all.cell_m)), col0 + 1, all.cols);
  return {all.west_m + col0 * all.cell_m, all.north_m - row0 * all.cell_m, all.cell_m, row1 - row0,
          col1 - col0};
}

std::uint8_t turn256(double deg) {
  return static_cast<std::uint8_t>(static_cast<int>(std::lround(deg * 256 / 360)) & 255);
}

/// Fall and steepness from heights `arm` cells to each side: what is felt over some 40 m.
void lay_slopes(CuePlanes& p, const terrain::Elevation& z, int row0, int col0, int r) {
  const int arm = std::max(1, static_cast<int>(std::lround(20 / p.frame.cell_m)));
  constexpr double no_z = std::numeric_limits<double>::quiet_NaN();
  const auto at = [&](int row, int col) -> double {
    if (!z.frame().holds(row, col)) return no_z;
    const float h = z[row, col];
    return terrain::is_height(h) ? static_cast<double>(h) : no_z;
  };
  const auto change = [&](double minus, double middle, double plus) {
    if (std::isfinite(minus) && std::isfinite(plus)) return (plus - minus) / 2;
    if (std::isfinite(plus)) return plus - middle;
    return std::isfinite(minus) ? middle - minus : 0;
  };
  for (int c = 0; c < p.frame.cols; ++c) {
    const int row = row0 + r, col = col0 + c;
    const double here = at(row, col);
    const std::size_t i = p.index(r, c);
    if (!std::isfinite(here)) continue;
    p.height[i] = static_cast<std::uint16_t>(
        std::clamp(std::lround((here - p.base_m) / CuePlanes::height_step_m), 0L, 65534L));
    const double run = arm * p.frame.cell_m;
    const double east = change(at(row, col - arm), here, at(row, col + arm)) / run;
    const double north = change(at(row + arm, col), here, at(row - arm, col)) / run;
    const double slope = std::atan(std::hypot(east, north)) * 180 / std::numbers::pi;
    p.steepness[i] = static_cast<std::uint8_t>(
        std::lround(std::min(slope / CuePlanes::steepness_step_deg, 180.0)));
    p.fall[i] = turn256(std::atan2(-east, -north) * 180 / std::numbers::pi);
  }
}

void lay_forms(CuePlanes& p, const terrain::Raster<Landform>& forms, int r) {
  if (forms.empty()) return;
  for (int c = 0; c < p.frame.cols; ++c) {
    const auto [row, col] = forms.frame().cell_of(p.frame.centre(r, c));
    if (forms.frame().holds(row, col)) p.form[p.index(r, c)] = form_of(forms[row, col]);
  }
}

void lay_cover(CuePlanes& p, const walking::Cover& cover, int r) {
  const Frame& of_cover = cover.frame();
  const double half = 0.5 * (p.frame.cell_m - of_cover.cell_m);
  for (int c = 0; c < p.frame.cols; ++c) {
    const auto at = p.frame.centre(r, c);
    const std::size_t i = p.index(r, c);
    p.wood[i] = 0;
    // a larger cell is barred where any of its own cells is
    const auto [first_row, first_col] = of_cover.cell_of({at.east_m - half, at.north_m + half});
    const auto [last_row, last_col] = of_cover.cell_of({at.east_m + half, at.north_m - half});
    walking::Bar bar = walking::Bar::none;
    for (int row = first_row; row <= last_row; ++row) {
      for (int col = first_col; col <= last_col; ++col) {
        if (!of_cover.holds(row, col)) continue;
        if (bar == walking::Bar::none) bar = cover.bar(row, col);
        p.wood[i] |= static_cast<std::uint8_t>(cover.kind(row, col) == mapdata::Kind::wood);
      }
    }
    p.bar[i] = p.known(i) ? bar : walking::Bar::void_height;
  }
}

void for_each_row(const Frame& frame, numeric::Parallel& parallel,
                  const std::function<void(int)>& lay) {
  constexpr int rows_each = 64;
  const auto blocks = static_cast<std::size_t>((frame.rows + rows_each - 1) / rows_each);
  parallel.for_each_block(blocks, [&](std::size_t b) {
    const int first = static_cast<int>(b) * rows_each;
    for (int r = first; r < std::min(first + rows_each, frame.rows); ++r) lay(r);
  });
}

double area_m2(const std::vector<earth::GridPoint>& ring, earth::GridPoint& centre) {
  double twice = 0;
  earth::GridPoint sum;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const auto a = ring[i] - ring[0], b = ring[(i + 1) % ring.size()] - ring[0];
    const double t = a.east_m * b.north_m - a.north_m * b.east_m;
    twice += t;
    sum = sum + (t / 3) * (a + b);
  }
  centre = twice != 0 ? ring[0] + (1 / twice) * sum : ring[0];
  return std::abs(twice) / 2;
}

bool is_far_seen(mapdata::Kind kind) {
  using enum mapdata::Kind;
  return kind == summit || kind == lake || kind == sea || kind == mast || kind == settlement;
}

}  // namespace

std::vector<Thing> things_of(const mapdata::MapData& map) {
  std::vector<Thing> out;
  for (const auto& point : map.points) {
    if (point.label.name.empty() && !is_far_seen(point.label.kind)) continue;
    if (point.label.kind == mapdata::Kind::other || point.label.kind == mapdata::Kind::spot_height)
      continue;
    out.push_back({point.label.kind, point.label.name, point.at, 0});
  }
  for (const auto& area : map.areas) {
    if (area.label.kind != mapdata::Kind::lake || area.outer.empty()) continue;
    Thing thing{area.label.kind, area.label.name, {}, 0};
    const double m2 = area_m2(area.outer, thing.at);
    if (m2 < 2000) continue;  // a pool is told from no puddle
    thing.half_width_m = std::sqrt(m2 / std::numbers::pi);
    out.push_back(std::move(thing));
  }
  return out;
}

const NearPlane* CuePlanes::plane_of(mapdata::Kind kind) const {
  const auto found = std::ranges::find(near, kind, &NearPlane::kind);
  return found == near.end() ? nullptr : &*found;
}

std::optional<std::size_t> CuePlanes::cell(earth::GridPoint p) const {
  const auto [row, col] = frame.cell_of(p);
  if (!frame.holds(row, col)) return std::nullopt;
  const std::size_t i = index(row, col);
  return known(i) ? std::optional(i) : std::nullopt;
}

CuePlanes cue_planes(const walking::Ground& ground, const walking::Cover& cover,
                     const std::optional<Window>& window, numeric::Parallel& parallel,
                     double least_cell_m) {
  CuePlanes p;
  const double cell = ground.elevation.frame().cell_m;
  const int times = std::max(1, static_cast<int>(std::lround(least_cell_m / cell)));
  terrain::Elevation coarse;
  if (times > 1) coarse = terrain::coarsened(ground.elevation, times);
  const terrain::Elevation& z = times > 1 ? coarse : ground.elevation;
  const int more = std::max(1, static_cast<int>(std::ceil(20 / z.frame().cell_m - 1e-9)));
  p.distant = terrain::coarsened(z, more);
  int row0 = 0, col0 = 0;
  p.frame = cut(z.frame(), window, row0, col0);
  const std::size_t n = p.frame.size();
  p.kinds = ground.kinds;
  p.height_sd_m = cell <= 15 ? 4 : 6;
  p.gradient_sd = p.height_sd_m / 100;
  float low = terrain::no_height, high = -terrain::no_height;
  for (int r = 0; r < p.frame.rows; ++r) {
    for (int c = 0; c < p.frame.cols; ++c) {
      const float h = z[row0 + r, col0 + c];
      if (!terrain::is_height(h)) continue;
      low = std::min(low, h);
      high = std::max(high, h);
    }
  }
  p.lowest_m = low <= high ? static_cast<double>(low) : 0;
  p.highest_m = low <= high ? static_cast<double>(high) : 0;
  p.base_m = p.lowest_m;
  p.height.assign(n, CuePlanes::no_height);
  p.fall.assign(n, 0);
  p.steepness.assign(n, 0);
  p.form.assign(n, Form::unknown);
  p.wood.assign(n, 0);
  p.bar.assign(n, walking::Bar::none);
  terrain::Raster<Landform> made;
  if (ground.landforms.empty()) made = terrain::landforms(z);
  const auto& forms = ground.landforms.empty() ? made : ground.landforms;
  for_each_row(p.frame, parallel, [&](int r) {
    lay_slopes(p, z, row0, col0, r);
    lay_forms(p, forms, r);
    lay_cover(p, cover, r);
  });
  p.near = detail::near_planes(ground, p.frame, parallel);
  p.things = things_of(ground.map);
  p.views.resize(p.things.size());
  return p;
}

void lay_cover(CuePlanes& planes, const walking::Cover& cover, numeric::Parallel& parallel) {
  for_each_row(planes.frame, parallel, [&](int r) { lay_cover(planes, cover, r); });
}

CuePlanes cropped(const CuePlanes& planes, const Window& window) {
  CuePlanes p;
  int row0 = 0, col0 = 0;
  p.frame = cut(planes.frame, window, row0, col0);
  const auto piece = [&](const auto& from) {
    std::remove_cvref_t<decltype(from)> to;
    if (from.empty()) return to;
    to.reserve(p.frame.size());
    for (int r = 0; r < p.frame.rows; ++r) {
      const auto at = from.begin() + static_cast<std::ptrdiff_t>(planes.index(row0 + r, col0));
      to.insert(to.end(), at, at + p.frame.cols);
    }
    return to;
  };
  p.base_m = planes.base_m;
  p.height = piece(planes.height);
  p.fall = piece(planes.fall);
  p.steepness = piece(planes.steepness);
  p.form = piece(planes.form);
  p.wood = piece(planes.wood);
  p.bar = piece(planes.bar);
  for (const auto& plane : planes.near)
    p.near.push_back(
        {plane.kind, plane.line, plane.reach_m, piece(plane.distance), piece(plane.direction)});
  p.things = planes.things;
  for (const auto& view : planes.views) p.views.push_back(piece(view));
  p.height_sd_m = planes.height_sd_m;
  p.gradient_sd = planes.gradient_sd;
  p.kinds = planes.kinds;
  std::uint16_t low = CuePlanes::no_height, high = 0;
  for (const std::uint16_t h : p.height) {
    if (h == CuePlanes::no_height) continue;
    low = std::min(low, h);
    high = std::max(high, h);
  }
  p.lowest_m = p.base_m + (low <= high ? CuePlanes::height_step_m * low : 0);
  p.highest_m = p.base_m + CuePlanes::height_step_m * high;
  return p;  // `distant` stays with the whole: views come with the piece
}

void look_from(CuePlanes& planes, std::span<const std::int32_t> things,
               numeric::Parallel& parallel) {
  parallel.for_each_block(things.size(), [&](std::size_t k) {
    const auto t = static_cast<std::size_t>(things[k]);
    if (!planes.views[t].empty()) return;
    const Thing& thing = planes.things[t];
    terrain::Sight sight;
    sight.eye_m = 2;
    sight.target_m = 1.6;
    sight.reach_m = reach_m(thing.kind, mapdata::Visibility::clear, planes.kinds);
    const auto seen = terrain::viewshed(planes.distant, thing.at, sight);
    auto& view = planes.views[t];
    view.assign(planes.frame.size(), 2);
    const auto& f = planes.frame;
    for (int r = 0; r < f.rows; ++r) {
      for (int c = 0; c < f.cols; ++c) {
        const auto [row, col] = seen.frame().cell_of(f.centre(r, c));
        if (!seen.frame().holds(row, col)) continue;
        const auto s = seen[row, col];
        if (s != terrain::Seen::unknown)
          view[planes.index(r, c)] = s == terrain::Seen::seen ? 1 : 0;
      }
    }
  });
}

std::optional<Nearest> nearest_of(const NearPlane& plane, std::size_t cell) {
  if (plane.distance[cell] == CuePlanes::far) return std::nullopt;
  Nearest out;
  out.distance_m = CuePlanes::distance_step_m * plane.distance[cell];
  const int d = plane.direction[cell];
  if (plane.line) {
    out.lie_deg = 180.0 / 128 * (d & 127);
    const double aside = out.lie_deg + ((d & 128) != 0 ? 270 : 90);
    out.bearing_deg = aside < 360 ? aside : aside - 360;
  } else {
    out.bearing_deg = 360.0 / 256 * d;
  }
  return out;
}

}  // namespace lodeway::sight
