#include "lodeway/terrain/contours.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <cstdint>
#include <limits>

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

Lines lines_of(unsigned corners, bool middle_above) {
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

class Tracer {
 public:
  Tracer(const Elevation& heights, double interval) : heights_(heights), interval_(interval) {
    squares_down_ = std::max(0, heights.rows() - 1);
    squares_right_ = std::max(0, heights.cols() - 1);
    stamp_.assign(
        static_cast<std::size_t>(squares_down_) * static_cast<std::size_t>(squares_right_), 0);
    sort_squares();
  }

  std::vector<Contour> trace() {
    for (std::size_t k = 0; k + 1 < start_.size(); ++k) {
      level_ = (first_level_ + static_cast<double>(k)) * interval_;
      ++pass_;
      for (auto i = start_[k]; i < start_[k + 1]; ++i) trace_from(items_[i]);
    }
    return std::move(out_);
  }

 private:
  [[nodiscard]] float z(int r, int c) const { return heights_[r, c]; }
  [[nodiscard]] bool above(int r, int c) const { return static_cast<double>(z(r, c)) >= level_; }

  /// For every level the squares it passes, in raster order: counted, then filled.
  void sort_squares() {
    double least = std::numeric_limits<double>::infinity(), most = -least;
    for (const float v : heights_.cells()) {
      if (!is_height(v)) continue;
      least = std::min(least, static_cast<double>(v));
      most = std::max(most, static_cast<double>(v));
    }
    if (!(least <= most)) return;
    first_level_ = std::ceil(least / interval_);
    const double levels = std::floor(most / interval_) - first_level_ + 1;
    if (levels < 1 || levels > 4e6) return;
    start_.assign(static_cast<std::size_t>(levels) + 1, 0);
    for_each_level([&](std::size_t k, std::uint32_t) { ++start_[k + 1]; });
    for (std::size_t k = 1; k < start_.size(); ++k) start_[k] += start_[k - 1];
    items_.resize(start_.back());
    auto next = start_;
    for_each_level([&](std::size_t k, std::uint32_t square) { items_[next[k]++] = square; });
  }

  template <class Use>
  void for_each_level(Use&& use) const {
    const auto top = static_cast<long>(start_.size()) - 2;
    for (int r = 0; r < squares_down_; ++r) {
      for (int c = 0; c < squares_right_; ++c) {
        const float a = z(r, c), b = z(r, c + 1), d = z(r + 1, c), e = z(r + 1, c + 1);
        const float low = std::min(std::min(a, b), std::min(d, e)),
                    high = std::max(std::max(a, b), std::max(d, e));
        if (!is_height(a) || !is_height(b) || !is_height(d) || !is_height(e)) continue;
        // Levels above the lowest corner, up to the highest: corners equal to a level count as
        // above it.
        const auto from =
            static_cast<long>(std::floor(static_cast<double>(low) / interval_) + 1 - first_level_);
        const auto to =
            static_cast<long>(std::floor(static_cast<double>(high) / interval_) - first_level_);
        for (long k = std::max(0L, from); k <= std::min(to, top); ++k) {
          use(static_cast<std::size_t>(k), static_cast<std::uint32_t>(r * squares_right_ + c));
        }
      }
    }
  }

  [[nodiscard]] bool whole(int r, int c) const {
    return r >= 0 && c >= 0 && r < squares_down_ && c < squares_right_ && is_height(z(r, c)) &&
           is_height(z(r, c + 1)) && is_height(z(r + 1, c)) && is_height(z(r + 1, c + 1));
  }

  [[nodiscard]] Lines lines_in(int r, int c) const {
    const unsigned corners = (above(r, c) ? 1U : 0U) | (above(r, c + 1) ? 2U : 0U) |
                             (above(r + 1, c + 1) ? 4U : 0U) | (above(r + 1, c) ? 8U : 0U);
    const double mean = (static_cast<double>(z(r, c)) + static_cast<double>(z(r, c + 1)) +
                         static_cast<double>(z(r + 1, c)) + static_cast<double>(z(r + 1, c + 1))) /
                        4;
    return lines_of(corners, mean >= level_);
  }

  [[nodiscard]] earth::GridPoint point_on(int r, int c, Side side) const {
    const int r1 = side == south ? r + 1 : r, c1 = side == east ? c + 1 : c;
    const int r2 = side == north ? r : r + 1, c2 = side == west ? c : c + 1;
    const double a = static_cast<double>(z(r1, c1)), b = static_cast<double>(z(r2, c2));
    const double t = (level_ - a) / (b - a);
    const auto p = heights_.frame().centre(r1, c1), q = heights_.frame().centre(r2, c2);
    return p + t * (q - p);
  }

  // Two bits a square tell which of its (at most two) lines are done at this level.
  [[nodiscard]] std::uint32_t done(std::uint32_t square) const {
    return stamp_[square] >> 2U == pass_ ? stamp_[square] & 3U : 0U;
  }
  void mark(std::uint32_t square, int line) {
    stamp_[square] = (pass_ << 2U) | done(square) | (1U << static_cast<unsigned>(line));
  }

  void trace_from(std::uint32_t square) {
    const int r = static_cast<int>(square) / squares_right_,
              c = static_cast<int>(square) % squares_right_;
    const Lines lines = lines_in(r, c);
    for (int i = 0; i < lines.count; ++i) {
      if ((done(square) & (1U << static_cast<unsigned>(i))) == 0) chain(r, c, i, lines);
    }
  }

  void chain(int r, int c, int i, const Lines& lines) {
    Contour contour;
    contour.height_m = level_;
    mark(static_cast<std::uint32_t>(r * squares_right_ + c), i);
    contour.points.push_back(point_on(r, c, lines.line[i].in));
    contour.points.push_back(point_on(r, c, lines.line[i].out));
    contour.closed = follow(r, c, lines.line[i].out, true, contour.points);
    if (contour.closed) {
      contour.points.pop_back();
    } else {
      std::vector<earth::GridPoint> before;
      follow(r, c, lines.line[i].in, false, before);
      contour.points.insert(contour.points.begin(), before.rbegin(), before.rend());
    }
    drop_repeats(contour);
    if (contour.points.size() >= 2) out_.push_back(std::move(contour));
  }

  /// Goes on through `side` from square to square; true when it comes back to where it began.
  bool follow(int r, int c, Side side, bool forward, std::vector<earth::GridPoint>& points) {
    while (true) {
      r += side == south ? 1 : side == north ? -1 : 0;
      c += side == east ? 1 : side == west ? -1 : 0;
      if (!whole(r, c)) return false;
      const auto entered = static_cast<Side>((side + 2) % 4);
      const Lines lines = lines_in(r, c);
      int found = -1;
      for (int k = 0; k < lines.count; ++k) {
        if ((forward ? lines.line[k].in : lines.line[k].out) == entered) found = k;
      }
      assert(found >= 0);
      const auto square = static_cast<std::uint32_t>(r * squares_right_ + c);
      if ((done(square) & (1U << static_cast<unsigned>(found))) != 0) return true;
      mark(square, found);
      side = forward ? lines.line[found].out : lines.line[found].in;
      points.push_back(point_on(r, c, side));
    }
  }

  static void drop_repeats(Contour& contour) {
    auto& p = contour.points;
    p.erase(std::unique(p.begin(), p.end()), p.end());
    while (contour.closed && p.size() > 1 && p.front() == p.back()) p.pop_back();
    if (contour.closed && p.size() < 3) p.clear();
  }

  const Elevation& heights_;
  double interval_, level_ = 0, first_level_ = 0;
  int squares_down_ = 0, squares_right_ = 0;
  std::uint32_t pass_ = 0;
  std::vector<std::uint32_t> stamp_, items_;
  std::vector<std::size_t> start_;
  std::vector<Contour> out_;
};

}  // namespace

std::vector<Contour> contours(const Elevation& heights, double interval_m) {
  assert(interval_m > 0);
  if (heights.rows() < 2 || heights.cols() < 2) return {};
  return Tracer(heights, interval_m).trace();
}

}  // namespace lodeway::terrain
