#include "lodeway/terrain/detail/basins.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>

namespace lodeway::terrain::detail {

Padded::Padded(const Elevation& heights, float sign)
    : rows(heights.rows()), cols(heights.cols()), stride(heights.cols() + 2) {
  z.assign(static_cast<std::size_t>(stride) * static_cast<std::size_t>(rows + 2),
           std::numeric_limits<float>::quiet_NaN());
  for (int r = 0; r < rows; ++r) {
    const auto from = heights.row(r);
    float* to = z.data() + at(r, 0);
    for (std::size_t c = 0; c < from.size(); ++c) {
      const float v = sign * from[c];
      to[c] = is_height(v) ? v : std::numeric_limits<float>::quiet_NaN();
    }
  }
  for (std::size_t k = 0; k < 8; ++k) offset[k] = down_rows[k] * stride + down_cols[k];
}

std::vector<std::uint8_t> steepest_descent(const Padded& ground) {
  std::vector<std::uint8_t> out(ground.z.size(), is_void);
  const auto cols = static_cast<std::size_t>(ground.cols);
  for (int r = 0; r < ground.rows; ++r) {
    const float* z = ground.z.data() + ground.at(r, 0);
    const float* north = z - ground.stride;
    const float* south = z + ground.stride;
    std::uint8_t* to = out.data() + ground.at(r, 0);
    for (std::size_t c = 0; c < cols; ++c) {  // no branches: the compiler makes vectors of it
      const float own = z[c];
      float best = 0.0F, sum = 0.0F;
      std::int32_t code = no_lower;
      const auto offer = [&](float other, float per_length, std::int32_t direction) {
        const float drop = (own - other) * per_length;
        code = drop > best ? direction : code;
        best = drop > best ? drop : best;
        sum += other;  // NaN as soon as one neighbour is
      };
      constexpr float diagonal = 0.70710678F;
      offer(north[c], 1.0F, 0);
      offer(north[c + 1], diagonal, 1);
      offer(z[c + 1], 1.0F, 2);
      offer(south[c + 1], diagonal, 3);
      offer(south[c], 1.0F, 4);
      offer((south - 1)[c], diagonal, 5);
      offer((z - 1)[c], 1.0F, 6);
      offer((north - 1)[c], diagonal, 7);
      code |= sum != sum ? std::int32_t{at_rim} : 0;
      to[c] = static_cast<std::uint8_t>(own != own ? std::int32_t{is_void} : code);
    }
  }
  return out;
}

Basins basins_of(const Padded& ground, std::span<const std::uint8_t> descent, bool rim_is_outlet,
                 std::span<const std::uint8_t> outlets) {
  Basins out;
  out.label.assign(ground.z.size(), Basins::none);
  out.bottom.push_back(0);
  std::vector<std::size_t> path;
  const auto label_path = [&](std::size_t i) {
    path.clear();
    std::uint32_t label = Basins::none;
    while (label == Basins::none) {
      path.push_back(i);
      const std::uint8_t code = descent[i];
      const int way = code & 15;
      if ((rim_is_outlet && (code & at_rim) != 0) || (!outlets.empty() && outlets[i] != 0)) {
        label = 0;
        break;
      }
      int to = way < no_lower ? way : -1;
      // On a flat go back to an equal neighbour passed earlier (NW, N, NE, W). Height and then
      // raster order fall along every path, so there is no circle, and a lake has few basins
      // instead of one for each of its cells.
      for (const int back : {7, 0, 1, 6}) {
        if (to < 0 && ground.z[ground.next(i, back)] == ground.z[i]) to = back;
      }
      if (to < 0) {
        label = static_cast<std::uint32_t>(out.bottom.size());
        out.bottom.push_back(static_cast<std::uint32_t>(i));
        break;
      }
      i = ground.next(i, to);
      label = out.label[i];
    }
    for (const std::size_t p : path) out.label[p] = label;
  };
  for (int r = 0; r < ground.rows; ++r) {
    for (int c = 0; c < ground.cols; ++c) {
      const std::size_t i = ground.at(r, c);
      if (descent[i] != is_void && out.label[i] == Basins::none) label_path(i);
    }
  }
  return out;
}

namespace {

/// Open addressing, keyed by the pair of basins: keeps the lowest pass of each.
class PassTable {
 public:
  explicit PassTable(std::size_t expected) {
    std::size_t size = 1024;
    while (size < 2 * expected) size *= 2;
    slots_.resize(size);
  }
  void offer(std::uint32_t a, std::uint32_t b, float height, std::uint32_t cell) {
    if (b < a) std::swap(a, b);
    // Along a border the same pair comes again and again.
    if (slots_[last_].a != a || slots_[last_].b != b) {
      if (2 * used_ > slots_.size()) grow();
      last_ = find(a, b);
      if (slots_[last_].b == 0) {  // b > a >= 0, so 0 means empty
        slots_[last_] = {a, b, height, cell};
        ++used_;
        return;
      }
    }
    if (height < slots_[last_].height) {
      slots_[last_].height = height;
      slots_[last_].cell = cell;
    }
  }
  [[nodiscard]] std::vector<Pass> take() const {
    std::vector<Pass> out;
    out.reserve(used_);
    std::ranges::copy_if(slots_, std::back_inserter(out), [](const Pass& p) { return p.b != 0; });
    return out;
  }

 private:
  [[nodiscard]] std::size_t find(std::uint32_t a, std::uint32_t b) const {
    const std::uint64_t key = (std::uint64_t{a} << 32U) | b;
    std::size_t i =
        static_cast<std::size_t>((key * 0x9e3779b97f4a7c15ULL) >> 20U) & (slots_.size() - 1);
    while (slots_[i].b != 0 && (slots_[i].a != a || slots_[i].b != b)) {
      i = (i + 1) & (slots_.size() - 1);
    }
    return i;
  }
  void grow() {
    std::vector<Pass> old(slots_.size() * 2);
    old.swap(slots_);
    for (const Pass& p : old) {
      if (p.b != 0) slots_[find(p.a, p.b)] = p;
    }
  }
  std::vector<Pass> slots_;
  std::size_t used_ = 0, last_ = 0;
};

}  // namespace

std::vector<Pass> lowest_passes(const Padded& ground, const Basins& basins) {
  PassTable table(2 * basins.bottom.size());
  const std::uint32_t* label = basins.label.data();
  const float* z = ground.z.data();
  for (int r = 0; r < ground.rows; ++r) {
    const std::size_t first = ground.at(r, 0);
    for (std::size_t i = first; i < first + static_cast<std::size_t>(ground.cols); ++i) {
      const std::uint32_t own = label[i];
      const std::size_t south = ground.next(i, 4);
      // Four of the eight neighbours; the others look back at this cell. Most cells lie inside a
      // basin.
      if ((((label[i + 1] ^ own) | (label[south + 1] ^ own)) |
           ((label[south] ^ own) | (label[south - 1] ^ own))) == 0) {
        continue;
      }
      if (own == Basins::none) continue;
      for (const std::size_t j : {i + 1, south + 1, south, south - 1}) {
        const std::uint32_t other = label[j];
        if (other == own || other == Basins::none) continue;
        const bool higher = z[j] > z[i];
        table.offer(own, other, higher ? z[j] : z[i], static_cast<std::uint32_t>(higher ? j : i));
      }
    }
  }
  return table.take();
}

}  // namespace lodeway::terrain::detail
