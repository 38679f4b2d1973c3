#pragma once
/// Quantiles of the distributions that measured people follow, through a numerical library.
/// Accuracy: 1e-10 relative. p lies within (0, 1), all parameters above 0 (asserted).

namespace lodeway::learn {

/// Beta(a, b): of a chance.
[[nodiscard]] double beta_quantile(double a, double b, double p);
/// Gamma with this shape and rate (mean shape / rate): of a rate.
[[nodiscard]] double gamma_quantile(double shape, double rate, double p);
/// Chi-squared: of a sum of squared errors; degrees of freedom need not be whole.
[[nodiscard]] double chi_squared_quantile(double degrees, double p);
/// P(T <= t) of Student's distribution: of an error whose spread itself is only estimated.
[[nodiscard]] double student_cdf(double degrees, double t);
[[nodiscard]] double student_quantile(double degrees, double p);

}  // namespace lodeway::learn
