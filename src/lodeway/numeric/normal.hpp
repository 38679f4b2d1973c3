#pragma once
/// The normal distribution.

namespace lodeway::numeric {

/// P(Z <= z). Accuracy 1e-15 absolute.
[[nodiscard]] double normal_cdf(double z);
[[nodiscard]] double normal_density(double z);
/// z with P(Z <= z) = p, 0 < p < 1; +-infinity at the ends, NaN outside.
/// Source: Wichura 1988, Applied Statistics 37:477-484, algorithm AS 241 (PPND16). Relative
/// accuracy 1e-15.
[[nodiscard]] double normal_quantile(double p);

}  // namespace lodeway::numeric
