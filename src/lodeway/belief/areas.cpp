#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <numbers>

#include "lodeway/belief/belief.hpp"

namespace lodeway::belief {

namespace {
/// Shares below the greatest, by the bits of the number: 128 bins to each halving, so a bin is at
/// most 0.8 % wide, and 31 halvings, which is e^-21.
constexpr std::size_t bins = 31 * 128;
std::size_t bin_of(float share) { return std::bit_cast<std::uint32_t>(share) >> 16U; }
float least_of_bin(std::size_t bin) {
  return std::bit_cast<float>(static_cast<std::uint32_t>(bin) << 16U);
}

struct Levels {
  float at50 = 0, at90 = 0;
};

Levels levels_of(const std::vector<float>& share, float most, double sum) {
  std::vector<double> mass(bins, 0.0);
  const std::size_t top = bin_of(most);
  for (const float v : share) {
    if (v > 0) mass[std::min(top - bin_of(v), bins - 1)] += static_cast<double>(v);
  }
  Levels out;
  double held = 0;
  bool half = false;
  for (std::size_t k = 0; k < bins; ++k) {
    held += mass[k];
    const float level = least_of_bin(top > k ? top - k : 0);
    if (!half && held >= 0.5 * sum) {
      out.at50 = level;
      half = true;
    }
    if (held >= 0.9 * sum) {
      out.at90 = level;
      break;
    }
  }
  return out;
}

/// Connected parts of the blocks (some 50 m) that hold a cell of the area.
class Blocks {
 public:
  Blocks(const Belief& b, float level)
      : side_(std::max(1, static_cast<int>(std::lround(50 / b.frame.cell_m)))),
        cols_((b.frame.cols + side_ - 1) / side_),
        rows_((b.frame.rows + side_ - 1) / side_),
        part_(static_cast<std::size_t>(rows_) * static_cast<std::size_t>(cols_), -1) {
    for (int r = 0; r < b.frame.rows; ++r) {
      for (int c = 0; c < b.frame.cols; ++c) {
        if (b.share[static_cast<std::size_t>(r) * static_cast<std::size_t>(b.frame.cols) +
                    static_cast<std::size_t>(c)] >= level)
          part_[of(r, c)] = -2;
      }
    }
    for (std::size_t i = 0; i < part_.size(); ++i) {
      if (part_[i] == -2) fill(i, count_++);
    }
  }
  [[nodiscard]] std::size_t of(int r, int c) const {
    return static_cast<std::size_t>(r / side_) * static_cast<std::size_t>(cols_) +
           static_cast<std::size_t>(c / side_);
  }
  [[nodiscard]] int part(int r, int c) const { return part_[of(r, c)]; }
  [[nodiscard]] int count() const { return count_; }

 private:
  void fill(std::size_t from, int id) {
    std::vector<std::size_t> open{from};
    part_[from] = id;
    while (!open.empty()) {
      const std::size_t i = open.back();
      open.pop_back();
      const int r = static_cast<int>(i / static_cast<std::size_t>(cols_));
      const int c = static_cast<int>(i % static_cast<std::size_t>(cols_));
      for (int y = std::max(r - 1, 0); y <= std::min(r + 1, rows_ - 1); ++y) {
        for (int x = std::max(c - 1, 0); x <= std::min(c + 1, cols_ - 1); ++x) {
          const std::size_t j = static_cast<std::size_t>(y) * static_cast<std::size_t>(cols_) +
                                static_cast<std::size_t>(x);
          if (part_[j] != -2) continue;
          part_[j] = id;
          open.push_back(j);
        }
      }
    }
  }
  int side_, cols_, rows_, count_ = 0;
  std::vector<int> part_;
};
}  // namespace

Summary summary(const Belief& belief, const CuePlanes& planes) {
  Summary out;
  out.elsewhere = belief.elsewhere;
  double sum = 0, barred = 0;
  float most = 0;
  for (std::size_t i = 0; i < belief.share.size(); ++i) {
    const float v = belief.share[i];
    if (!(v > 0)) continue;
    sum += static_cast<double>(v);
    most = std::max(most, v);
    if (planes.bar[i] != walking::Bar::none) barred += static_cast<double>(v);
  }
  if (!(most > 0)) return out;
  out.kept_off = barred / sum;
  const Levels levels = levels_of(belief.share, most, sum);
  out.level50 = static_cast<double>(levels.at50);
  out.level90 = static_cast<double>(levels.at90);
  const double cell = belief.frame.cell_m * belief.frame.cell_m;
  const Blocks blocks(belief, levels.at90);
  struct Sums {
    double mass = 0, east = 0, north = 0, area = 0;
    float best = 0;
    GridPoint at;
  };
  std::vector<Sums> parts(static_cast<std::size_t>(blocks.count()));
  for (int r = 0; r < belief.frame.rows; ++r) {
    for (int c = 0; c < belief.frame.cols; ++c) {
      const float v = belief.share[planes.index(r, c)];
      if (v >= levels.at50) out.area50_m2 += cell;
      if (v < levels.at90) continue;
      out.area90_m2 += cell;
      Sums& s = parts[static_cast<std::size_t>(blocks.part(r, c))];
      const GridPoint at = belief.frame.centre(r, c);
      const auto w = static_cast<double>(v);
      s.mass += w;
      s.east += w * (at.east_m - belief.frame.west_m);
      s.north += w * (at.north_m - belief.frame.north_m);
      s.area += cell;
      if (v > s.best) {
        s.best = v;
        s.at = at;
      }
    }
  }
  for (const Sums& s : parts) {
    out.parts.push_back(
        {{belief.frame.west_m + s.east / s.mass, belief.frame.north_m + s.north / s.mass},
         s.at,
         s.mass,
         std::sqrt(s.area / std::numbers::pi)});
  }
  std::ranges::stable_sort(out.parts, std::greater{}, &Part::share);
  return out;
}

std::vector<std::size_t> draws(const Belief& belief, std::size_t count, double offset) {
  std::vector<std::size_t> out;
  // by blocks, so that those without a draw are passed over
  constexpr std::size_t block = 1024;
  const std::size_t n = belief.share.size();
  std::vector<double> blocks;
  double sum = 0;
  for (std::size_t first = 0; first < n; first += block) {
    std::array<double, 8> part{};
    const std::size_t last = std::min(first + block, n);
    for (std::size_t i = first; i < last; ++i) part[i % 8] += static_cast<double>(belief.share[i]);
    double all = 0;
    for (const double p : part) all += p;
    blocks.push_back(all);
    sum += all;
  }
  if (!(sum > 0) || count == 0) return out;
  out.reserve(count);
  const double each = sum / static_cast<double>(count);
  double next = each * offset, before = 0;
  std::size_t last = 0;
  for (std::size_t k = 0; k < blocks.size(); ++k) {
    const double after = before + blocks[k];
    double run = before;
    for (std::size_t i = k * block; next < after && i < std::min((k + 1) * block, n); ++i) {
      if (!(belief.share[i] > 0)) continue;
      last = i;
      run += static_cast<double>(belief.share[i]);
      while (next < run && out.size() < count) {
        out.push_back(i);
        next += each;
      }
    }
    before = after;
  }
  while (out.size() < count) out.push_back(last);  // rounding at the very end
  return out;
}

}  // namespace lodeway::belief
