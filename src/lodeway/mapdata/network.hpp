#pragma once
/// The map's lines as a net that can be followed: nodes where lines meet, cross and end, and the
/// stretches between. Method, and what is not joined: docs/method/line-network.md. All distances
/// are grid metres.
#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <vector>

#include "lodeway/mapdata/line_index.hpp"
#include "lodeway/mapdata/map_data.hpp"

namespace lodeway::mapdata {

inline constexpr std::uint32_t no_edge = 0xffffffffU;

struct NetworkNode {
  GridPoint at;
  std::vector<std::uint32_t> edges;  ///< that end here, ascending; a loop stands twice
};

/// A stretch of one line between two nodes, in the line's own direction.
struct NetworkEdge {
  std::uint32_t line = 0;  ///< index into the lines given
  std::uint32_t from = 0, to = 0;
  std::vector<GridPoint> points;  ///< first and last are the nodes' places
  double length_m = 0;
};

/// Two lines that cross one above the other, and do not join.
struct Overpass {
  std::uint32_t over = 0, under = 0;  ///< lines
  GridPoint at;
};

/// A place on an edge.
struct OnNetwork {
  std::uint32_t edge = 0;
  double along_m = 0;  ///< from the edge's first point
  GridPoint at;
  double away_m = 0;  ///< from the place asked for
};

struct NetworkWalk {
  std::vector<GridPoint> points;
  std::vector<std::uint32_t> lines;  ///< of each step, one fewer than points
  double length_m = 0;
};

/// Edges one after another that a walker takes for one thing: of one kind and name, through every
/// node where just two edges of that kind and name meet.
struct Chain {
  std::vector<std::uint32_t> edges;
  std::vector<bool> backwards;       ///< of each edge: walked from `to` to `from`
  std::vector<std::uint32_t> nodes;  ///< one more than edges; a ring repeats its first
};

class Network {
 public:
  Network() = default;
  /// Of the lines that `take` says. Lines join
  /// - where they cross or touch, within 1 cm, and where one ends within `snap_m` of another;
  /// - not where one is a bridge or tunnel, apart from its own ends (see Overpass).
  /// A node gathers all such places within `snap_m`; no line is moved by more than 2 snap_m + 1 cm,
  /// and only at nodes. Where two lines run on the same points they join where that begins and
  /// ends. The answer depends on the lines and their order only. 100 000 segments take about half a
  /// second.
  Network(std::span<const LineFeature> lines, const std::function<bool(const LineFeature&)>& take,
          double snap_m = 2.0);

  [[nodiscard]] std::span<const NetworkNode> nodes() const { return nodes_; }
  [[nodiscard]] std::span<const NetworkEdge> edges() const { return edges_; }
  [[nodiscard]] std::span<const Overpass> overpasses() const { return overpasses_; }
  /// All edges that share kind and name, in runs as long as they can be; every edge is in one
  /// chain.
  [[nodiscard]] std::vector<Chain> chains(std::span<const LineFeature> lines) const;
  [[nodiscard]] std::vector<GridPoint> points_of(const Chain& chain) const;

  /// The nearest place of every edge within `radius_m`, nearest first, then by edge.
  [[nodiscard]] std::vector<OnNetwork> touch(GridPoint p, double radius_m) const;
  /// The shortest walk along edges from any of the first places to any of the others. `away_m` of
  /// the chosen ends counts twice, and each change from one line to another as `change_m` more, so
  /// that the line stood on is chosen, and kept to. Neither is in length_m. Absent: no edges join
  /// them, or both are one place.
  [[nodiscard]] std::optional<NetworkWalk> shortest(std::span<const OnNetwork> from,
                                                    std::span<const OnNetwork> to,
                                                    double change_m = 40) const;

 private:
  std::vector<NetworkNode> nodes_;
  std::vector<NetworkEdge> edges_;
  std::vector<Overpass> overpasses_;
  LineIndex index_;  // of the edges
};

}  // namespace lodeway::mapdata
