#pragma once
/// The map's paths as nodes beside the cells, so that a path is followed on its own geometry.
#include "lodeway/route/field.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::route {

/// A node's line and the distance along it.
struct OnLine {
  std::uint32_t line = 0;
  double along_m = 0;
};

struct Paths {
  LineGraph graph;
  std::vector<OnLine> where;  ///< one a node; where several lines meet, the first of them
  /// Lines through a node, for telling whether two neighbours lie on one line: (node, line),
  /// ascending.
  std::vector<std::pair<std::uint32_t, std::uint32_t>> lines_of_node;
};

/// Nodes no further apart than a cell and a half along every path, track and road of the map
/// outside of areas to avoid; lines that share a vertex (within 1 cm) share its node. Each node is
/// joined to the cells around it that are not barred. A tunnel is not joined but at its ends.
[[nodiscard]] Paths make_paths(const walking::Ground& ground, const walking::Cover& cover,
                               const CostGround& cost, const PaceTable& pace);

/// The line that leads from node a to its neighbour b, or no_parent.
[[nodiscard]] std::uint32_t line_between(const Paths& paths, std::uint32_t a, std::uint32_t b);

}  // namespace lodeway::route
