#include "lodeway/belief/resection.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <string>

namespace lodeway::belief {

namespace {
using earth::GridPoint;
constexpr double degrees = 180 / std::numbers::pi;

using Matrix3 = std::array<std::array<double, 3>, 3>;

/// Inverse of a symmetric positive definite matrix of order n (2 or 3); false when it is singular.
bool invert(const Matrix3& a, int n, Matrix3& out) {
  std::array<std::array<double, 6>, 3> m{};
  for (int i = 0; i < n; ++i) {
    for (int j = 0; j < n; ++j) m[i][j] = a[i][j];
    m[i][n + i] = 1;
  }
  for (int i = 0; i < n; ++i) {
    int best = i;
    for (int k = i + 1; k < n; ++k) {
      if (std::abs(m[k][i]) > std::abs(m[best][i])) best = k;
    }
    std::swap(m[i], m[best]);
    if (!(std::abs(m[i][i]) > 1e-30)) return false;
    const double pivot = m[i][i];
    for (int j = 0; j < 2 * n; ++j) m[i][j] /= pivot;
    for (int k = 0; k < n; ++k) {
      if (k == i) continue;
      const double f = m[k][i];
      for (int j = 0; j < 2 * n; ++j) m[k][j] -= f * m[i][j];
    }
  }
  for (int i = 0; i < n; ++i) {
    for (int j = 0; j < n; ++j) out[i][j] = m[i][n + j];
  }
  return true;
}

double off_deg(const Sighted& s, GridPoint at, double bias_deg) {
  return std::remainder(
      s.bearing.in_degrees() - earth::grid_bearing(at, s.mark).in_degrees() - bias_deg, 360);
}

/// One row of the observations: derivatives of the bearing in radians by east, north, bias.
std::array<double, 3> row_of(const Sighted& s, GridPoint at) {
  const GridPoint d = s.mark - at;
  const double r2 = std::max(d.east_m * d.east_m + d.north_m * d.north_m, 1e-6);
  return {-d.north_m / r2, d.east_m / r2, 1};
}

/// Normal matrix of rows and, with residuals, the right side.
void normal_of(std::span<const Sighted> sighted, const Bias& bias, GridPoint at, double bias_deg,
               Matrix3& n, std::array<double, 3>& right) {
  n = {};
  right = {};
  for (const Sighted& s : sighted) {
    const auto row = row_of(s, at);
    const double w = degrees * degrees / (s.sigma_deg * s.sigma_deg);
    const double v = off_deg(s, at, bias_deg) / degrees;
    for (int i = 0; i < 3; ++i) {
      for (int j = 0; j < 3; ++j) n[i][j] += w * row[i] * row[j];
      right[i] += w * row[i] * v;
    }
  }
  if (bias.how == Bias::How::prior) {
    const double w = degrees * degrees / (bias.sd_deg * bias.sd_deg);
    n[2][2] += w;
    right[2] += w * (0 - bias_deg / degrees);
  }
}

double chi2_of(std::span<const Sighted> sighted, const Bias& bias, GridPoint at, double bias_deg) {
  double sum = 0;
  for (const Sighted& s : sighted) {
    const double v = off_deg(s, at, bias_deg) / s.sigma_deg;
    sum += v * v;
  }
  if (bias.how == Bias::How::prior) sum += (bias_deg / bias.sd_deg) * (bias_deg / bias.sd_deg);
  return sum;
}

std::optional<GridPoint> crossing(const Sighted& a, const Sighted& b) {
  const GridPoint u{std::sin(a.bearing.in_radians()), std::cos(a.bearing.in_radians())};
  const GridPoint v{std::sin(b.bearing.in_radians()), std::cos(b.bearing.in_radians())};
  const double det = u.east_m * v.north_m - u.north_m * v.east_m;
  if (std::abs(det) < std::sin(1 / degrees)) return std::nullopt;
  const GridPoint d = a.mark - b.mark;
  // a.mark - t u = b.mark - s v
  const double t = (d.east_m * v.north_m - d.north_m * v.east_m) / det;
  return a.mark - t * u;
}

/// From one start; at and bias are changed. False when it does not settle.
bool solve(std::span<const Sighted> sighted, const Bias& bias, GridPoint& at, double& bias_deg) {
  const int n = bias.how == Bias::How::none ? 2 : 3;
  double now = chi2_of(sighted, bias, at, bias_deg);
  for (int k = 0; k < 60; ++k) {
    Matrix3 normal{}, inverse{};
    std::array<double, 3> right{};
    normal_of(sighted, bias, at, bias_deg, normal, right);
    if (!invert(normal, n, inverse)) return false;
    std::array<double, 3> change{};
    for (int i = 0; i < n; ++i) {
      for (int j = 0; j < n; ++j) change[i] += inverse[i][j] * right[j];
    }
    double part = 1;  // a shorter step where the whole one makes it worse
    for (int half = 0; half < 20; ++half, part /= 2) {
      const GridPoint to = at + part * GridPoint{change[0], change[1]};
      const double to_bias = bias_deg + part * change[2] * degrees;
      const double then = chi2_of(sighted, bias, to, to_bias);
      if (then <= now || half == 19) {
        at = to;
        bias_deg = to_bias;
        now = then;
        break;
      }
    }
    if (part * std::hypot(change[0], change[1]) < 1e-7) return true;
  }
  return std::isfinite(at.east_m) && std::isfinite(at.north_m);
}

Result<void> check(std::span<const Sighted> sighted, const Bias& bias) {
  if (sighted.size() < 2 || sighted.size() > 6) {
    return fail(FaultCode::bad_input,
                "bearings: expected 2 to 6 things sighted, got " + std::to_string(sighted.size()));
  }
  for (std::size_t i = 0; i < sighted.size(); ++i) {
    if (!(sighted[i].sigma_deg > 0)) {
      return fail(FaultCode::bad_input,
                  "bearing " + std::to_string(i + 1) + ": expected an error above 0 degrees");
    }
    for (std::size_t j = 0; j < i; ++j) {
      if (earth::grid_distance_m(sighted[i].mark, sighted[j].mark) < 1) {
        return fail(FaultCode::bad_input, "bearings " + std::to_string(j + 1) + " and " +
                                              std::to_string(i + 1) +
                                              ": expected two different things");
      }
    }
  }
  if (bias.how == Bias::How::free && sighted.size() < 3) {
    return fail(FaultCode::bad_input,
                "bearings: expected 3 or more where the compass's error is not known");
  }
  return {};
}

/// Upper hundredth of chi-square with 1 to 4 degrees of freedom (tables).
double limit_of(int redundancy) {
  static constexpr std::array<double, 5> limits{0, 6.635, 9.210, 11.345, 13.277};
  return limits[static_cast<std::size_t>(std::clamp(redundancy, 0, 4))];
}
}  // namespace

Result<Resection> resect(std::span<const Sighted> sighted, const Bias& bias) {
  if (const auto fine = check(sighted, bias); !fine) return std::unexpected(fine.error());
  std::optional<GridPoint> best;
  double best_bias = 0, least = 1e300;
  for (std::size_t i = 0; i < sighted.size(); ++i) {
    for (std::size_t j = i + 1; j < sighted.size(); ++j) {
      auto at = crossing(sighted[i], sighted[j]);
      double bias_deg = 0;
      if (!at || !solve(sighted, bias, *at, bias_deg)) continue;
      const double chi2 = chi2_of(sighted, bias, *at, bias_deg);
      if (!(chi2 < least)) continue;
      least = chi2;
      best = at;
      best_bias = bias_deg;
    }
  }
  if (!best) {
    return fail(FaultCode::bad_input,
                "bearings: expected two that cross by at least 1 degree, all run side by side");
  }
  const int n = bias.how == Bias::How::none ? 2 : 3;
  Matrix3 normal{}, q{};
  std::array<double, 3> right{};
  normal_of(sighted, bias, *best, best_bias, normal, right);
  if (!invert(normal, n, q)) {
    return fail(FaultCode::bad_input,
                "bearings: the marks and the place lie on one circle, so "
                "nothing tells the place from the compass's error");
  }
  Resection out;
  out.at = *best;
  out.bias_deg = best_bias;
  out.covariance = {q[0][0], q[0][1], q[1][1]};
  out.chi2 = least;
  out.redundancy = static_cast<int>(sighted.size()) - 2 - (bias.how == Bias::How::free ? 1 : 0);
  for (const Sighted& s : sighted) {
    const double v = off_deg(s, *best, best_bias);
    const auto row = row_of(s, *best);
    double model = 0;  // variance of the fitted bearing, radians squared
    for (int i = 0; i < n; ++i) {
      for (int j = 0; j < n; ++j) model += row[i] * q[i][j] * row[j];
    }
    const double own = s.sigma_deg * s.sigma_deg, left = own - model * degrees * degrees;
    out.residual_deg.push_back(v);
    out.redundancy_of.push_back(std::max(0.0, left / own));
    out.w.push_back(left > 1e-9 * own ? v / std::sqrt(left) : 0);
    out.behind.push_back(std::abs(v) > 90);
  }
  return out;
}

Result<Blunder> blunder(std::span<const Sighted> sighted, const Bias& bias, const Resection& all) {
  Blunder out;
  const bool two = sighted.size() == 2;
  if (two && bias.how != Bias::How::free) {
    out.said = Blunder::Said::cannot_tell;
    return out;
  }
  constexpr double critical = 3.29;
  const bool fits = all.chi2 <= limit_of(all.redundancy) &&
                    std::ranges::none_of(all.w, [](double w) { return std::abs(w) > critical; }) &&
                    std::ranges::none_of(all.behind, [](bool b) { return b; });
  if (fits) return out;
  std::size_t ways = 0;
  double least = 1e300;
  for (std::size_t i = 0; i < sighted.size(); ++i) {
    for (std::size_t c = 0; c < sighted[i].others.size(); ++c) {
      std::vector<Sighted> changed(sighted.begin(), sighted.end());
      changed[i].mark = changed[i].others[c];
      const auto again = resect(changed, bias);
      if (!again || again->chi2 > limit_of(again->redundancy) ||
          std::ranges::any_of(again->behind, [](bool b) { return b; }))
        continue;
      ++ways;
      if (again->chi2 >= least) continue;
      least = again->chi2;
      out.said = Blunder::Said::other_thing;
      out.which = i;
      out.candidate = c;
      out.mended = *again;
      out.off_deg = off_deg(sighted[i], again->at, again->bias_deg);
    }
  }
  // with one redundancy several exchanges may fit: then none of them is named
  if (ways > 0 && (ways == 1 || sighted.size() > 3)) return out;
  out = {};
  out.said = Blunder::Said::some;
  if (sighted.size() < 4 || (bias.how == Bias::How::free && sighted.size() < 5)) return out;
  least = 1e300;
  std::size_t fitting = 0;
  for (std::size_t i = 0; i < sighted.size(); ++i) {
    std::vector<Sighted> fewer(sighted.begin(), sighted.end());
    fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(i));
    const auto again = resect(fewer, bias);
    if (!again || again->chi2 > limit_of(again->redundancy)) continue;
    ++fitting;
    if (again->chi2 >= least) continue;
    least = again->chi2;
    out.which = i;
    out.mended = *again;
    out.off_deg = off_deg(sighted[i], again->at, again->bias_deg);
  }
  const auto largest = std::ranges::max_element(all.w, {}, [](double w) { return std::abs(w); });
  const bool named = fitting > 0 && static_cast<std::size_t>(largest - all.w.begin()) == out.which;
  if (named) {
    out.said = Blunder::Said::this_one;
  } else {
    out = {};
    out.said = Blunder::Said::some;
  }
  return out;
}

double two_bearing_rms_m(double d1_m, double d2_m, double cut, double sigma_deg) {
  return sigma_deg / degrees * std::sqrt(d1_m * d1_m + d2_m * d2_m) / std::sin(cut / degrees);
}

double cut_deg(units::GridBearing a, units::GridBearing b) {
  const double d = std::abs((a - b).in_degrees());
  return d > 90 ? 180 - d : d;
}

std::optional<GridPoint> tienstra(GridPoint a, GridPoint b, GridPoint c, units::Angle alpha,
                                  units::Angle beta, units::Angle gamma) {
  const auto cot = [](double radians) { return std::cos(radians) / std::sin(radians); };
  const auto vertex = [](GridPoint at, GridPoint from, GridPoint to) {
    const GridPoint u = from - at, v = to - at;
    // clockwise from u to v, as the angles at P are told
    return std::atan2(v.east_m * u.north_m - v.north_m * u.east_m,
                      u.east_m * v.east_m + u.north_m * v.north_m);
  };
  const double ka = cot(vertex(a, b, c)) - cot(alpha.in_radians());
  const double kb = cot(vertex(b, c, a)) - cot(beta.in_radians());
  const double kc = cot(vertex(c, a, b)) - cot(gamma.in_radians());
  if (std::abs(ka) < 1e-12 || std::abs(kb) < 1e-12 || std::abs(kc) < 1e-12) return std::nullopt;
  const double sum = 1 / ka + 1 / kb + 1 / kc;
  if (!(std::abs(sum) > 1e-12)) return std::nullopt;
  return (1 / sum) * ((1 / ka) * a + (1 / kb) * b + (1 / kc) * c);
}

}  // namespace lodeway::belief
