#include "lodeway/route/escape/safe_ground.hpp"

#include "lodeway/landmarks/words.hpp"

namespace lodeway::route {

using mapdata::Kind;

std::map<std::uint32_t, std::string> safe_ground(const walking::Ground& ground,
                                                 const std::vector<walking::SafePlace>& places,
                                                 const Prepared& p, units::Language language) {
  std::map<std::uint32_t, std::string> out;
  for (const auto& [node, line] : p.paths.lines_of_node) {
    const auto& label = ground.map.lines[line].label;
    if (label.kind == Kind::road) out[node] = landmarks::thing(label.kind, label.name, language);
  }
  for (const auto& point : ground.map.points) {
    const auto kind = point.label.kind;
    if (kind != Kind::hut && kind != Kind::settlement) continue;
    const auto [r, c] = p.cost.frame.cell_of(point.at);
    if (!p.cost.frame.holds(r, c) || p.cost.slowness[p.cost.index(r, c)] >= barred_slowness)
      continue;
    out[p.cost.index(r, c)] = landmarks::thing(kind, point.label.name, language);
  }
  for (const auto& place : places)
    for (const auto node : haven_nodes(ground, p, place)) out[node] = place.name;
  return out;
}

}  // namespace lodeway::route
