#pragma once
/// What parties walk by: the legs as the card lays them out, and the day's clock.
#include <limits>
#include <vector>

#include "lodeway/reckoning/judge/judge.hpp"

namespace lodeway::walkers {

using earth::GridPoint;

inline constexpr double never = std::numeric_limits<double>::infinity();

struct CardLeg {
  walking::Leg leg;
  /// Only what the card says is read: how the end is found, aim, count, how far past it. None of
  /// its chances is.
  reckoning::Weighed model;
  double predicted = 1;  ///< the closed form's certainty, for comparison alone
  double rest_within_min = 0, rest_after_min = 0;
  std::vector<GridPoint> escape;  ///< to safe ground; empty: none
};

struct Card {
  std::vector<CardLeg> legs;
  double start_min = 0;     ///< local clock, since midnight; may pass 24 h, like all below
  double dark_min = never;  ///< last light; never: it does not get dark, or is meant to be
  /// Who is not at the end of this leg by then goes back. -1: no such rule.
  double turn_round_min = never;
  int turn_round_leg = -1;
};

/// The legs as the judge lays them out; no rests, no escape routes, start at 0.
[[nodiscard]] Card card_of(const reckoning::Judge& judge, const walking::Way& way);

}  // namespace lodeway::walkers
