#include "lodeway/numeric/bivariate.hpp"

#include <algorithm>

#include "lodeway/numeric/normal.hpp"
#include "lodeway/numeric/quadrature.hpp"

namespace lodeway::numeric {

namespace {
/// P(|Z + mean| < w) for Z normal of this sigma.
double strip(double mean, double sigma, double w) {
  if (sigma <= 0) return std::abs(mean) < w ? 1.0 : 0.0;
  return normal_cdf((w - mean) / sigma) - normal_cdf((-w - mean) / sigma);
}
}  // namespace

double disc_probability(const Covariance& c, double mean_x, double mean_y, double r) {
  if (!(r > 0)) return 0.0;
  const Axes axes = axes_of(c);
  const double s = std::sin(axes.azimuth), co = std::cos(axes.azimuth);
  const double along = s * mean_x + co * mean_y, across = co * mean_x - s * mean_y;
  if (axes.major <= 0) return std::hypot(along, across) < r ? 1.0 : 0.0;
  // u = r sin(t) takes the root at the rim away; panels no wider than one sigma of the long axis,
  // or a short axis' reach
  const double from = std::max(-r, along - 9 * axes.major),
               to = std::min(r, along + 9 * axes.major);
  if (from >= to) return 0.0;
  const double a = std::asin(from / r), b = std::asin(to / r);
  const double narrow = std::min(axes.major, std::max(axes.minor, 0.02 * axes.major));
  const int panels = std::clamp(static_cast<int>(std::ceil(r * (b - a) / narrow)), 4, 400);
  const auto slice = [&](double t) {
    const double u = r * std::sin(t), w = r * std::cos(t);
    return normal_density((u - along) / axes.major) / axes.major * strip(across, axes.minor, w) * w;
  };
  return std::clamp(integrate(slice, a, b, panels), 0.0, 1.0);
}

}  // namespace lodeway::numeric
