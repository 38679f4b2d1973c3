#include "lodeway/walking/time_bands.hpp"

#include <cassert>
#include <cmath>

namespace lodeway::walking {

double nine_in_ten_minutes(std::span<const double> minutes, const TimeBands& bands) {
  double sum = 0;
  for (const double t : minutes) sum += t;
  if (sum <= 0) return 0;
  // The first two moments of the sum of the legs' log-normal times; then a log-normal of these.
  const double variance = bands.leg * bands.leg, mean = sum * std::exp(variance / 2);
  double squares = 0;
  for (std::size_t i = 0; i < minutes.size(); ++i) {
    double shared = variance;
    for (std::size_t j = i; j < minutes.size(); ++j) {
      squares += (j == i ? 1 : 2) * minutes[i] * minutes[j] * std::expm1(shared);
      shared *= bands.neighbours;
    }
  }
  squares *= std::exp(variance);
  const double of_sum = std::log1p(squares / (mean * mean));
  return mean * std::exp(-of_sum / 2 + nine_in_ten_z * std::hypot(bands.shared, std::sqrt(of_sum)));
}

}  // namespace lodeway::walking
