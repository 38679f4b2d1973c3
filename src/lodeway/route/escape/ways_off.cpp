#include "lodeway/route/escape/ways_off.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/mapdata/along_line.hpp"
#include "lodeway/walking/course.hpp"

namespace lodeway::route {

namespace {

using earth::GridPoint;
using mapdata::Kind;

constexpr double first_m = 150;

GridPoint place_of(const Prepared& p, std::uint32_t id) {
  if (id >= p.paths.graph.first) return p.paths.graph.at[id - p.paths.graph.first];
  const auto [r, c] = p.cost.cell(id);
  return p.cost.frame.centre(r, c);
}

/// Where people live or drive, by node: what it is called.
std::map<std::uint32_t, std::string> havens(const walking::Ground& ground,
                                            const std::vector<walking::SafePlace>& named,
                                            const Prepared& p, units::Language language) {
  std::map<std::uint32_t, std::string> out;
  for (const auto& [node, line] : p.paths.lines_of_node) {
    const auto& label = ground.map.lines[line].label;
    if (label.kind == Kind::road) out[node] = landmarks::thing(label.kind, label.name, language);
  }
  const auto add = [&](GridPoint at, const std::string& name) {
    const auto [r, c] = p.cost.frame.cell_of(at);
    if (!p.cost.frame.holds(r, c) || p.cost.slowness[p.cost.index(r, c)] >= barred_slowness) return;
    out[p.cost.index(r, c)] = name;
  };
  for (const auto& point : ground.map.points) {
    const auto kind = point.label.kind;
    if (kind != Kind::hut && kind != Kind::settlement) continue;
    add(point.at, landmarks::thing(kind, point.label.name, language));
  }
  for (const auto& place : named) {  // the leader's own words count
    for (const auto node : haven_nodes(ground, p, place)) out[node] = place.name;
  }
  return out;
}

GridPoint middle_of(const walking::Course& course) {
  return mapdata::point_along(course.line, 0.5 * mapdata::length_m(course.line));
}

/// A course that wants a way off, and the nodes beside its middle.
struct Asking {
  std::size_t course;
  GridPoint at;
  std::vector<Seed> near;
};

/// The node beside a place from which it is soonest off, and the seconds in all from the place.
Seed soonest(const Field& field, const std::vector<Seed>& near) {
  Seed best{no_parent, unreached_s};
  for (const auto& seed : near) {
    const float all = seed.seconds + field.seconds[seed.node];
    if (all < best.seconds) best = {seed.node, all};
  }
  return best;
}

}  // namespace

WaysOff::WaysOff(const walking::Ground& ground, const walking::Request& request, const Prepared& p,
                 units::Language language, KeptFields* kept)
    : ground_(ground),
      party_(request.party),
      prepared_(p),
      havens_(havens(ground, request.safe, p, language)),
      kept_(kept) {}

std::vector<std::optional<walking::WayOff>> WaysOff::of(
    std::span<const walking::Course* const> courses) const {
  std::vector<std::optional<walking::WayOff>> out(courses.size());
  std::vector<Asking> asking;
  for (std::size_t i = 0; i < courses.size(); ++i) {
    const auto& course = *courses[i];
    if (course.kind == walking::LegKind::along && course.followed.kind == Kind::road) continue;
    const auto at = middle_of(course);
    asking.push_back({i, at, nodes_near(ground_, prepared_, at, true)});
  }
  if (havens_.empty() || asking.empty()) return out;
  std::vector<std::uint32_t> nodes, targets;
  std::vector<Seed> seeds;
  for (const auto& [node, name] : havens_) {
    nodes.push_back(node);
    seeds.push_back({node, 0});
  }
  for (const auto& a : asking) {
    for (const auto& seed : a.near) targets.push_back(seed.node);
  }
  const auto field = field_back(kept_, nodes, prepared_, seeds, targets);
  for (const auto& [course, start, near] : asking) {
    const auto [node, seconds] = soonest(*field, near);
    if (node == no_parent) continue;
    walking::WayOff off;
    const auto ids = trace(*field, node);  // from the haven's side to the node
    off.haven = havens_.at(ids.front());
    off.line.push_back(start);
    for (auto id = ids.rbegin(); id != ids.rend(); ++id)
      off.line.push_back(place_of(prepared_, *id));
    double run = 0;
    auto first = off.line.back();
    for (std::size_t i = 1; i < off.line.size() && run < first_m; ++i) {
      run += earth::grid_distance_m(off.line[i - 1], off.line[i]);
      first = off.line[i];
    }
    off.first = earth::grid_bearing(start, first);
    const auto bands = walking::bands_of(party_);
    off.minutes = walking::nine_in_ten_minutes(
        std::array{bands.centre * static_cast<double>(seconds) / 60}, bands);
    out[course] = std::move(off);
  }
  return out;
}

}  // namespace lodeway::route
