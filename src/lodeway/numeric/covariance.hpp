#pragma once
/// A symmetric 2 x 2 covariance in the plane. x grows to the right, y up; azimuths are radians
/// CLOCKWISE FROM Y, so that with x = east and y = north an azimuth is a bearing.
/// Units: those of the caller, squared.
#include <cmath>
#include <numbers>

namespace lodeway::numeric {

struct Covariance {
  double xx = 0, xy = 0, yy = 0;

  friend Covariance operator+(Covariance a, Covariance b) {
    return {a.xx + b.xx, a.xy + b.xy, a.yy + b.yy};
  }
  friend Covariance operator*(double k, Covariance a) { return {k * a.xx, k * a.xy, k * a.yy}; }
  Covariance& operator+=(Covariance b) { return *this = *this + b; }
  friend bool operator==(const Covariance&, const Covariance&) = default;

  [[nodiscard]] double trace() const { return xx + yy; }
  /// Variance of the component that lies along an azimuth.
  [[nodiscard]] double along(double azimuth) const {
    const double s = std::sin(azimuth), c = std::cos(azimuth);
    return s * s * xx + 2 * s * c * xy + c * c * yy;
  }
  /// Covariance of the component along an azimuth with the one a quarter turn clockwise of it.
  [[nodiscard]] double along_with_right(double azimuth) const {
    const double s = std::sin(azimuth), c = std::cos(azimuth);
    return s * c * (xx - yy) + (c * c - s * s) * xy;
  }
};

/// The one-sigma ellipse. `azimuth` is that of the longer axis, in [0, pi); a circle gives 0.
struct Axes {
  double major = 0, minor = 0, azimuth = 0;
};

/// Independent errors with these variances along an azimuth and across it.
[[nodiscard]] inline Covariance covariance_along(double azimuth, double along_variance,
                                                 double across_variance) {
  const double s = std::sin(azimuth), c = std::cos(azimuth);
  return {s * s * along_variance + c * c * across_variance,
          s * c * (along_variance - across_variance),
          c * c * along_variance + s * s * across_variance};
}

/// Axes of the one-sigma ellipse, by the closed form of the 2 x 2 eigenvalue problem.
/// Accuracy: 1e-12 of the longer axis. Negative eigenvalues from rounding count as 0.
[[nodiscard]] inline Axes axes_of(const Covariance& c) {
  const double half = 0.5 * (c.yy - c.xx), mean = 0.5 * (c.xx + c.yy);
  const double radius = std::hypot(half, c.xy);
  const double azimuth = radius > 0 ? 0.5 * std::atan2(c.xy, half) : 0.0;
  return {std::sqrt(std::fmax(mean + radius, 0.0)), std::sqrt(std::fmax(mean - radius, 0.0)),
          azimuth < 0 ? azimuth + std::numbers::pi : azimuth};
}

}  // namespace lodeway::numeric
