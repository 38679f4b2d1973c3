#pragma once
/// Small statistics of a sample.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <span>

namespace lodeway::numeric {

/// The p-quantile of values in ascending order, linear between neighbours (Hyndman & Fan 1996, type
/// 7). Asks for at least one value.
[[nodiscard]] inline double sorted_quantile(std::span<const double> sorted, double p) {
  const double at = p * static_cast<double>(sorted.size() - 1);
  const auto low = static_cast<std::size_t>(at);
  const std::size_t high = std::min(low + 1, sorted.size() - 1);
  return sorted[low] + (at - static_cast<double>(low)) * (sorted[high] - sorted[low]);
}

/// Standard error of a share of `hits` in `trials`, by Agresti & Coull 1998 (two added to each
/// side), so that 0 and 1 keep an error.
[[nodiscard]] inline double share_error(std::size_t hits, std::size_t trials) {
  const double n = static_cast<double>(trials) + 4, p = (static_cast<double>(hits) + 2) / n;
  return std::sqrt(p * (1 - p) / n);
}

}  // namespace lodeway::numeric
