#include "lodeway/terrain/flat_water.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <unordered_map>
#include <utility>

namespace lodeway::terrain {

namespace {

using Cell = std::pair<int, int>;     // row, column
constexpr float small_noise = 0.05F;  // metres: how far below its level a lake's cells may be

/// Heights within 3 x 3 cells; nothing known about one of them: low is NaN.
struct Window {
  float low = 0, high = 0;
};

class Finder {
 public:
  Finder(const Elevation& heights, const std::function<bool()>& go_on)
      : z_(heights), f_(heights.frame()), go_on_(go_on), of_(f_), met_(f_), core_(f_) {}

  /// False: stopped.
  bool look(const FlatRule& rule, std::vector<FlatArea>& out) {
    rule_ = rule;
    for (int r = 1; r + 1 < f_.rows; ++r) {
      if (r % 256 == 0 && go_on_ && !go_on_()) return false;
      for (int c = 1; c + 1 < f_.cols; ++c) {
        if (core_[r, c] == taken) continue;
        const Window w = window(r, c);
        core_[r, c] = w.high - w.low <= same() ? open : none;
      }
    }
    for (int r = 1; r + 1 < f_.rows; ++r) {
      if (r % 256 == 0 && go_on_ && !go_on_()) return false;
      for (int c = 1; c + 1 < f_.cols; ++c) {
        if (core_[r, c] != open) continue;
        const auto cores = hanging_together({r, c});
        const auto cells = about(cores);
        if (static_cast<int>(cells.size()) < rule_.least_cells || !water_lies_so(cells)) continue;
        for (const auto& [i, j] : cores) core_[i, j] = taken;
        out.push_back(outlined(cells));
      }
    }
    return true;
  }

 private:
  static constexpr std::uint8_t none = 0, open = 1, seen = 2, taken = 3;
  [[nodiscard]] float same() const { return static_cast<float>(rule_.same_m); }

  [[nodiscard]] Window window(int r, int c) const {
    Window out{z_[r, c], z_[r, c]};
    for (int i = -1; i <= 1; ++i) {
      for (int j = -1; j <= 1; ++j) {
        const float z = z_[r + i, c + j];
        if (std::isnan(z)) return {z, z};
        out.low = std::min(out.low, z);
        out.high = std::max(out.high, z);
      }
    }
    return out;
  }

  /// Cores side by side, none of whose cells lies below the first one's lowest or more than
  /// `same_m` above it: a slope however gentle ends there. Cores that an area from another height
  /// has seen in vain are gone over again, or their cells would look like a shore.
  std::vector<Cell> hanging_together(Cell from) {
    base_ = window(from.first, from.second).low - small_noise;
    std::vector<Cell> cores{from};
    core_[from.first, from.second] = seen;
    met_[from.first, from.second] = ++label_;
    for (std::size_t k = 0; k < cores.size(); ++k) {
      const auto [r, c] = cores[k];
      for (const auto& [i, j] : {Cell{0, 1}, {1, 0}, {0, -1}, {-1, 0}}) {
        auto& next = core_[r + i, c + j];
        if ((next != open && next != seen) || met_[r + i, c + j] == label_) continue;
        const Window w = window(r + i, c + j);
        if (w.low < base_ || w.high > base_ + small_noise + same()) continue;
        next = seen;
        met_[r + i, c + j] = label_;
        cores.emplace_back(r + i, c + j);
      }
    }
    return cores;
  }

  std::vector<Cell> about(const std::vector<Cell>& cores) {
    std::vector<Cell> cells;
    for (const auto& [r, c] : cores) {
      for (int i = -1; i <= 1; ++i) {
        for (int j = -1; j <= 1; ++j) {
          if (of_[r + i, c + j] == label_) continue;
          of_[r + i, c + j] = label_;
          cells.emplace_back(r + i, c + j);
        }
      }
    }
    return cells;
  }

  [[nodiscard]] double level_of(const std::vector<Cell>& cells) const {
    double sum = 0;
    for (const auto& [r, c] : cells) sum += static_cast<double>(z_[r, c]);
    return sum / static_cast<double>(cells.size());
  }

  /// Of the known cells about the area few are lower: only where the water runs out; and the ground
  /// is known along half of the area's rim at least, or there is nothing to tell water by.
  [[nodiscard]] bool water_lies_so(const std::vector<Cell>& cells) {
    std::int64_t lower = 0, known = 0, unknown = 0;
    std::vector<Cell> rim;
    for (const auto& [r, c] : cells) {
      for (int i = -1; i <= 1; ++i) {
        for (int j = -1; j <= 1; ++j) {
          const bool inside = f_.holds(r + i, c + j);
          if (inside && of_[r + i, c + j] == label_) continue;
          const bool is_known = inside && !std::isnan(z_[r + i, c + j]);
          if ((i == 0) != (j == 0)) ++(is_known ? known : unknown);  // by the cells' sides
          if (is_known) rim.emplace_back(r + i, c + j);
        }
      }
    }
    if (known < unknown) return false;
    std::ranges::sort(rim);
    const auto twice = std::ranges::unique(rim);
    rim.erase(twice.begin(), twice.end());
    for (const auto& [r, c] : rim) lower += z_[r, c] < base_;
    return static_cast<double>(lower) <= rule_.most_lower * static_cast<double>(rim.size());
  }

  /// Sides of the cells, the area on their left. Directions: 0 east, 1 north, 2 west, 3 south;
  /// corners count rows southwards, as cells do.
  FlatArea outlined(const std::vector<Cell>& cells) const {
    FlatArea out;
    out.level_m = level_of(cells);
    out.cells = static_cast<std::int64_t>(cells.size());
    std::unordered_map<std::int64_t, std::uint8_t> leaving;
    const std::int64_t wide = f_.cols + 1;
    const auto in = [&](int r, int c) { return f_.holds(r, c) && of_[r, c] == label_; };
    const auto side = [&](int r, int c, int direction) {
      leaving[r * wide + c] |= static_cast<std::uint8_t>(1 << direction);
    };
    for (const auto& [r, c] : cells) {
      if (!in(r + 1, c)) side(r + 1, c, 0);
      if (!in(r, c + 1)) side(r + 1, c + 1, 1);
      if (!in(r - 1, c)) side(r, c + 1, 2);
      if (!in(r, c - 1)) side(r, c, 3);
    }
    std::vector<std::int64_t> starts;
    for (const auto& [at, ways] : leaving) starts.push_back(at);
    std::ranges::sort(starts);  // the same rings whatever the order of the table
    for (const auto start : starts) {
      while (leaving[start] != 0) {
        auto ring = ring_from(leaving, start, wide);
        (ring_area(ring) > 0 ? out.outer : out.holes.emplace_back()) = std::move(ring);
      }
    }
    return out;
  }

  /// Along the sides until the start comes again, turning left where two cells meet in a corner.
  [[nodiscard]] std::vector<earth::GridPoint> ring_from(
      std::unordered_map<std::int64_t, std::uint8_t>& leaving, std::int64_t start,
      std::int64_t wide) const {
    constexpr std::array<int, 4> row_step{0, -1, 0, 1}, col_step{1, 0, -1, 0};
    std::vector<earth::GridPoint> ring;
    auto at = start;
    int direction = -1;
    do {
      auto& ways = leaving[at];
      int next = -1;
      for (const int turn : {1, 0, 3, 2}) {
        const int way = direction < 0 ? turn : (direction + turn) % 4;
        if ((ways >> way & 1) == 0) continue;
        next = way;
        break;
      }
      if (next < 0) break;
      ways = static_cast<std::uint8_t>(ways & ~(1 << next));
      if (next != direction) {
        ring.push_back({f_.west_m + f_.cell_m * static_cast<double>(at % wide),
                        f_.north_m - f_.cell_m * static_cast<double>(at / wide)});
      }
      direction = next;
      at += row_step[static_cast<std::size_t>(next)] * wide +
            col_step[static_cast<std::size_t>(next)];
    } while (at != start);
    return ring;
  }

  [[nodiscard]] static double ring_area(const std::vector<earth::GridPoint>& ring) {
    double sum = 0;
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const auto a = ring[i] - ring[0], b = ring[(i + 1) % ring.size()] - ring[0];
      sum += a.east_m * b.north_m - b.east_m * a.north_m;
    }
    return sum / 2;
  }

  const Elevation& z_;
  const Frame& f_;
  FlatRule rule_;
  const std::function<bool()>& go_on_;
  Raster<std::int32_t> of_, met_;  ///< which area a cell was put into last, by which a core was met
  Raster<std::uint8_t> core_;
  std::int32_t label_ = 0;
  float base_ = 0;
};

}  // namespace

std::vector<FlatRule> flat_rules(bool whole_metres) {
  std::vector<FlatRule> out{{0.05, 32, 0.1}, {0.05, 64, 0.3}};
  if (whole_metres) out.push_back({1.05, 64, 0.1});
  return out;
}

std::vector<FlatArea> flat_areas(const Elevation& heights, const std::vector<FlatRule>& rules,
                                 const std::function<bool()>& go_on) {
  std::vector<FlatArea> out;
  if (heights.empty()) return out;
  Finder finder(heights, go_on);
  for (const FlatRule& rule : rules) {
    if (!finder.look(rule, out)) return {};
  }
  return out;
}

}  // namespace lodeway::terrain
