/// Fixes on the net of lines: where they meet, end, bend, and cross on bridges.
#include <algorithm>
#include <cmath>
#include <set>

#include "lodeway/landmarks/detail/gather.hpp"
#include "lodeway/mapdata/polyline.hpp"

namespace lodeway::landmarks {

namespace {
using mapdata::Kind;
using mapdata::Label;
using mapdata::LineFeature;

bool is_way(Kind k) {
  return k == Kind::path || k == Kind::faint_path || k == Kind::track || k == Kind::road;
}
bool is_relief(Kind k) { return k == Kind::ridge_line || k == Kind::valley_line; }
bool has_corners(Kind k) {
  return k == Kind::wall || k == Kind::fence || k == Kind::hedge || k == Kind::wood_edge;
}
/// What people built ends where it ends; a beck's head and a ridge's foot are where one draws them.
double end_known(Kind k) {
  switch (k) {
    case Kind::road:
    case Kind::track:
    case Kind::railway:
    case Kind::wall:
    case Kind::fence:
    case Kind::hedge:
    case Kind::power_line:
      return 0.8;
    case Kind::path:
      return 0.6;
    default:
      return 0.4;
  }
}

/// Where the ground file ends lines are cut: no end that anybody can see.
bool at_rim(const terrain::Elevation& heights, GridPoint p) {
  constexpr double rim_m = 25;
  const auto& f = heights.frame();
  return !heights.empty() && (p.east_m < f.west_m + rim_m || p.east_m > f.east_m() - rim_m ||
                              p.north_m < f.south_m() + rim_m || p.north_m > f.north_m - rim_m);
}

/// Known as a meeting of lines is known, and no better than the second of the lines that make it.
Fix meeting(const GatherFrom& g, FixSort sort, GridPoint at, std::vector<const Label*> lines) {
  const auto& meeting = g.kinds[Kind::junction];
  std::ranges::stable_sort(lines, std::greater{}, [&](const Label* l) {
    return std::pair(is_way(l->kind), g.kinds[l->kind].recognised[0]);
  });
  Fix fix{.at = at,
          .sort = sort,
          .kind = lines[0]->kind,
          .second = lines[1]->kind,
          .name = lines[0]->name,
          .second_name = lines[1]->name};
  for (std::size_t v = 0; v < fix.recognised.size(); ++v) {
    std::ranges::stable_sort(lines, std::greater{},
                             [&](const Label* l) { return g.kinds[l->kind].recognised[v]; });
    const auto& second = g.kinds[lines[1]->kind];
    fix.recognised[v] = std::min(meeting.recognised[v], second.recognised[v]);
    fix.seen_from_m[v] = std::max(meeting.seen_from_m[v], second.seen_from_m[v]);
  }
  return fix;
}

}  // namespace

std::vector<Fix> fixes_of_bridges(const GatherFrom& g) {
  std::vector<Fix> out;
  std::set<std::uint32_t> done;
  for (const auto& over : g.network.overpasses()) {
    if (!g.map.lines[over.over].bridge) continue;
    out.push_back(fix_of_kind(g, FixSort::bridge, over.at, {Kind::bridge, ""}));
    done.insert(over.over);
  }
  for (std::uint32_t l = 0; l < g.map.lines.size(); ++l) {  // over what the map does not show
    const auto& line = g.map.lines[l];
    if (!line.bridge || done.contains(l) || !g.kinds[line.label.kind].leads) continue;
    const mapdata::Measured measured(line.points);
    out.push_back(fix_of_kind(g, FixSort::bridge, measured.at(0.5 * measured.length_m()),
                              {Kind::bridge, ""}));
  }
  return out;
}

std::vector<Fix> fixes_of_nodes(const GatherFrom& g) {
  std::vector<Fix> out;
  for (const auto& node : g.network.nodes()) {
    if (at_rim(g.heights, node.at)) continue;
    // Arms of each line; one that goes through has two. Crests and valley floors are shapes of the
    // ground: nothing is to be seen where they begin, end or meet a path.
    std::vector<std::pair<std::uint32_t, int>> lines;
    std::size_t arms = 0;
    for (const auto e : node.edges) {
      const auto l = g.network.edges()[e].line;
      if (is_relief(g.map.lines[l].label.kind)) continue;
      ++arms;
      const auto same = std::ranges::find(lines, l, &std::pair<std::uint32_t, int>::first);
      if (same == lines.end())
        lines.emplace_back(l, 1);
      else
        ++same->second;
    }
    std::vector<const Label*> labels;
    for (const auto& [l, own] : lines) labels.push_back(&g.map.lines[l].label);
    if (arms == 1) {
      const auto& label = *labels.front();
      out.push_back(fix_of_kind(g, FixSort::line_end, node.at, label, end_known(label.kind)));
    } else if (arms == 2) {
      if (labels.size() < 2 || labels[0]->kind == labels[1]->kind) continue;  // it goes on
      const double alike = looks_alike(labels[0]->kind, labels[1]->kind);
      auto fix = meeting(g, alike > 0 ? FixSort::line_end : FixSort::junction, node.at, labels);
      for (double& known : fix.recognised) known *= alike > 0 ? 0.5 : 1;  // a path gets broader
      out.push_back(std::move(fix));
    } else if (arms > 2) {
      const bool through = std::ranges::all_of(lines, [](const auto& l) { return l.second >= 2; });
      if (labels.size() == 1) labels.push_back(labels.front());
      out.push_back(meeting(g, through && lines.size() > 1 ? FixSort::crossing : FixSort::junction,
                            node.at, std::move(labels)));
    }
  }
  return out;
}

std::vector<Fix> fixes_of_bends(const GatherFrom& g) {
  constexpr double reach_m = 30;
  std::vector<Fix> out;
  for (const auto& chain : g.network.chains(g.map.lines)) {
    const auto& label = g.map.lines[g.network.edges()[chain.edges.front()].line].label;
    if (is_relief(label.kind)) continue;
    auto points = g.network.points_of(chain);
    const double length = mapdata::length_m(points);
    const bool ring = chain.nodes.front() == chain.nodes.back() && length > 4 * reach_m;
    // A ring bends at its first point too: go on over it.
    for (std::size_t i = 1; ring && i < points.size(); ++i) {
      points.push_back(points[i]);
      if (mapdata::length_m(points) > length + 2 * reach_m + 1) break;
    }
    for (const auto& bend : mapdata::sharp_bends(points, reach_m)) {
      if (ring && bend.along_m > length + reach_m) continue;  // met at the beginning
      // a right angle is hard to miss, a lesser turn is one of many
      const double known = 0.9 * std::min(1.0, std::abs(bend.turn_deg) / 90);
      auto fix = fix_of_kind(g, has_corners(label.kind) ? FixSort::corner : FixSort::bend, bend.at,
                             label, known);
      fix.turn_deg = bend.turn_deg;
      out.push_back(std::move(fix));
    }
  }
  return out;
}

}  // namespace lodeway::landmarks
