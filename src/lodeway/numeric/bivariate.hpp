#pragma once
/// Probabilities of a normal error in the plane.

#include "lodeway/numeric/covariance.hpp"

namespace lodeway::numeric {

/// P(|z| < r) for z normal with this mean and covariance: the chance to lie in a disc about the
/// origin. Closed in one axis, Gauss-Legendre in the other. Accuracy 1e-10 absolute; sigmas of 0
/// are allowed. With equal axes it is the Rice distribution (Rice 1945), with mean 0 the Rayleigh
/// one.
[[nodiscard]] double disc_probability(const Covariance& c, double mean_x, double mean_y, double r);

}  // namespace lodeway::numeric
