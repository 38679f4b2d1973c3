/// Fixes that are points of the map, or belong to lakes.
#include <algorithm>
#include <cmath>
#include <numbers>

#include "lodeway/landmarks/detail/gather.hpp"
#include "lodeway/mapdata/house_among.hpp"
#include "lodeway/mapdata/polyline.hpp"

namespace lodeway::landmarks {

namespace {
using mapdata::Kind;

FixSort sort_of(Kind k) {
  switch (k) {
    case Kind::building:
    case Kind::ruin:
    case Kind::hut:
    case Kind::shelter:
    case Kind::sheepfold:
    case Kind::settlement:
      return FixSort::building;
    case Kind::bridge:
      return FixSort::bridge;
    case Kind::ford:
      return FixSort::ford;
    case Kind::summit:
      return FixSort::summit;
    case Kind::saddle:
      return FixSort::saddle;
    case Kind::junction:
      return FixSort::junction;
    default:
      return FixSort::mark;
  }
}

/// A top counts as seen from where the ground leads up to it.
void lead_up(const GatherFrom& g, Fix& top) {
  const double within = leads_up_within(g.heights, top.at);
  for (double& seen : top.seen_from_m) seen = std::max(seen, within);
}

/// The two ends of a lake, where it is at least half as long again as wide.
void ends_of(const GatherFrom& g, const mapdata::AreaFeature& lake, std::vector<Fix>& out) {
  constexpr double least_length_m = 80, least_ratio = 1.5, ends_known = 0.85;
  const auto& ring = lake.outer;
  GridPoint middle;
  double around = 0;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const auto a = ring[i], b = ring[(i + 1) % ring.size()];
    const double length = earth::grid_distance_m(a, b);
    middle = middle + (0.5 * length) * (a + b);
    around += length;
  }
  if (around <= 0) return;
  middle = (1 / around) * middle;
  numeric::Covariance spread;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const auto a = ring[i], d = 0.5 * (a + ring[(i + 1) % ring.size()]) - middle;
    const double length = earth::grid_distance_m(a, ring[(i + 1) % ring.size()]);
    spread += length *
              numeric::Covariance{d.east_m * d.east_m, d.east_m * d.north_m, d.north_m * d.north_m};
  }
  const double azimuth = numeric::axes_of(spread).azimuth;
  const GridPoint axis{std::sin(azimuth), std::cos(azimuth)};
  const auto along = [&](GridPoint p) { return mapdata::dot(p - middle, axis); };
  const auto beside = [&](GridPoint p) { return mapdata::cross(axis, p - middle); };
  const auto [first, last] = std::ranges::minmax(ring, {}, along);
  const auto [right, left] = std::ranges::minmax(ring, {}, beside);
  const double length = along(last) - along(first), width = beside(left) - beside(right);
  if (length < least_length_m || length < least_ratio * width) return;
  for (const auto end : {first, last}) {
    auto fix = fix_of_kind(g, FixSort::lake_end, end, lake.label, ends_known);
    fix.toward_deg = earth::grid_bearing(middle, end).in_degrees();
    out.push_back(std::move(fix));
  }
}

/// Where streams and rivers meet the lake's outline; which way they flow is told by the heights
/// 60 m off, or failing that not at all.
void mouths_of(const GatherFrom& g, const mapdata::AreaFeature& lake,
               const mapdata::LineIndex& water, std::vector<Fix>& out) {
  constexpr double touch_m = 10, look_m = 60, apart_m = 30;
  std::vector<std::pair<std::uint32_t, double>> met;  // line, along
  const auto meet = [&](std::uint32_t line, double along) {
    for (const auto& [l, a] : met) {
      if (l == line && std::abs(a - along) < apart_m) return;
    }
    met.emplace_back(line, along);
  };
  const auto along_of = [&](const mapdata::SegmentRef& ref, GridPoint at) {
    const auto& p = g.map.lines[ref.line].points;
    return mapdata::length_m(std::span(p).first(ref.segment + 1)) +
           earth::grid_distance_m(p[ref.segment], at);
  };
  for (std::size_t i = 0; i < lake.outer.size(); ++i) {
    const auto a = lake.outer[i], b = lake.outer[(i + 1) % lake.outer.size()];
    for (const auto& c : water.crossings(a, b)) meet(c.ref.line, along_of(c.ref, c.at));
    for (const auto& n : water.near(a, touch_m)) {  // a beck that ends just before the shore
      const double length = mapdata::length_m(g.map.lines[n.ref.line].points);
      if (n.along_m < 1 || n.along_m > length - 1) meet(n.ref.line, n.along_m);
    }
  }
  for (const auto& [l, at] : met) {
    const auto& line = g.map.lines[l];
    const mapdata::Measured measured(line.points);
    const auto place = measured.at(at);
    // the piece outside of the lake
    const bool back_outside = at >= look_m && !mapdata::contains(lake, measured.at(at - look_m)),
               on_outside = at + look_m <= measured.length_m() &&
                            !mapdata::contains(lake, measured.at(at + look_m));
    if (back_outside == on_outside) continue;  // runs along the shore, or within it
    const double outside =
        terrain::height_at(g.heights, measured.at(back_outside ? at - look_m : at + look_m));
    const double here = terrain::height_at(g.heights, place);
    if (!std::isfinite(outside) || !std::isfinite(here) || outside == here) continue;
    // no surer than the water that makes it
    auto fix = fix_of_kind(g, outside > here ? FixSort::inlet : FixSort::outlet, place, lake.label);
    fix.second = line.label.kind;
    fix.second_name = line.label.name;
    const auto& traits = g.kinds[line.label.kind];
    for (std::size_t v = 0; v < fix.recognised.size(); ++v) {
      fix.recognised[v] = std::min(fix.recognised[v], traits.recognised[v]);
      fix.seen_from_m[v] = std::min(fix.seen_from_m[v], traits.seen_from_m[v]);
    }
    out.push_back(std::move(fix));
  }
}

}  // namespace

Fix fix_of_kind(const GatherFrom& g, FixSort sort, GridPoint at, const mapdata::Label& label,
                double factor) {
  const auto& traits = g.kinds[label.kind];
  Fix fix{.at = at,
          .sort = sort,
          .kind = label.kind,
          .name = label.name,
          .seen_from_m = traits.seen_from_m,
          .recognised = traits.recognised};
  for (double& known : fix.recognised) known *= factor;
  return fix;
}

std::vector<Fix> fixes_of_points(const GatherFrom& g) {
  std::vector<Fix> out;
  const auto among = mapdata::houses_among_others(g.map);
  for (std::size_t i = 0; i < g.map.points.size(); ++i) {
    const auto& p = g.map.points[i];
    if (!g.kinds[p.label.kind].ticks || among[i] != 0) continue;
    out.push_back(fix_of_kind(g, sort_of(p.label.kind), p.at, p.label));
    if (p.label.kind == Kind::summit) lead_up(g, out.back());
  }
  // named ones first, so that a cairn on a named top is the top
  std::ranges::stable_sort(out, std::greater{}, [](const Fix& f) { return !f.name.empty(); });
  return out;
}

std::vector<Fix> fixes_of_lakes(const GatherFrom& g) {
  std::vector<mapdata::LineFeature> waters(g.map.lines.size());  // others stay empty
  for (std::size_t i = 0; i < waters.size(); ++i) {
    const auto kind = g.map.lines[i].label.kind;
    if ((kind == Kind::stream || kind == Kind::river) && !g.map.lines[i].tunnel)
      waters[i].points = g.map.lines[i].points;
  }
  const mapdata::LineIndex water(waters);
  std::vector<Fix> out;
  for (const auto& lake : g.map.areas) {
    // Water that only the heights suggest is kept off, and tells nobody where they are.
    if (lake.label.kind != Kind::lake || lake.label.origin == mapdata::Origin::from_relief ||
        lake.outer.size() < 3) {
      continue;
    }
    mouths_of(g, lake, water, out);
    ends_of(g, lake, out);
  }
  return out;
}

}  // namespace lodeway::landmarks
