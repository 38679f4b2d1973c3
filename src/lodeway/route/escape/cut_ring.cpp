#include "lodeway/route/escape/cut_ring.hpp"

#include <cmath>

#include "lodeway/walking/piece.hpp"

namespace lodeway::route {

std::vector<std::uint32_t> cut_ring(const Prepared& p, const terrain::Frame& whole,
                                    double within_m) {
  std::vector<std::uint32_t> out;
  const auto& f = p.cost.frame;
  if (f == whole) return out;
  // No move spans more than two rows or columns, no piece of a line more than a cell and a half.
  const double end = within_m + 2 * f.cell_m;
  const auto on_ring = [&](earth::GridPoint at) {
    const double in = walking::to_cut_m(f, whole, at);
    return in >= within_m && in < end;
  };
  for (int r = 0; r < f.rows; ++r) {
    for (int c = 0; c < f.cols; ++c) {
      const auto cell = p.cost.index(r, c);
      if (p.cost.slowness[cell] < barred_slowness && on_ring(f.centre(r, c))) out.push_back(cell);
    }
  }
  for (std::uint32_t k = 0; k < p.paths.graph.at.size(); ++k)
    if (on_ring(p.paths.graph.at[k])) out.push_back(p.paths.graph.first + k);
  return out;
}

}  // namespace lodeway::route
