#pragma once
/// Where water goes on a grid of nodes, for the erosion and for the becks drawn from it. The nodes
/// may be shifted off their lattice, which keeps the valleys from running in the lattice's
/// directions. Source: Priority-Flood (Barnes, Lehman & Mulla 2014, Computers & Geosciences
/// 62:117-127); heights go through a bucket queue of 0.05 m, so the order within a bucket is first
/// come, first served.
#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "lodeway/numeric/parallel.hpp"

namespace lodeway::fells {

/// Node k lies in row k / cols (0 is north), column k % cols; x east, y north, h up, all metres.
/// Without x and y the nodes stand on their lattice.
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

/// Routes water over nodes whose places stay while their heights change.
class Router {
 public:
  /// Takes places and spacing from `nodes`; `parallel` must outlive it.
  Router(const Nodes& nodes, numeric::Parallel& parallel);
  /// `rise_m` is the least rise from a node to its giver in a filled pit; nodes marked in `level`
  /// (may be empty) are filled dead flat: lakes. The answer, the same for any number of threads,
  /// holds until the next call.
  [[nodiscard]] const Flow& route(std::span<const double> heights_m, double rise_m,
                                  std::span<const std::uint8_t> level = {});
  /// Metres to the node that takes the water of node k, which must have one.
  [[nodiscard]] double to_receiver_m(std::size_t k) const {
    const auto here = static_cast<std::int32_t>(k), there = flow_.receiver[k];
    const std::int32_t far = there > here ? there - here : here - there;
    const std::size_t which = far == 1 ? 0 : far == cols_ ? 1 : far == cols_ + 1 ? 2 : 3;
    return apart_m(which, static_cast<std::size_t>(there > here ? here : there));
  }
  [[nodiscard]] Flow take() && { return std::move(flow_); }

 private:
  /// What the flood asks of a node, side by side in memory.
  struct Spot {
    double filled_m;
    std::int32_t receiver;
    std::int32_t next;  ///< in its bucket; once it has been reached, its rank in the order
  };
  class BucketQueue;
  template <class Flat>
  void flood(double rise_m, const Flat& flat);
  template <class Apart>
  void turn_row(int row, const Apart& apart);
  void turn_to_the_steepest();
  void add_areas();

  /// Metres from node k to its neighbour east, south, south-east or south-west.
  [[nodiscard]] double apart_m(std::size_t which, std::size_t k) const {
    return apart_[0].empty() ? on_lattice_m_[which / 2] : apart_[which][k];
  }

  int rows_, cols_;
  double spacing_m_;
  std::array<double, 2> on_lattice_m_;  ///< straight, aslant
  numeric::Parallel& parallel_;
  /// How far on in the list of nodes the eight neighbours stand, straight ones first.
  std::array<std::int32_t, 8> around_;
  /// As `apart_m` says; empty on a lattice.
  std::array<std::vector<double>, 4> apart_;
  std::vector<Spot> spots_;
  Flow flow_;
};

/// Calls visit(row) for each of `rows` rows, side by side.
template <class Visit>
void for_each_row(numeric::Parallel& parallel, int rows, const Visit& visit) {
  constexpr int together = 16;
  const auto blocks = static_cast<std::size_t>((rows + together - 1) / together);
  parallel.for_each_block(blocks, [&](std::size_t block) {
    const int first = together * static_cast<int>(block);
    for (int r = first; r < rows && r < first + together; ++r) visit(r);
  });
}

}  // namespace lodeway::fells
