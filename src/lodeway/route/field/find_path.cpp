#include "lodeway/route/field/find_path.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "lodeway/route/field/kept_field.hpp"

namespace lodeway::route {

using earth::GridPoint;

GridPoint place_of_node(const Prepared& p, std::uint32_t id) {
  if (id >= p.paths.graph.first) return p.paths.graph.at[id - p.paths.graph.first];
  const auto [r, c] = p.cost.cell(id);
  return p.cost.frame.centre(r, c);
}

namespace {

using walking::Bar;

constexpr double same_place_m = 1.0;

std::string called(const walking::Waypoint& p) {
  return p.name.empty() ? fmt::format("the place {:.0f} {:.0f}", p.at.east_m, p.at.north_m)
                        : fmt::format("{} ({:.0f} {:.0f})", p.name, p.at.east_m, p.at.north_m);
}

std::string held_words(const terrain::Frame& f) {
  return fmt::format(
      ": expected a place that the ground file holds, easting {:.0f} to {:.0f}, northing {:.0f} to "
      "{:.0f}",
      f.west_m, f.east_m(), f.south_m(), f.north_m);
}

Result<void> no_way(const Prepared& p, const Field& field, const walking::Waypoint& from,
                    const walking::Waypoint& to) {
  double least = 1e300;
  GridPoint nearest = from.at;
  for (std::uint32_t id = 0; id < field.seconds.size(); ++id) {
    if (field.seconds[id] >= unreached_s) continue;
    const auto q = place_of_node(p, id);
    const double d = earth::grid_distance_m(q, to.at);
    if (d < least) {
      least = d;
      nearest = q;
    }
  }
  // What bars the straight line from there to the end.
  const auto blocked = p.cover.first_bar(nearest, to.at);
  return fail(
      FaultCode::no_way,
      fmt::format(
          "no way from {} to {}: it stops {:.0f} m before the end at {:.0f} {:.0f}, stopped by {}",
          called(from), called(to), least, nearest.east_m, nearest.north_m,
          blocked.bar == Bar::none ? "ground on all sides that the party may not cross"
                                   : walking::bar_words(blocked)));
}

}  // namespace

RawPath raw_path(const Prepared& p, const std::vector<std::uint32_t>& ids, GridPoint from,
                  GridPoint to) {
  RawPath out;
  const auto add = [&](std::uint32_t line, GridPoint a, GridPoint b) {
    if (a == b) return;
    if (out.pieces.empty() || out.pieces.back().line != line) out.pieces.push_back({line, {a}});
    out.pieces.back().points.push_back(b);
  };
  const auto first = p.paths.graph.first;
  add(no_parent, from, place_of_node(p, ids.front()));
  for (std::size_t i = 1; i < ids.size(); ++i) {
    const auto a = ids[i - 1], b = ids[i];
    const auto line = a >= first && b >= first ? line_between(p.paths, a, b) : no_parent;
    add(line, place_of_node(p, a), place_of_node(p, b));
  }
  add(no_parent, place_of_node(p, ids.back()), to);
  return out;
}

namespace {
numeric::Parallel& alone() {
  static numeric::Serial one;  // holds nothing
  return one;
}
}  // namespace

Prepared::Prepared(const walking::Ground& ground, const walking::Request& request,
                   const terrain::Raster<float>* slopes)
    : Prepared(ground, request, walking::Cover(ground, request, slopes), alone()) {}

Prepared::Prepared(const walking::Ground& ground, const walking::Request& request,
                   walking::Cover own_cover, numeric::Parallel& parallel)
    : cover(std::move(own_cover)),
      cost(cost_ground(ground.elevation, cover, parallel)),
      pace(request.party.model, request.party.flat_speed_kmh),
      paths(make_paths(ground, cover, cost, pace, parallel)) {}

std::vector<Seed> nodes_near(const walking::Ground& ground, const Prepared& p, GridPoint at,
                             bool outward) {
  std::vector<Seed> out;
  const auto& f = p.cost.frame;
  const auto [row, col] = f.cell_of(at);
  const double z = terrain::height_at(ground.elevation, at);
  const auto add = [&](std::uint32_t id, GridPoint q, float slowness, double height) {
    if (p.cover.line_met(at, q).bar != Bar::none) return;
    const double run = std::max(0.1, earth::grid_distance_m(at, q));
    const double rise = std::isfinite(height - z) ? height - z : 0;
    out.push_back({id, p.pace.step_s(static_cast<float>(run),
                                     static_cast<float>(outward ? rise : -rise), slowness)});
  };
  for (int r = row - 1; r <= row + 1; ++r) {
    for (int c = col - 1; c <= col + 1; ++c) {
      if (!f.holds(r, c)) continue;
      const auto cell = p.cost.index(r, c);
      if (p.cost.slowness[cell] < barred_slowness) {
        add(cell, f.centre(r, c), p.cost.slowness[cell], static_cast<double>(p.cost.height[cell]));
      }
    }
  }
  for (std::uint32_t k = 0; k < p.paths.graph.at.size(); ++k) {
    const auto q = p.paths.graph.at[k];
    if (std::ranges::binary_search(p.paths.in_tunnel, p.paths.graph.first + k)) continue;
    if (earth::grid_distance_m(at, q) <= 1.5 * f.cell_m) {
      add(p.paths.graph.first + k, q, 1.0F, terrain::height_at(ground.elevation, q));
    }
  }
  return out;
}

Result<void> check_place(const Prepared& prepared, const walking::Waypoint& point) {
  switch (const auto bar = prepared.cover.bar_at(point.at); bar) {
    case Bar::none:
      return {};
    case Bar::outside:
      return fail(FaultCode::outside_ground, called(point) + held_words(prepared.cover.frame()));
    case Bar::steep:
    case Bar::river:
    case Bar::cliff:
      return {};  // beside it, or a bridge or a path may stand there; whether a way leads is for
                  // the search to say
    default:
      return fail(
          FaultCode::bad_input,
          fmt::format("{}: expected open ground, here is {}", called(point),
                      walking::bar_words({bar, point.at, prepared.cover.name_at(point.at)})));
  }
}

std::vector<std::uint32_t> haven_nodes(const walking::Ground& ground, const Prepared& p,
                                       const walking::SafePlace& place) {
  std::vector<std::uint32_t> out;
  for (const auto& seed : nodes_near(ground, p, place.at, false)) out.push_back(seed.node);
  return out;
}

Result<void> check_haven(const walking::Ground& ground, const Prepared& p,
                         const walking::SafePlace& place) {
  const walking::Waypoint point{place.name, place.at};
  if (const auto ok = check_place(p, point); !ok) return fail_in("safe", ok.error());
  if (!haven_nodes(ground, p, place).empty()) return {};
  return fail(
      FaultCode::bad_input,
      fmt::format(
          "safe: {}: expected ground that the party may enter, here is {}", called(point),
          walking::bar_words({p.cover.bar_at(place.at), place.at, p.cover.name_at(place.at)})));
}

Result<RawPath> find_path(const walking::Ground& ground, const Prepared& p,
                          const walking::Waypoint& from, const walking::Waypoint& to,
                          KeptEnds* kept) {
  for (const auto* point : {&from, &to}) {
    if (const auto ok = check_place(p, *point); !ok) return std::unexpected(ok.error());
  }
  if (earth::grid_distance_m(from.at, to.at) < same_place_m) {
    return fail(
        FaultCode::bad_input,
        fmt::format("{} and {}: expected two places, they are the same", called(from), called(to)));
  }
  const auto starts = nodes_near(ground, p, from.at, true),
             ends = nodes_near(ground, p, to.at, false);
  if (starts.empty() || ends.empty()) {
    const auto& shut = starts.empty() ? from : to;
    const auto bar = p.cover.bar_at(shut.at);
    return fail(
        FaultCode::no_way,
        fmt::format("{}: no ground around it that the party may walk on{}", called(shut),
                    bar == walking::Bar::none
                        ? std::string()
                        : "; the place itself is " +
                              walking::bar_words({bar, shut.at, p.cover.name_at(shut.at)})));
  }
  // Back from the end, so that the field serves whoever sets out for the same place.
  std::vector<std::uint32_t> targets;
  for (const auto& s : starts) targets.push_back(s.node);
  const auto field = field_back(kept, to.at, p, ends, targets);
  const auto* best = &starts.front();
  const auto total = [&](const Seed& s) { return field->seconds[s.node] + s.seconds; };
  for (const auto& s : starts) {
    if (total(s) < total(*best)) best = &s;
  }
  if (total(*best) >= unreached_s) {
    const auto out = solve_field(p.cost, p.pace, &p.paths.graph, starts, Direction::from_seeds);
    return std::unexpected(no_way(p, out, from, to).error());
  }
  auto ids = trace(*field, best->node);
  std::ranges::reverse(ids);
  auto out = raw_path(p, ids, from.at, to.at);
  out.seconds = static_cast<double>(total(*best));
  return out;
}

}  // namespace lodeway::route
