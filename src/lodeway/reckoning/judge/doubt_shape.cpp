#include "lodeway/reckoning/judge/doubt_shape.hpp"

#include <cmath>
#include <numbers>

#include "lodeway/numeric/covariance.hpp"

namespace lodeway::reckoning {

namespace {

using earth::GridPoint;

GridPoint walked_to(const JudgedLeg& leg) {
  return leg.judged.needle ? leg.judged.needle->aim : leg.course.line.back();
}

/// What the leg before left of doubt in a direction; `fix_sigma_m` where the party knew its place.
double sigma_at_start(const JudgedLeg* before, double azimuth, double fix_sigma_m) {
  if (before == nullptr || before->judged.fix_at_end) return fix_sigma_m;
  return std::sqrt(std::fmax(before->judged.at_end.along(azimuth), 0.0));
}

}  // namespace

std::vector<GridPoint> end_ellipse(const JudgedLeg& leg) {
  constexpr int corners = 48;
  const auto axes = numeric::axes_of(leg.judged.at_end);
  if (!(axes.major > 0)) return {};
  const double k = std::sqrt(-2 * std::log(1 - ellipse_share));
  const GridPoint middle = walked_to(leg);
  const double s = std::sin(axes.azimuth), c = std::cos(axes.azimuth);
  std::vector<GridPoint> out;
  for (int i = 0; i < corners; ++i) {
    const double t = 2 * std::numbers::pi * i / corners;
    const double along = k * axes.major * std::cos(t), right = k * axes.minor * std::sin(t);
    out.push_back({middle.east_m + along * s + right * c, middle.north_m + along * c - right * s});
  }
  return out;
}

std::vector<GridPoint> ribbon(const JudgedLeg& leg, const JudgedLeg* before, double fix_sigma_m) {
  if (leg.course.kind != walking::LegKind::bearing) return {};
  const GridPoint a = leg.course.line.front(), b = walked_to(leg);
  const double east = b.east_m - a.east_m, north = b.north_m - a.north_m,
               length = std::hypot(east, north);
  if (!(length > 0)) return {};
  const double across = std::atan2(east, north) + std::numbers::pi / 2;
  const double at_start = sigma_at_start(before, across, fix_sigma_m);
  const double first = ribbon_sigmas * at_start, last = ribbon_sigmas * leg.judged.cross_sigma_m;
  const double re = north / length, rn = -east / length;  // to the right
  return {{a.east_m - first * re, a.north_m - first * rn},
          {b.east_m - last * re, b.north_m - last * rn},
          {b.east_m + last * re, b.north_m + last * rn},
          {a.east_m + first * re, a.north_m + first * rn}};
}

std::optional<Doubt> doubt_at(const JudgedLeg& leg, const JudgedLeg* before, double share,
                              double fix_sigma_m) {
  if (leg.course.line.size() < 2) return std::nullopt;
  const GridPoint a = leg.course.line.front(), b = walked_to(leg);
  const double azimuth = std::atan2(b.east_m - a.east_m, b.north_m - a.north_m);
  const double t = std::fmin(std::fmax(share, 0.0), 1.0);
  const auto between = [t](double from, double to) { return from + t * (to - from); };
  Doubt out;
  out.along_m = between(sigma_at_start(before, azimuth, fix_sigma_m), leg.judged.along_sigma_m);
  if (leg.course.kind == walking::LegKind::bearing) {
    out.cross_m = between(sigma_at_start(before, azimuth + std::numbers::pi / 2, fix_sigma_m),
                          leg.judged.cross_sigma_m);
  }
  return out;
}

}  // namespace lodeway::reckoning
