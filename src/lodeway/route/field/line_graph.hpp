#pragma once
/// The map's paths as nodes beside the cells, so that a path is followed on its own geometry.
#include "lodeway/numeric/parallel.hpp"
#include "lodeway/route/field/field.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::route {

struct Paths {
  LineGraph graph;
  /// Lines through a node, for telling whether two neighbours lie on one line: (node, line),
  /// ascending.
  std::vector<std::pair<std::uint32_t, std::uint32_t>> lines_of_node;
  std::vector<std::uint32_t> in_tunnel;  ///< nodes under the ground, ascending
};

/// Nodes no further apart than a cell and a half along
/// - every path, track and road outside of areas to avoid and forbidden ground, on its own speed:
/// it
///   may cross water, rivers and steep ground, for the map says that people do;
/// - every other line that leads, as a handrail: on the slower of its own and the ground's speed,
/// with less
///   attention than open ground, and only where nothing bars. Not railways, nor rivers.
/// Lines that share a vertex (within 1 cm) share its node. Each node is joined to the four cells
/// around it that are not barred and do not lie beyond a river or cliff. A tunnel is joined at its
/// ends only.
[[nodiscard]] Paths make_paths(const walking::Ground& ground, const walking::Cover& cover,
                               const CostGround& cost, const PaceTable& pace,
                               numeric::Parallel& parallel);

/// The line that leads from node a to its neighbour b, or no_parent.
[[nodiscard]] std::uint32_t line_between(const Paths& paths, std::uint32_t a, std::uint32_t b);

}  // namespace lodeway::route
