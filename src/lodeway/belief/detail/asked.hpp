#pragma once
/// What one question would tell, over places that are drawn from the belief.
#include <algorithm>
#include <cmath>
#include <cstdint>
#include <span>
#include <unordered_map>
#include <utility>
#include <vector>

#include "lodeway/belief/belief.hpp"
#include "lodeway/sight/detail/densities.hpp"

namespace lodeway::belief::detail {

/// A chance for each answer; they sum to 1.
using Row = std::vector<double>;

/// Bits.
[[nodiscard]] inline double entropy_of(std::span<const double> p) {
  double h = 0;
  for (const double v : p) {
    if (v > 0) h -= v * std::log2(v);
  }
  return h;
}

/// One question over the drawn places: rows of answers, made once for each class of cells.
class Asked {
 public:
  Asked(const CuePlanes& planes, const Perception& perception, mapdata::Visibility visibility,
        std::span<const std::size_t> cells)
      : m_{planes, perception, visibility}, cells_(cells) {}

  /// `key` of a cell, `row` of a cell that stands for its class.
  template <class Key, class MakeRow>
  void put(std::size_t answers, Key&& key, MakeRow&& make) {
    std::unordered_map<std::uint64_t, std::uint32_t> known;
    rows_.clear();
    of_draw_.clear();
    of_draw_.reserve(cells_.size());
    for (const std::size_t cell : cells_) {
      const auto [at, fresh] =
          known.try_emplace(key(cell), static_cast<std::uint32_t>(rows_.size()));
      if (fresh) {
        Row row(answers, 0.0);
        make(cell, row);
        for (double& v : row)
          v = (1 - m_.perception.mix) * v + m_.perception.mix / static_cast<double>(answers);
        rows_.push_back(std::move(row));
      }
      of_draw_.push_back(at->second);
    }
  }

  [[nodiscard]] double bits() const {
    if (rows_.empty()) return 0;
    std::vector<double> count(rows_.size(), 0.0);
    for (const auto r : of_draw_) count[r] += 1;
    Row mean(rows_[0].size(), 0.0);
    double within = 0;
    const auto n = static_cast<double>(of_draw_.size());
    for (std::size_t r = 0; r < rows_.size(); ++r) {
      const double w = count[r] / n;
      for (std::size_t a = 0; a < mean.size(); ++a) mean[a] += w * rows_[r][a];
      within += w * entropy_of(rows_[r]);
    }
    return std::max(0.0, entropy_of(mean) - within);
  }
  [[nodiscard]] const Row& row(std::size_t draw) const { return rows_[of_draw_[draw]]; }
  [[nodiscard]] std::size_t answers() const { return rows_.empty() ? 0 : rows_[0].size(); }

  [[nodiscard]] const sight::detail::Model& model() const { return m_; }
  [[nodiscard]] std::span<const std::size_t> cells() const { return cells_; }

 private:
  sight::detail::Model m_;
  std::span<const std::size_t> cells_;
  std::vector<Row> rows_;
  std::vector<std::uint32_t> of_draw_;
};

}  // namespace lodeway::belief::detail
