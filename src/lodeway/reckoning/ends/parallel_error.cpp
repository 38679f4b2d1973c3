#include "lodeway/reckoning/ends/parallel_error.hpp"

#include <algorithm>
#include <cmath>

#include "lodeway/numeric/normal.hpp"

namespace lodeway::reckoning {

double taken_at_count(const Decoy& d, double more, double half) {
  const double lie = d.lie_apart_deg / d.lie_sigma_deg, sigma = std::max(d.along_sigma_m, 1e-9);
  // log of the odds for the target, by the count alone
  const double slope = d.apart_m / (sigma * sigma), prior = std::log(d.prior_ratio);
  const double even = slope > 0 ? 0.5 * d.apart_m - prior / slope : 0;
  if (lie < 1e-6) {
    return d.looks_alike * std::clamp(0.5 + (more - even) / (2 * std::max(half, 1e-9)), 0.0, 1.0);
  }
  const auto at = [&](double counted) {
    return numeric::normal_cdf((slope * (counted - 0.5 * d.apart_m) + prior - 0.5 * lie * lie) /
                               lie);
  };
  constexpr double gauss_2 = 0.5773502691896258;  // two places stand for the step
  return d.looks_alike * 0.5 * (at(more - gauss_2 * half) + at(more + gauss_2 * half));
}

}  // namespace lodeway::reckoning
