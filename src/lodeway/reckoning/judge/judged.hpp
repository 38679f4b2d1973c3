#pragma once
/// What a judge says of a leg: how it is walked, how sure it is, what to do when it fails.
#include <optional>
#include <string>
#include <vector>

#include "lodeway/numeric/covariance.hpp"
#include "lodeway/walking/leg.hpp"

namespace lodeway::reckoning {

/// The part of a leg that is walked on the needle: to its end, or to the aim beside it.
struct NeedlePart {
  earth::GridPoint aim;
  units::GridBearing bearing;  ///< start to aim
  double map_m = 0;            ///< by the grid, as a ruler on the map has it
  double length_m = 0;         ///< on the ground
  double double_paces = 0, minutes = 0;
};

/// After an aim to one side: the line met, then along it to the end.
struct AfterAim {
  mapdata::Side aimed_to = mapdata::Side::none;  ///< the side of the end; the turn is the other
  std::string line;                              ///< what is met, in the plan's language
  double map_m = 0, length_m = 0;                ///< as NeedlePart has them, along the line
  double double_paces = 0, minutes = 0;          ///< at the leg's own pace
};

/// Of the chance to keep a leg at the first try: what a third off in the table of chances gives.
struct CertaintyBand {
  double low = 0, high = 1;
};

struct Judged {
  std::optional<NeedlePart> needle;  ///< of a leg on a bearing
  std::optional<AfterAim> after;     ///< of a leg that is aimed off
  double length_m = 0;               ///< on the ground, as walked: both parts, or the handrail
  double minutes = 0, minutes_slow = 0;  ///< the same
  double certainty = 0;  ///< probability that the party is where it believes, at the end
  std::optional<CertaintyBand> band;  ///< of that; of legs of a way to choose from
  /// Share of parties that ended it there in the end, of those who set out on it: some went wrong,
  /// noticed and mended it (walkers); where they walked.
  std::optional<double> in_the_end;
  double cross_sigma_m = 0, along_sigma_m = 0;
  std::string confusable;  ///< what could be taken for the end; empty: nothing found
  double confusable_probability = 0;
  double hazard_probability = 0;  ///< of setting foot on forbidden ground
  double recovery_minutes = 0;    ///< expected, when it fails
  bool fix_at_end = true;         ///< false: a dog-leg's turn, nothing to see
  std::string if_lost;            ///< what to do, one sentence
  numeric::Covariance at_end;     ///< of the place at the end, x east, y north, square metres
};

/// A leg with its judgement.
struct JudgedLeg : walking::Leg {
  Judged judged;
};

struct JudgedWay {
  std::string name;
  std::vector<JudgedLeg> legs;
  double certainty = 1;  ///< product of the legs'
};

/// The same way without its judgement.
[[nodiscard]] inline walking::Way plain(const JudgedWay& way) {
  return {way.name, {way.legs.begin(), way.legs.end()}};
}

}  // namespace lodeway::reckoning
