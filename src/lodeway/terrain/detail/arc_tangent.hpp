#pragma once
/// An arc tangent that loops can vectorise.
#include <cmath>

namespace lodeway::terrain::detail {

/// atan(s), radians, within 1e-6 for any finite |s| < 1e18: the angle halved three times, then its
/// series (Abramowitz & Stegun 4.4.42; what is left out is below t^11/11 with t = tan of an eighth
/// of a right angle or less). No calls, no branches. NaN stays NaN; an infinite s gives NaN.
inline float arc_tangent(float s) {
  float t = s / (1.0F + std::sqrt(1.0F + s * s));
  t = t / (1.0F + std::sqrt(1.0F + t * t));
  t = t / (1.0F + std::sqrt(1.0F + t * t));
  const float q = t * t;
  return 8.0F * t * (1.0F - q * (1.0F / 3 - q * (0.2F - q * (1.0F / 7 - q * (1.0F / 9)))));
}

}  // namespace lodeway::terrain::detail
