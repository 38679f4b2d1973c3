#pragma once
/// Parallel error: taking one of two like things for the other.

namespace lodeway::reckoning {

/// What sets a decoy apart from the target, as the party meets it.
struct Decoy {
  double apart_m = 0;         ///< along the leg, between decoy and target
  double along_sigma_m = 0;   ///< of the distance, where the decoy is met
  double lie_apart_deg = 0;   ///< difference of the two lines' directions, 0 to 90
  double lie_sigma_deg = 10;  ///< how well a direction is read off
  double looks_alike = 1;     ///< chance that its kind passes for the target's: 1 for the same kind
  double prior_ratio =
      1;  ///< how much likelier the party thinks the target than the decoy beforehand
};

/// P(the decoy is taken for the target) by a party that has counted this much more than planned
/// when it comes to it: by the likelier of the two, the lie read off with its own error. Averaged
/// over counts within +- `half_m` of that, so that it may be summed in steps (judge_decoys.cpp).
/// Over all counts, normal with along_sigma_m, and with d^2 = (apart / sigma)^2 + (lie /
/// lie_sigma)^2 it comes to looks_alike * Phi(-(d/2 - ln(prior_ratio) / d)); for equal priors and
/// one lie: Phi(-apart / (2 sigma)). Source: likelihood-ratio test of two normals (Neyman & Pearson
/// 1933); docs/method/parallel-error.md.
[[nodiscard]] double taken_at_count(const Decoy& decoy, double counted_more_m, double half_m = 0);

}  // namespace lodeway::reckoning
