#include "lodeway/reckoning/ends/aiming_off.hpp"

#include <cmath>

#include "lodeway/numeric/normal.hpp"
#include "lodeway/numeric/quadrature.hpp"

namespace lodeway::reckoning {

using numeric::normal_cdf;

double line_sigma(double cross_sigma, double angle) { return cross_sigma / std::sin(angle); }

double aimed_minutes(double length, double angle, double sigma, double offset,
                     const AimCosts& costs) {
  const double d = offset / sigma, density = numeric::normal_density(d), wrong = normal_cdf(-d);
  const double right_way = sigma * (d * normal_cdf(d) + density);  // E(X; X > 0)
  const double wrong_way = sigma * (density - d * wrong);          // E(-X; X < 0)
  const double leg =
      std::sqrt(length * length + offset * offset - 2 * length * offset * std::cos(angle));
  return (leg - length) * costs.bearing_min_per_m +
         (right_way + wrong_way + wrong * 2 * (offset + costs.wrong_way_sigmas * sigma)) *
             costs.line_min_per_m +
         wrong * costs.doubt_min;
}

Aim best_aim(double length, double angle, double sigma, const AimCosts& costs) {
  const auto minutes = [&](double offset) {
    return aimed_minutes(length, angle, sigma, offset, costs);
  };
  const double offset = numeric::minimum_between(minutes, 0, 4 * sigma, 0.001 * sigma);
  return {offset, normal_cdf(-offset / sigma), minutes(offset), minutes(0) - minutes(offset)};
}

}  // namespace lodeway::reckoning
