#pragma once
/// Least time to everywhere, direction by direction. Method: docs/method/least-cost-field.md
#include <cstdint>
#include <span>
#include <vector>

#include "lodeway/route/field/cost.hpp"

namespace lodeway::route {

/// Nodes beside the cells: vertices of lines that are walked on themselves. Node k has the id
/// `first + k`; ids below are cells (CostGround::index). Edges lead to cells and nodes alike.
struct LineGraph {
  struct Edge {
    std::uint32_t to = 0;
    float there_s = 0, back_s = 0;  ///< along the edge, and against it
  };
  std::uint32_t first = 0;
  std::vector<earth::GridPoint> at;
  std::vector<std::uint32_t> start;  ///< edges of node k: [start[k], start[k + 1])
  std::vector<Edge> edges;
  /// Cells joined to nodes, ascending; edges of joined_cells[j]: joined_edges[joined_start[j] ...).
  std::vector<std::uint32_t> joined_cells, joined_start;
  std::vector<Edge> joined_edges;
};

struct Seed {
  std::uint32_t node = 0;
  float seconds = 0;
};

enum class Direction : unsigned char {
  from_seeds,  ///< time from the seeds to every node
  to_seeds,    ///< time from every node to the seeds
};

inline constexpr std::uint32_t no_parent = 0xffffffff;

/// By id. `parent` is the node before (from_seeds) or after (to_seeds); no_parent for seeds.
struct Field {
  std::vector<float> seconds;  ///< unreached_s where no way leads
  std::vector<std::uint32_t> parent;
  float settled_s = unreached_s;  ///< times below this are the least; all, unless targets ended it
};

/// Equal, node by node, to what a plain heap finds with the same edges: times are sums in 32 bits
/// along the way, and of all ways the least is kept. With `targets` it may end once these are
/// settled; other times are then upper bounds. Deterministic. Source: buckets after Dial 1969 (CACM
/// 12:632-633); a bucket is gone through until nothing in it changes, so that edges shorter than
/// its width are right too (Meyer & Sanders 2003, J. Algorithms 49).
[[nodiscard]] Field solve_field(const CostGround& ground, const PaceTable& pace,
                                const LineGraph* lines, std::span<const Seed> seeds,
                                Direction direction, std::span<const std::uint32_t> targets = {});

/// The ids from the seed's side to `node`, or from `node` to the seed; empty when it is not
/// reached.
[[nodiscard]] std::vector<std::uint32_t> trace(const Field& field, std::uint32_t node);

}  // namespace lodeway::route
