#include "lodeway/route/graph/handrail_net.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/terrain/slope.hpp"

namespace lodeway::route {

namespace {

using earth::GridPoint;

constexpr double at_end_m = 12;  // a fix so near a piece's end lies at the end
constexpr double at_fix_m = 40;  // a line met so near a fix is met at the fix; *practice*
constexpr double look_m = 25;    // a line's direction at a meeting is that of so much of it
constexpr double sharp_turn_deg = 50;

struct Cut {
  double at_m = 0;
  std::uint32_t fix = nothing;
};

/// Where an edge is cut: at fixes on it, not near its ends or the last cut.
std::vector<Cut> cuts_of(const landmarks::Fixes& fixes, std::uint32_t e, double length) {
  std::vector<Cut> out;
  for (const auto f : fixes.on_edge(e)) {
    for (const auto& on : fixes[f].on) {
      if (on.edge != e || on.along_m < at_end_m || on.along_m > length - at_end_m) continue;
      if (out.empty() || on.along_m - out.back().at_m >= at_end_m) out.push_back({on.along_m, f});
      break;
    }
  }
  return out;
}

}  // namespace

Lines::Lines(const walking::Ground& ground)
    : shared_fixes(
          std::make_shared<const landmarks::Fixes>(ground.elevation, ground.map, ground.kinds)),
      fixes(*shared_fixes),
      slopes(terrain::slope_raster(ground.elevation)),
      ground_(ground),
      entries_of_fix_(shared_fixes->all().size()) {
  const auto& net = fixes.network();
  spots_of_fix.resize(fixes.all().size());
  std::vector<GridPoint> places;
  for (const auto& fix : fixes.all()) places.push_back(fix.at);
  fix_places = mapdata::PointIndex(places);
  const auto nearest_fix = [&](GridPoint p) {
    std::uint32_t best = nothing;
    double least = 15;
    for (const auto f : fixes.near(p, 15)) {
      if (const double d = earth::grid_distance_m(fixes[f].at, p); d < least) {
        least = d;
        best = f;
      }
    }
    return best;
  };
  for (const auto& node : net.nodes()) {
    spots.push_back({node.at, nearest_fix(node.at), {}});
  }
  pieces_of_edge.resize(net.edges().size());
  for (std::uint32_t e = 0; e < net.edges().size(); ++e) {
    const auto& edge = net.edges()[e];
    const mapdata::Measured measured(edge.points);
    auto cuts = cuts_of(fixes, e, edge.length_m);
    cuts.push_back({measured.length_m(), nothing});
    std::uint32_t from = edge.from;
    double at = 0;
    for (std::size_t k = 0; k < cuts.size(); ++k) {
      std::uint32_t to = edge.to;
      if (k + 1 < cuts.size()) {
        to = static_cast<std::uint32_t>(spots.size());
        spots.push_back({measured.at(cuts[k].at_m), cuts[k].fix, {}});
      }
      const auto piece = static_cast<std::uint32_t>(pieces.size());
      pieces.push_back(
          {edge.line, e, from, to, at, cuts[k].at_m - at, measured.piece(at, cuts[k].at_m), {}});
      pieces_of_edge[e].push_back(piece);
      spots[from].out.push_back(2 * piece);
      spots[to].out.push_back(2 * piece + 1);
      from = to;
      at = cuts[k].at_m;
    }
  }
  std::vector<std::uint32_t> entered;
  for (std::uint32_t e = 0; e < net.edges().size(); ++e) {
    if (std::ranges::any_of(pieces_of_edge[e],
                            [&](auto p) { return pieces[p].length_m >= 2 * at_fix_m; }))
      entered.push_back(e);
  }
  entered_ = EdgesAround(net.edges(), std::move(entered), enter_reach_m);
  for (std::uint32_t s = 0; s < spots.size(); ++s) {
    if (spots[s].fix != nothing) spots_of_fix[spots[s].fix].push_back(s);
  }
}

std::vector<Entry> Lines::entries(GridPoint at) const {
  struct Met {
    std::uint32_t edge;
    Entry entry;
  };
  std::vector<Met> met;
  for (const auto& on : entered_.near(at, enter_reach_m)) {
    for (const auto piece : pieces_of_edge[on.edge]) {
      const double along = on.along_m - pieces[piece].from_m;
      if (along < at_fix_m || along > pieces[piece].length_m - at_fix_m) continue;
      met.push_back({on.edge, {piece, along, on.at, on.away_m}});
    }
  }
  std::ranges::sort(met, {}, [](const Met& m) { return std::pair(m.entry.away_m, m.edge); });
  if (met.size() > most_entries) met.resize(most_entries);
  std::vector<Entry> out;
  for (const auto& m : met) out.push_back(m.entry);
  return out;
}

std::vector<GridPoint> Lines::points(std::uint32_t run, double from_m, double to_m) const {
  const auto& piece = pieces[run / 2];
  const mapdata::Measured measured(piece.points);
  const double length = measured.length_m();
  return run % 2 == 0 ? measured.piece(from_m, to_m)
                      : measured.piece(length - from_m, length - to_m);
}

double Lines::turn_deg(std::uint32_t run, std::uint32_t next) const {
  const auto in =
      points(run, std::max(pieces[run / 2].length_m - look_m, 0.0), pieces[run / 2].length_m);
  const auto on = points(next, 0, std::min(look_m, pieces[next / 2].length_m));
  const auto a = in.back() - in.front(), b = on.back() - on.front();
  return std::abs(std::atan2(mapdata::cross(a, b), mapdata::dot(a, b))) * 180 / std::numbers::pi;
}

bool Lines::goes_on(std::uint32_t run, std::uint32_t next) const {
  if (run / 2 == next / 2) return false;
  const auto &a = label(run), &b = label(next);
  if (a.kind != b.kind || a.name != b.name) return false;
  if (!a.name.empty()) return true;
  const auto like = std::ranges::count_if(spots[end(run)].out, [&](std::uint32_t other) {
    return label(other).kind == a.kind && label(other).name == a.name;
  });
  return like == 2 || turn_deg(run, next) < sharp_turn_deg;  // a bend alone parts nothing
}

}  // namespace lodeway::route
