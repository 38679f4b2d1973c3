#pragma once
/// How far real minutes lie from a time model's: two log-normal bands. Method and the seven walks
/// they rest on: docs/method/learning-from-tracks.md

namespace lodeway::walking {

enum class TimeModel : unsigned char {
  naismith_langmuir,
  tobler,
  swiss,
  din_33466,
  irmischer_clarke
};

/// ln(real / model) = ln(centre) + shared + leg: `shared` is one draw for a party's day, `leg` a
/// new one for each leg; neighbouring legs correlate some 0.5, which is in neither.
struct TimeBands {
  double centre = 1;     ///< factor on the model's minutes
  double shared = 0.20;  ///< one sigma of the logarithm, party and day
  double leg = 0.27;     ///< one sigma of the logarithm, each leg
};

/// Of a party of which nothing is known, 4 km/h on the flat. From seven walks on good and rough
/// ground, ground factor 1 (15 h): an sd from so few is known to x 0.7 to 1.9 only. DIN and
/// Irmischer & Clarke from the same walks, without a second judge.
[[nodiscard]] constexpr TimeBands default_bands(TimeModel model) {
  switch (model) {
    case TimeModel::naismith_langmuir:
      return {1.15, 0.20, 0.32};
    case TimeModel::tobler:
      return {1.05, 0.20, 0.27};
    case TimeModel::swiss:
      return {1.07, 0.20, 0.27};
    case TimeModel::din_33466:
      return {0.90, 0.20, 0.32};
    case TimeModel::irmischer_clarke:
      return {1.25, 0.26, 0.32};
  }
  return {};
}

}  // namespace lodeway::walking
