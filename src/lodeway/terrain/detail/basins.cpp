#include "lodeway/terrain/detail/basins.hpp"

#include <algorithm>
#include <cmath>
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
      to[c] = std::isfinite(v) ? v : std::numeric_limits<float>::quiet_NaN();
    }
  }
  for (std::size_t k = 0; k < 8; ++k) offset[k] = down_rows[k] * stride + down_cols[k];
}

std::vector<std::uint8_t> steepest_descent(const Padded& ground) {
  std::vector<std::uint8_t> out(ground.z.size(), is_void);
  const auto cols = static_cast<std::size_t>(ground.cols);
  // One direction after the other along a whole row: loops without branches, which vectorise.
  std::vector<float> best(cols);
  std::vector<std::int32_t> code(cols), rim(cols);
  for (int r = 0; r < ground.rows; ++r) {
    std::fill(best.begin(), best.end(), 0.0F);
    std::fill(code.begin(), code.end(), std::int32_t{no_lower});
    std::fill(rim.begin(), rim.end(), 0);
    const float* z = ground.z.data() + ground.at(r, 0);
    for (int k = 0; k < 8; ++k) {
      const float* n = z + ground.offset[static_cast<std::size_t>(k)];
      const float per_length = k % 2 == 0 ? 1.0F : 0.70710678F;
      for (std::size_t c = 0; c < cols; ++c) {
        const float drop = (z[c] - n[c]) * per_length;
        const bool more = drop > best[c];
        best[c] = more ? drop : best[c];
        code[c] = more ? k : code[c];
        rim[c] |= n[c] != n[c] ? at_rim : 0;
      }
    }
    std::uint8_t* to = out.data() + ground.at(r, 0);
    for (std::size_t c = 0; c < cols; ++c) {
      to[c] = z[c] != z[c] ? is_void : static_cast<std::uint8_t>(code[c] | rim[c]);
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
    if (2 * used_ > slots_.size()) grow();
    Pass& slot = find(a, b);
    if (slot.b == 0) {  // b > a >= 0, so 0 means empty
      slot = {a, b, height, cell};
      ++used_;
    } else if (height < slot.height) {
      slot.height = height;
      slot.cell = cell;
    }
  }
  std::vector<Pass> sorted() {
    std::erase_if(slots_, [](const Pass& p) { return p.b == 0; });
    std::ranges::sort(slots_, {}, [](const Pass& p) { return std::pair(p.a, p.b); });
    return std::move(slots_);
  }

 private:
  Pass& find(std::uint32_t a, std::uint32_t b) {
    const std::uint64_t key = (std::uint64_t{a} << 32U) | b;
    std::size_t i =
        static_cast<std::size_t>((key * 0x9e3779b97f4a7c15ULL) >> 20U) & (slots_.size() - 1);
    while (slots_[i].b != 0 && (slots_[i].a != a || slots_[i].b != b)) {
      i = (i + 1) & (slots_.size() - 1);
    }
    return slots_[i];
  }
  void grow() {
    std::vector<Pass> old(slots_.size() * 2);
    old.swap(slots_);
    for (const Pass& p : old) {
      if (p.b != 0) find(p.a, p.b) = p;
    }
  }
  std::vector<Pass> slots_;
  std::size_t used_ = 0;
};

}  // namespace

std::vector<Pass> lowest_passes(const Padded& ground, const Basins& basins) {
  PassTable table(4 * basins.bottom.size());
  const auto& label = basins.label;
  for (int r = 0; r < ground.rows; ++r) {
    const std::size_t first = ground.at(r, 0);
    for (std::size_t i = first; i < first + static_cast<std::size_t>(ground.cols); ++i) {
      const std::uint32_t own = label[i];
      if (own == Basins::none) continue;
      const std::array<std::size_t, 4> others{ground.next(i, 2), ground.next(i, 3),
                                              ground.next(i, 4), ground.next(i, 5)};
      for (const std::size_t j : others) {
        const std::uint32_t other = label[j];
        if (other == own || other == Basins::none) continue;
        const bool higher = ground.z[j] > ground.z[i];
        table.offer(own, other, higher ? ground.z[j] : ground.z[i],
                    static_cast<std::uint32_t>(higher ? j : i));
      }
    }
  }
  return table.sorted();
}

}  // namespace lodeway::terrain::detail
