#pragma once
/// Probabilities of a normal error in the plane.

#include "lodeway/numeric/covariance.hpp"

namespace lodeway::numeric {

/// P(|z| < r) for z normal with this mean and covariance: the chance to lie in a disc about the
/// origin. Closed in one axis, Gauss-Legendre in the other. Accuracy 1e-10 absolute; sigmas of 0
/// are allowed. With equal axes it is the Rice distribution (Rice 1945), with mean 0 the Rayleigh
/// one.
[[nodiscard]] double disc_probability(const Covariance& c, double mean_x, double mean_y, double r);

/// P(X < a and Y < b), standard normal with correlation rho, |rho| <= 1.
/// Source: Drezner & Wesolowsky 1990, J. Stat. Comput. Simul. 35:101-107 (the integral over rho),
/// here with Gauss-Legendre in the arc sine of rho. Accuracy 1e-10 absolute.
[[nodiscard]] double bivariate_cdf(double a, double b, double rho);

}  // namespace lodeway::numeric
