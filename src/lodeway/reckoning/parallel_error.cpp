#include "lodeway/reckoning/parallel_error.hpp"

#include <cmath>

#include "lodeway/numeric/normal.hpp"

namespace lodeway::reckoning {

double mistaken_for_target(const Decoy& d) {
  const double by_distance = d.along_sigma_m > 0 ? d.apart_m / d.along_sigma_m
                                                 : (d.apart_m == 0 ? 0.0 : 1e6);
  const double apart = std::hypot(by_distance, d.lie_apart_deg / d.lie_sigma_deg);
  if (apart <= 0) return d.looks_alike * d.prior_ratio / (1 + d.prior_ratio);
  const double late = d.along_sigma_m > 0 ? d.met_late_m / d.along_sigma_m * by_distance : 0.0;
  return d.looks_alike * numeric::normal_cdf(-(0.5 * apart - (std::log(d.prior_ratio) + late) / apart));
}

}  // namespace lodeway::reckoning
