#include "lodeway/terrain/coarsened.hpp"

#include <cassert>
#include <limits>

namespace lodeway::terrain {

Elevation coarsened(const Elevation& heights, int times) {
  assert(times >= 1);
  if (times == 1) return heights;
  Frame frame = heights.frame();
  frame.cell_m *= times;
  frame.rows /= times;
  frame.cols /= times;
  Elevation out(frame, std::numeric_limits<float>::quiet_NaN());
  for (int r = 0; r < frame.rows; ++r) {
    for (int c = 0; c < frame.cols; ++c) {
      double sum = 0;
      int known = 0;
      for (int i = 0; i < times; ++i) {
        for (const float z :
             heights.row(r * times + i)
                 .subspan(static_cast<std::size_t>(c) * static_cast<std::size_t>(times),
                          static_cast<std::size_t>(times))) {
          if (!is_height(z)) continue;
          sum += static_cast<double>(z);
          ++known;
        }
      }
      if (2 * known > times * times) out[r, c] = static_cast<float>(sum / known);
    }
  }
  return out;
}

}  // namespace lodeway::terrain
