#pragma once
/// Where water goes on a grid of nodes, for the erosion and for the becks drawn from it. The nodes
/// may be shifted off their lattice, which keeps the valleys from running in the lattice's
/// directions. Source: Priority-Flood (Barnes, Lehman & Mulla 2014, Computers & Geosciences
/// 62:117-127); heights go through a bucket queue of 0.05 m, so the order within a bucket is first
/// come, first served.
#include <cstdint>
#include <span>
#include <vector>

namespace lodeway::fells {

/// Node k lies in row k / cols (0 is north), column k % cols; x east, y north, h up, all metres.
struct Nodes {
  int rows = 0, cols = 0;
  double spacing_m = 1;
  std::vector<double> x, y, h;
  [[nodiscard]] std::size_t size() const { return h.size(); }
};

struct Flow {
  std::vector<std::int32_t> receiver;  ///< the node that takes the water; -1: over the edge
  std::vector<std::int32_t> order;     ///< all nodes, a receiver always before its givers
  std::vector<double> filled_m;  ///< heights with the pits filled, rising away from the outlet
  std::vector<double> area_m2;   ///< ground that drains through the node, itself included
};

/// `rise_m` is the least rise from a node to its giver in a filled pit; nodes marked in `level`
/// (may be empty) are filled dead flat: lakes.
[[nodiscard]] Flow route_water(const Nodes& nodes, double rise_m,
                               std::span<const std::uint8_t> level = {});

}  // namespace lodeway::fells
