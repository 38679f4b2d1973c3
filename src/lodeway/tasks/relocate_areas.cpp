// Where the party may be, as outlines for a screen.
#include <algorithm>
#include <cmath>

#include "lodeway/tasks/relocate.hpp"
#include "lodeway/terrain/contours.hpp"

namespace lodeway::tasks {

namespace {

using Ring = std::vector<earth::GridPoint>;

/// Lines where the share crosses `level`, around all that has at least so much of it.
std::vector<Ring> outlines(const belief::Belief& b, double level) {
  const auto& f = b.frame;
  if (!(level > 0)) return {};
  const auto share = [&](int row, int col) {
    return static_cast<double>(
        b.share[static_cast<std::size_t>(row) * static_cast<std::size_t>(f.cols) +
                static_cast<std::size_t>(col)]);
  };
  int top = f.rows, bottom = -1, left = f.cols, right = -1;
  for (int r = 0; r < f.rows; ++r) {
    for (int c = 0; c < f.cols; ++c) {
      if (share(r, c) < level) continue;
      top = std::min(top, r);
      bottom = std::max(bottom, r);
      left = std::min(left, c);
      right = std::max(right, c);
    }
  }
  if (bottom < 0) return {};
  // A rim of one cell holds nothing, so that every line closes. Only level 0 is a contour: the
  // values stay within half an interval of it.
  constexpr float outside = -0.5F;
  terrain::Frame frame{f.west_m + f.cell_m * (left - 1), f.north_m - f.cell_m * (top - 1), f.cell_m,
                       bottom - top + 3, right - left + 3};
  terrain::Elevation values(frame, outside);
  for (int r = top; r <= bottom; ++r) {
    for (int c = left; c <= right; ++c) {
      const double v = share(r, c);
      if (v > 0)
        values[r - top + 1, c - left + 1] =
            static_cast<float>(std::clamp(std::log(v / level), -0.5, 0.5));
    }
  }
  std::vector<Ring> out;
  for (const auto& line : terrain::contours(values, 1)) {
    if (line.closed && line.points.size() > 2) out.push_back(line.points);
  }
  return out;
}

}  // namespace

LikelyAreas likely_areas(const Relocation& answer) {
  return {outlines(answer.belief, answer.summary.level50),
          outlines(answer.belief, answer.summary.level90)};
}

}  // namespace lodeway::tasks
