#include "lodeway/reckoning/hazard.hpp"

#include <cmath>

#include "lodeway/numeric/normal.hpp"
#include "lodeway/reckoning/line_target.hpp"

namespace lodeway::reckoning {

double hazard_probability(const Forbidden& forbidden, const Walk& walk) {
  constexpr int rays = 80;  // a tenth of a sigma apart, out to four
  const terrain::Frame& frame = forbidden.frame();
  if (forbidden.empty() || walk.length_m <= 0) return 0;
  const double step = 0.5 * frame.cell_m;
  const double farthest = walk.length_m + walk.beyond_m + 4 * walk.along_sigma_m;
  double sum = 0;
  for (int i = 0; i < rays; ++i) {
    const double low = -4 + 8.0 * i / rays, high = low + 8.0 / rays, z = 0.5 * (low + high);
    const double angle = walk.bearing + z * walk.angle_sigma;
    const double s = std::sin(angle), c = std::cos(angle);
    const bool stops = walk.seen_from_m <= 0 ||
                       std::abs(z) * walk.angle_sigma * walk.length_m < walk.seen_from_m;
    double last = stops ? walk.length_m : farthest;
    if (!walk.stopped_by.empty()) last = cast_ray(walk.from, angle, walk.stopped_by, farthest).distance_m;
    for (double d = 0; d <= last; d += step) {
      const earth::GridPoint p{walk.from.east_m + d * s, walk.from.north_m + d * c};
      const auto [row, col] = frame.cell_of(p);
      if (!frame.holds(row, col) || forbidden[row, col] == 0) continue;
      const double still = d <= walk.length_m || walk.along_sigma_m <= 0
                               ? 1.0
                               : numeric::normal_cdf((walk.length_m + walk.beyond_m - d) /
                                                     walk.along_sigma_m);
      sum += still * (numeric::normal_cdf(high) - numeric::normal_cdf(low));
      break;
    }
  }
  return std::fmin(sum, 1.0);
}

}  // namespace lodeway::reckoning
