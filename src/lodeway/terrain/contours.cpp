#include "lodeway/terrain/contours.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <cstdint>
#include <cstring>
#include <limits>
#include <span>
#include <type_traits>
#include <utility>

namespace lodeway::terrain {

namespace {

// Sides of a square of four cell centres, clockwise: a line enters by one and leaves by another.
enum Side : std::uint8_t { north, east, south, west };

struct Crossing {
  Side in, out;
};

/// The lines through a square; at most two.
struct Lines {
  int count = 0;
  Crossing line[2]{};
};

constexpr Lines lines_of(unsigned corners, bool middle_above) {
  switch (corners) {  // each: from side to side with the high corners on the right
    case 1:
      return {1, {{north, west}}};
    case 2:
      return {1, {{east, north}}};
    case 3:
      return {1, {{east, west}}};
    case 4:
      return {1, {{south, east}}};
    case 6:
      return {1, {{south, north}}};
    case 7:
      return {1, {{south, west}}};
    case 8:
      return {1, {{west, south}}};
    case 9:
      return {1, {{north, south}}};
    case 11:
      return {1, {{east, south}}};
    case 12:
      return {1, {{west, east}}};
    case 13:
      return {1, {{north, east}}};
    case 14:
      return {1, {{west, north}}};
    case 5:  // NW and SE high
      return middle_above ? Lines{2, {{north, east}, {south, west}}}
                          : Lines{2, {{north, west}, {south, east}}};
    case 10:  // NE and SW high
      return middle_above ? Lines{2, {{west, north}, {east, south}}}
                          : Lines{2, {{east, north}, {west, south}}};
    default:
      return {};
  }
}

/// The same as tables, by corners and 16 more where the middle is above.
constexpr auto lines_table = [] {
  std::array<Lines, 32> out{};
  for (unsigned i = 0; i < 32; ++i) out[i] = lines_of(i % 16, i >= 16);
  return out;
}();

/// Where a line goes that comes into a square through a side, and which of its lines that is.
struct Way {
  Side leaves = north;
  std::uint8_t line = 0;
};
/// [with the line's direction 1, against it 0][square as above][side entered]
constexpr auto ways = [] {
  std::array<std::array<std::array<Way, 4>, 32>, 2> out{};
  for (unsigned i = 0; i < 32; ++i) {
    const Lines& lines = lines_table[i];
    for (int k = 0; k < lines.count; ++k) {
      const auto [in, leaves] = lines.line[k];
      out[1][i][in] = {leaves, static_cast<std::uint8_t>(k)};
      out[0][i][leaves] = {in, static_cast<std::uint8_t>(k)};
    }
  }
  return out;
}();

/// Lowest and highest height, or nothing known: infinity and its opposite. In lanes, so that the
/// compiler can take several cells at once without changing the order of any sum.
std::pair<double, double> extent(std::span<const float> cells) {
  constexpr std::size_t lanes = 16;
  constexpr float infinity = std::numeric_limits<float>::infinity();
  std::array<float, lanes> least, most;
  least.fill(infinity);
  most.fill(-infinity);
  const auto take = [](float v, float& low, float& high) {
    const float above = is_height(v) ? v : infinity, below = is_height(v) ? v : -infinity;
    low = above < low ? above : low;
    high = below > high ? below : high;
  };
  std::size_t i = 0;
  for (; i + lanes <= cells.size(); i += lanes) {
    for (std::size_t j = 0; j < lanes; ++j) take(cells[i + j], least[j], most[j]);
  }
  for (; i < cells.size(); ++i) take(cells[i], least[0], most[0]);
  return {static_cast<double>(*std::ranges::min_element(least)),
          static_cast<double>(*std::ranges::max_element(most))};
}

/// `Step` counts levels: 16 bits serve nearly always and are read and compared twice as fast.
template <class Step>
class Tracer {
 public:
  Tracer(const Elevation& heights, double interval, double first_level, std::size_t levels)
      : heights_(heights),
        interval_(interval),
        first_level_(first_level),
        rows_(heights.rows()),
        cols_(heights.cols()),
        cells_(heights.cells().size()) {
    sort_squares(levels);
  }

  std::vector<Contour> trace() {
    for (std::size_t k = 0; k + 1 < start_.size(); ++k) {
      step_ = static_cast<Step>(k);
      level_ = (first_level_ + static_cast<double>(k)) * interval_;
      ++pass_;
      for (auto i = start_[k]; i < start_[k + 1]; ++i) {
        if (i + 24 < items_.size()) __builtin_prefetch(&cells_[items_[i + 24]]);
        trace_from(items_[i]);
      }
    }
    return std::move(out_);
  }

 private:
  static constexpr Step void_step = std::numeric_limits<Step>::min();

  struct Cell {
    Step step = 0;  ///< number of the highest level not above the cell, or void_step
    /// Of the square to its south-east: at which pass, times four, and which of its lines are done.
    std::make_unsigned_t<Step> stamp = 0;
  };

  /// Of every cell of a row the number of the highest level not above it, from 0 at the lowest
  /// level of all; -1 below that. So `step >= k` is `height >= level k`, exactly.
  void find_steps(const float* z, std::span<Step> out) const {
    constexpr std::size_t block = 512;  // small enough for the nearest cache
    std::array<double, block> height;
    std::array<std::int32_t, block> number;
    const double interval = interval_, inverse = 1 / interval_, first = first_level_,
                 least = first * interval;
    // Loop by loop, each simple enough to be done on several cells at once.
    for (std::size_t from = 0; from < out.size(); from += block, z += block) {
      const std::size_t n = std::min(block, out.size() - from);
      Step* const step = out.data() + from;
      for (std::size_t i = 0; i < n; ++i) {
        const auto v = static_cast<double>(z[i]);
        height[i] = std::abs(v) < static_cast<double>(no_height) ? v : least;
      }
      for (std::size_t i = 0; i < n; ++i) {  // within one of the true number; made exact next
        number[i] = static_cast<std::int32_t>(height[i] * inverse - first);
      }
      for (std::size_t i = 0; i < n; ++i) {
        const double k = number[i];
        const double down = (first + k) * interval > height[i] ? 1 : 0;
        const double up = (first + (k + 1)) * interval <= height[i] ? 1 : 0;
        number[i] = static_cast<std::int32_t>(k - down + up);
      }
      for (std::size_t i = 0; i < n; ++i) {
        const std::int32_t k = number[i] > -1 ? number[i] : -1;
        step[i] = static_cast<Step>(std::abs(z[i]) < no_height ? k : int{void_step});
      }
    }
  }

  /// For every level the squares it passes, in raster order. A square is named by its north-western
  /// cell.
  void sort_squares(std::size_t levels) {
    std::vector<std::pair<Step, std::uint32_t>> passed;
    const auto cols = static_cast<std::size_t>(cols_);
    std::vector<Step> upper(cols), lower(cols), low(cols), high(cols);
    std::vector<std::uint8_t> crossed(cols + 8, 0);
    start_.assign(levels + 1, 0);
    for (std::size_t r = 0; r < static_cast<std::size_t>(rows_); ++r) {
      upper.swap(lower);
      find_steps(heights_.cells().data() + r * cols, lower);
      for (std::size_t c = 0; c < cols; ++c) cells_[r * cols + c].step = lower[c];
      if (r == 0) continue;
      for (std::size_t c = 0; c < cols; ++c) {
        low[c] = upper[c] < lower[c] ? upper[c] : lower[c];
        high[c] = upper[c] < lower[c] ? lower[c] : upper[c];
      }
      for (std::size_t c = 0; c + 1 < cols; ++c) {
        const Step least = low[c] < low[c + 1] ? low[c] : low[c + 1];
        const Step most = high[c] < high[c + 1] ? high[c + 1] : high[c];
        crossed[c] = least != most && least != void_step ? 1 : 0;
      }
      for (std::size_t c = 0; c + 1 < cols; c += 8) {
        std::uint64_t eight = 0;
        std::memcpy(&eight, crossed.data() + c, 8);
        if (eight == 0) continue;
        for (std::size_t i = c; i < std::min(c + 8, cols - 1); ++i) {
          if (crossed[i] == 0) continue;
          const Step top = std::max(high[i], high[i + 1]);
          for (int k = std::min(low[i], low[i + 1]) + 1; k <= top; ++k) {
            passed.emplace_back(static_cast<Step>(k),
                                static_cast<std::uint32_t>((r - 1) * cols + i));
            ++start_[static_cast<std::size_t>(k) + 1];
          }
        }
      }
    }
    for (std::size_t k = 1; k < start_.size(); ++k) start_[k] += start_[k - 1];
    items_.resize(passed.size());
    auto next = start_;
    for (const auto& [k, square] : passed) items_[next[static_cast<std::size_t>(k)]++] = square;
  }

  /// The square as an index into the tables.
  [[nodiscard]] unsigned form(std::uint32_t square) const {
    const Cell *upper = cells_.data() + square, *lower = upper + cols_;
    const unsigned corners =
        (upper[0].step >= step_ ? 1U : 0U) | (upper[1].step >= step_ ? 2U : 0U) |
        (lower[1].step >= step_ ? 4U : 0U) | (lower[0].step >= step_ ? 8U : 0U);
    bool middle_above = false;
    if (corners == 5 || corners == 10) {
      const float *u = heights_.cells().data() + square, *l = u + cols_;
      middle_above = (static_cast<double>(u[0]) + static_cast<double>(u[1]) +
                      static_cast<double>(l[0]) + static_cast<double>(l[1])) /
                         4 >=
                     level_;
    }
    return corners + (middle_above ? 16U : 0U);
  }

  [[nodiscard]] earth::GridPoint point_on(int r, int c, Side side) const {
    const int r1 = side == south ? r + 1 : r, c1 = side == east ? c + 1 : c;
    const bool eastward = side == north || side == south;  // the side's own direction
    const float* const first =
        heights_.cells().data() + static_cast<std::uint32_t>(r1 * cols_ + c1);
    const double a = static_cast<double>(first[0]),
                 b = static_cast<double>(first[eastward ? 1 : cols_]);
    const double t = (level_ - a) / (b - a);
    const auto p = heights_.frame().centre(r1, c1),
               q = heights_.frame().centre(eastward ? r1 : r1 + 1, eastward ? c1 + 1 : c1);
    return p + t * (q - p);
  }

  [[nodiscard]] bool beside_void(std::uint32_t square) const {
    const Cell *upper = cells_.data() + square, *lower = upper + cols_;
    return upper[0].step == void_step || upper[1].step == void_step || lower[0].step == void_step ||
           lower[1].step == void_step;
  }

  // Two bits a square tell which of its (at most two) lines are done at this level.
  [[nodiscard]] std::uint32_t done(std::uint32_t square) const {
    const std::uint32_t stamp = cells_[square].stamp;
    return stamp >> 2U == pass_ ? stamp & 3U : 0U;
  }
  void mark(std::uint32_t square, int line) {
    cells_[square].stamp = static_cast<std::make_unsigned_t<Step>>(
        (pass_ << 2U) | done(square) | (1U << static_cast<unsigned>(line)));
  }

  void trace_from(std::uint32_t square) {
    if (done(square) == 3) return;
    const Lines& lines = lines_table[form(square)];
    if (lines.count == 1 && done(square) != 0) return;
    for (int i = 0; i < lines.count; ++i) {
      if ((done(square) & (1U << static_cast<unsigned>(i))) != 0) continue;
      chain(static_cast<int>(square) / cols_, static_cast<int>(square) % cols_, i, lines);
    }
  }

  void chain(int r, int c, int i, const Lines& lines) {
    mark(static_cast<std::uint32_t>(r * cols_ + c), i);
    points_.clear();
    points_.push_back(point_on(r, c, lines.line[i].in));
    points_.push_back(point_on(r, c, lines.line[i].out));
    const bool closed = follow(r, c, lines.line[i].out, true);
    if (closed) {
      points_.pop_back();
    } else {  // back from the first point, so that all runs against the line's direction; then
              // turned
      std::ranges::reverse(points_);
      follow(r, c, lines.line[i].in, false);
      std::ranges::reverse(points_);
    }
    drop_repeats(closed);
    if (points_.size() >= 2) out_.push_back({level_, closed, points_});
  }

  /// Goes on through `side` from square to square; true when it comes back to where it began.
  bool follow(int r, int c, Side side, bool forward) {
    while (true) {
      r += side == south ? 1 : side == north ? -1 : 0;
      c += side == east ? 1 : side == west ? -1 : 0;
      if (r < 0 || c < 0 || r + 1 >= rows_ || c + 1 >= cols_) return false;
      const auto square = static_cast<std::uint32_t>(r * cols_ + c);
      if (beside_void(square)) return false;
      const auto [leaves, line] = ways[forward ? 1 : 0][form(square)][(side + 2) % 4];
      if ((done(square) & (1U << line)) != 0) return true;
      mark(square, line);
      side = leaves;
      points_.push_back(point_on(r, c, side));
    }
  }

  void drop_repeats(bool closed) {
    auto& p = points_;
    p.erase(std::unique(p.begin(), p.end()), p.end());
    while (closed && p.size() > 1 && p.front() == p.back()) p.pop_back();
    if (closed && p.size() < 3) p.clear();
  }

  const Elevation& heights_;
  double interval_, first_level_, level_ = 0;
  int rows_, cols_;
  Step step_ = 0;
  std::uint32_t pass_ = 0;
  std::vector<Cell> cells_;
  std::vector<std::uint32_t> items_;
  std::vector<std::size_t> start_;
  std::vector<earth::GridPoint> points_;  // of the line being followed
  std::vector<Contour> out_;
};

}  // namespace

std::vector<Contour> contours(const Elevation& heights, double interval_m) {
  assert(interval_m > 0);
  if (heights.rows() < 2 || heights.cols() < 2) return {};
  const auto [least, most] = extent(heights.cells());
  if (!(least <= most)) return {};
  const double first_level = std::ceil(least / interval_m);
  const double levels = std::floor(most / interval_m) - first_level + 1;
  if (levels < 1 || levels > 4e6) return {};
  const auto count = static_cast<std::size_t>(levels);
  if (count < 16'000) return Tracer<std::int16_t>(heights, interval_m, first_level, count).trace();
  return Tracer<std::int32_t>(heights, interval_m, first_level, count).trace();
}

}  // namespace lodeway::terrain
