#pragma once
/// A party's figures are not known, only how far they may be off: certainty is the mean over the
/// parties that it may be. Method with a worked example: docs/method/learning.md.
#include <vector>

#include "lodeway/reckoning/defaults.hpp"
#include "lodeway/walking/party.hpp"

namespace lodeway::reckoning {

/// One that it may be: factors on its spreads, a shift (logit) of every chance that it has.
struct PossibleParty {
  double bearing = 1, distance = 1;
  double chance_shift = 0;
  double weight = 1;
};

/// A few that stand for all: sqrt(n) sigmas either way in each of the n things that are not known,
/// equal weights. Means of polynomials up to the third degree are exact (Stroud 1971,
/// E_n^r2 3-1). One
/// when all is known. What all legs share, compass and stride, is a spread over parties already.
[[nodiscard]] std::vector<PossibleParty> possible_parties(const walking::Doubt& doubt);

/// `errors` as this party has them: both parts of the bearing, both of the distance.
[[nodiscard]] Errors errors_of(const Errors& errors, const PossibleParty& party);

}  // namespace lodeway::reckoning
