#include "lodeway/reckoning/ends/point_target.hpp"

#include <algorithm>
#include <cmath>

#include "lodeway/numeric/normal.hpp"
#include "lodeway/numeric/quadrature.hpp"

namespace lodeway::reckoning {

using numeric::normal_cdf;

double passes_within(double sigma, double offset, double r) {
  if (!(r > 0)) return 0.0;
  if (sigma <= 0) return std::abs(offset) < r ? 1.0 : 0.0;
  return normal_cdf((r - offset) / sigma) - normal_cdf((-r - offset) / sigma);
}

double sees_before_giving_up(const LegAxes& at, double offset, double r, double beyond) {
  if (!(r > 0)) return 0.0;
  const double left = std::sqrt(1 - at.correlation * at.correlation) * at.along_sigma_m;
  // P(the walk reaches far enough | the track passes `beside` the target)
  const auto reaches = [&](double beside, double z) {
    const double needed = -beyond - std::sqrt(std::max(r * r - beside * beside, 0.0));
    const double mean = at.correlation * at.along_sigma_m * z;
    if (left <= 0) return mean > needed ? 1.0 : 0.0;
    return normal_cdf((mean - needed) / left);
  };
  if (at.cross_sigma_m <= 0) return std::abs(offset) < r ? reaches(offset, 0) : 0.0;
  const double from = std::max((-r - offset) / at.cross_sigma_m, -9.0);
  const double to = std::min((r - offset) / at.cross_sigma_m, 9.0);
  if (from >= to) return 0.0;
  // beside = r sin(t) takes the root at the rim away
  const double a = std::asin(std::clamp((offset + from * at.cross_sigma_m) / r, -1.0, 1.0));
  const double b = std::asin(std::clamp((offset + to * at.cross_sigma_m) / r, -1.0, 1.0));
  const auto slice = [&](double t) {
    const double beside = r * std::sin(t), z = (beside - offset) / at.cross_sigma_m;
    return numeric::normal_density(z) * reaches(beside, z) * r * std::cos(t) / at.cross_sigma_m;
  };
  const int panels = std::clamp(static_cast<int>(std::ceil(r / at.cross_sigma_m * (b - a))), 4, 60);
  return std::clamp(numeric::integrate(slice, a, b, panels), 0.0, 1.0);
}

}  // namespace lodeway::reckoning
