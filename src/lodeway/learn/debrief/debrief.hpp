#pragma once
/// A walked track against the plan, leg by leg. Method with worked figures: docs/method/debrief.md
#include <optional>
#include <string>
#include <vector>

#include "lodeway/earth/place.hpp"
#include "lodeway/mapdata/kind.hpp"
#include "lodeway/walking/time_bands.hpp"

namespace lodeway::learn {

using earth::GridPoint;

/// What the debrief needs of one leg.
struct DebriefLeg {
  std::string from, to;
  std::vector<GridPoint> line;                ///< as planned, two points or more
  bool along = false;                         ///< follows a line of the map
  mapdata::Kind kind = mapdata::Kind::other;  ///< of that line
  double minutes = 0;                         ///< the model's, before the bands
  double cross_sigma_m = 0;                   ///< off lines: how far it may honestly lie beside
  struct Tick {
    std::string what;
    mapdata::Kind kind = mapdata::Kind::other;
    GridPoint at;
    double at_m = 0, sight_m = 50;
  };
  std::vector<Tick> ticks;
};

struct WalkedPoint {
  GridPoint at;
  double time_s = 0;  ///< rising
};

/// All *practice* but the false alarms they give, which are measured: docs/results.md.
struct DebriefRules {
  double left_m = 45, left_for_m = 50;  ///< over this far beside the way, for so long
  double back_to_m = 20;      ///< it was left at the last, and regained at the first, place so near
  double step_m = 20;         ///< of the track as it is matched
  double most_away_m = 1500;  ///< a track that is nowhere nearer is of another ground
  double stop_m = 15, stop_s = 120;
};

struct LeftTheWay {
  double at_m = 0;  ///< along the leg, where it was left
  GridPoint at;
  double furthest_m = 0;             ///< beside the way
  std::optional<double> regained_m;  ///< walked before it was met again; absent: not on this leg
  std::optional<GridPoint> regained_at;
};

struct LegDebrief {
  bool walked = false;  ///< false: the track does not reach it
  double minutes = 0;   ///< from the leg's start to its end, stops taken out
  double standing_min = 0;
  int stops = 0;
  double low_min = 0, middle_min = 0, high_min = 0;  ///< the 80 in 100 band
  bool inside = false;
  double across_p50_m = 0, across_p95_m = 0;  ///< beside the way, either side
  std::vector<LeftTheWay> left;
  std::vector<std::size_t> passed;  ///< ticks that were passed within sight
  double on_line_km = 0;            ///< followed along the map's line

  /// Sets low, middle and high from the model's minutes: centre, and e^(1.2816 sd) either way.
  void set_band(double model_minutes, const walking::TimeBands& bands);
};

struct Debrief {
  std::vector<LegDebrief> legs;
  int judged = 0, inside = 0;  ///< legs with a band, and those within it
  /// Of ten judged legs five or fewer within their band happen by chance in 3 of 100 days
  /// (binomial, 0.8): then the figures do not fit this party.
  [[nodiscard]] bool figures_do_not_fit() const;
};

/// P(at most `hits` of `trials`) at chance p, each alike.
[[nodiscard]] double binomial_at_most(int hits, int trials, double p);

/// Matches the track along the plan so that it never jumps back by more than it walked (dynamic
/// programming over places of the plan 20 m apart), then measures each leg. Legs that the track
/// does not reach are not walked. 20 km of way and a day's track: below 0.1 s.
[[nodiscard]] Debrief debrief(const std::vector<DebriefLeg>& plan,
                              const std::vector<WalkedPoint>& track,
                              const walking::TimeBands& bands, const DebriefRules& rules = {});

}  // namespace lodeway::learn
