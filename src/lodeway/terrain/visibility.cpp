#include "lodeway/terrain/visibility.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <limits>
#include <numbers>
#include <vector>

namespace lodeway::terrain {

namespace {

class Look {
 public:
  Look(const Elevation& heights, int row, int col, const Sight& sight)
      : heights_(heights), row_(row), col_(col), target_m_(sight.target_m) {
    const double cell = heights.frame().cell_m;
    eye_height_m_ = static_cast<double>(heights[row, col]) + sight.eye_m;
    sink_ = sinks_m(cell, sight.refraction);
    reach_2_ = sight.reach_m > 0 ? (sight.reach_m / cell) * (sight.reach_m / cell) : -1;
    inverse_.resize(static_cast<std::size_t>(std::max(heights.rows(), heights.cols())) + 2);
    for (std::size_t i = 1; i < inverse_.size(); ++i) inverse_[i] = 1 / static_cast<double>(i);
  }

  /// Marks `out` seen where the sight is free, hidden where not; cells already hidden are left
  /// alone.
  void run(Raster<Seen>& out) {
    const auto cols = static_cast<std::size_t>(heights_.cols());
    std::vector<double> first(cols), nearer(cols), own(cols);
    line(row_, nearer, first, out);
    for (const int step : {-1, 1}) {
      nearer = first;
      for (int r = row_ + step; r >= 0 && r < heights_.rows(); r += step) {
        line(r, nearer, own, out);
        nearer.swap(own);
      }
    }
  }

 private:
  /// One row: `nearer` has the horizon of the row before it, seen from the eye, and `own` becomes
  /// this row's: of each cell the height, above the eye, that just meets the sight or the ground.
  void line(int r, const std::vector<double>& nearer, std::vector<double>& own, Raster<Seen>& out) {
    const int y = std::abs(r - row_);
    const auto z = heights_.row(r);
    const auto mark = out.row(r);
    const auto cell = [&](int x, std::size_t at, std::size_t inward) {
      const double height = static_cast<double>(z[at]);
      const bool known = is_height(z[at]);
      const double above = height - eye_height_m_ -
                           sink_ * (static_cast<double>(x) * x + static_cast<double>(y) * y);
      const int far = std::max(x, y);
      double sight;
      if (far <= 1) {
        sight = known ? above : -1e9;  // a void beside the eye hides nothing
      } else {
        const double inverse = inverse_[static_cast<std::size_t>(far - 1)];
        const double beside = x >= y ? own[inward] : nearer[at];
        const double corner = y > 0 ? nearer[inward] : 0;
        sight = (corner * std::min(x, y) + beside * std::abs(x - y)) * inverse;
      }
      if (known) {
        if (above + target_m_ < sight && far > 1) mark[at] = Seen::hidden;
        own[at] = std::max(above, sight);
      } else {
        own[at] = sight;
      }
      if (reach_2_ >= 0 && static_cast<double>(x) * x + static_cast<double>(y) * y > reach_2_) {
        mark[at] = Seen::out_of_reach;
      }
    };
    const auto middle = static_cast<std::size_t>(col_);
    cell(0, middle, middle);
    for (int x = 1; col_ + x < heights_.cols(); ++x) {
      cell(x, middle + static_cast<std::size_t>(x), middle + static_cast<std::size_t>(x) - 1);
    }
    for (int x = 1; x <= col_; ++x) {
      cell(x, middle - static_cast<std::size_t>(x), middle - static_cast<std::size_t>(x) + 1);
    }
  }

  const Elevation& heights_;
  int row_, col_;
  double target_m_, eye_height_m_ = 0, sink_ = 0, reach_2_ = -1;
  std::vector<double> inverse_;
};

/// Which sights from the eye's cell pass over a void: for each direction how near the first one is.
class VoidShadow {
 public:
  VoidShadow(const Elevation& heights, int row, int col)
      : row_(row),
        col_(col),
        nearest_(static_cast<std::size_t>(16 * (heights.rows() + heights.cols())),
                 std::numeric_limits<double>::infinity()) {
    for (int r = 0; r < heights.rows(); ++r) {
      for (int c = 0; c < heights.cols(); ++c) {
        if (!is_height(heights[r, c])) mark(r - row, c - col);
      }
    }
  }
  [[nodiscard]] bool covers(int row, int col) const {
    const double y = row - row_, x = col - col_;
    return x * x + y * y > nearest_[bin(std::atan2(y, x))];
  }

 private:
  [[nodiscard]] std::size_t bin(double angle) const {
    const double turns = angle / (2 * std::numbers::pi);
    const auto count = static_cast<double>(nearest_.size());
    return static_cast<std::size_t>((turns - std::floor(turns)) * count) % nearest_.size();
  }
  void mark(int y, int x) {
    const double middle = std::atan2(y, x), half = 0.5;
    double left = 0, right = 0;  // of the middle, as seen from the eye
    for (const double dy : {-half, half}) {
      for (const double dx : {-half, half}) {
        const double off =
            std::remainder(std::atan2(y + dy, x + dx) - middle, 2 * std::numbers::pi);
        left = std::min(left, off);
        right = std::max(right, off);
      }
    }
    const double distance_2 = static_cast<double>(x) * x + static_cast<double>(y) * y;
    const std::size_t last = bin(middle + right);
    for (std::size_t i = bin(middle + left);; i = (i + 1) % nearest_.size()) {
      nearest_[i] = std::min(nearest_[i], distance_2);
      if (i == last) break;
    }
  }
  int row_, col_;
  std::vector<double> nearest_;  ///< squared, in cells
};

}  // namespace

Raster<Seen> viewshed(const Elevation& heights, earth::GridPoint eye, const Sight& sight) {
  const Frame& frame = heights.frame();
  if (!frame.contains(eye)) return Raster<Seen>(frame, Seen::unknown);
  const auto [row, col] = frame.cell_of(eye);
  if (!is_height(heights[row, col])) return Raster<Seen>(frame, Seen::unknown);
  Raster<Seen> out(frame, Seen::seen);
  Look(heights, row, col, sight).run(out);
  if (std::ranges::all_of(heights.cells(), is_height)) return out;
  const VoidShadow shadow(heights, row, col);
  for (int r = 0; r < frame.rows; ++r) {
    for (int c = 0; c < frame.cols; ++c) {
      Seen& s = out[r, c];
      if (s == Seen::out_of_reach) continue;
      if (!is_height(heights[r, c]) || (s == Seen::seen && shadow.covers(r, c))) s = Seen::unknown;
    }
  }
  return out;
}

Raster<std::uint16_t> seen_from(const Elevation& heights, std::span<const earth::GridPoint> eyes,
                                const Sight& sight) {
  Raster<std::uint16_t> out(heights.frame());
  for (const auto& eye : eyes) {
    const auto seen = viewshed(heights, eye, sight);
    for (std::size_t i = 0; i < out.cells().size(); ++i) {
      auto& count = out.cells()[i];
      if (seen.cells()[i] == Seen::seen && count < 0xffff) ++count;
    }
  }
  return out;
}

Seen sees(const Elevation& heights, earth::GridPoint eye, earth::GridPoint target,
          const Sight& sight) {
  const double length = earth::grid_distance_m(eye, target);
  if (sight.reach_m > 0 && length > sight.reach_m) return Seen::out_of_reach;
  const double from = height_at(heights, eye) + sight.eye_m;
  const double to = height_at(heights, target) + sight.target_m - sinks_m(length, sight.refraction);
  if (!std::isfinite(from) || !std::isfinite(to)) return Seen::unknown;
  const int steps = std::max(1, static_cast<int>(std::ceil(2 * length / heights.frame().cell_m)));
  bool touches_void = false;
  for (int i = 1; i < steps; ++i) {
    const double t = static_cast<double>(i) / steps;
    const double ground = height_at(heights, eye + t * (target - eye));
    touches_void = touches_void || !std::isfinite(ground);
    if (ground - sinks_m(t * length, sight.refraction) > from + t * (to - from)) {
      return Seen::hidden;
    }
  }
  return touches_void ? Seen::unknown : Seen::seen;
}

}  // namespace lodeway::terrain
