#pragma once
/// A ground made ready for laying out a training day: how far every place is from what may hurt,
/// and what can be used. Method and safety rules: docs/method/training-day.md
#include <memory>
#include <optional>

#include "lodeway/landmarks/fixes.hpp"
#include "lodeway/landmarks/surroundings.hpp"
#include "lodeway/reckoning/defaults.hpp"
#include "lodeway/walking/cover.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::learn {

/// All *practice*.
struct SafetyRules {
  double most_slope_deg = 30;     ///< nothing steeper within reach of a course
  double sigmas = 3;              ///< a novice's, across and along
  double more_m = 60;             ///< and so much more
  double planted_clear_m = 1000;  ///< where a wrong bearing is planted
  double within_m = 2000;         ///< of the place that the day begins at
  double off_road_m = 20;         ///< from main roads, roads of unknown traffic, railways
};

/// Which roads: all and railways, or without those that the map has as quiet.
enum class Roads : unsigned char { all, but_quiet };

/// Metres from every cell's centre to the nearest cell where `bad` is true, exact Euclidean
/// (Felzenszwalb & Huttenlocher 2012, Theory of Computing 8:415-428); 0 on such a cell; beyond the
/// raster everything is bad.
[[nodiscard]] terrain::Raster<float> distance_to(const terrain::Raster<std::uint8_t>& bad);

/// Keeps references to the ground, which must outlive it. 12 km square at 10 m: below 2 s.
class TrainingGround {
 public:
  explicit TrainingGround(const walking::Ground& ground, const SafetyRules& rules = {});

  [[nodiscard]] const walking::Ground& ground() const { return ground_; }
  [[nodiscard]] const SafetyRules& rules() const { return rules_; }
  [[nodiscard]] const landmarks::Fixes& fixes() const { return fixes_; }
  [[nodiscard]] const landmarks::Surroundings& surroundings() const { return surroundings_; }
  [[nodiscard]] const walking::Cover& cover() const { return cover_; }
  /// To ground that is barred, steeper than the rule, not known, or off the ground; metres, 0
  /// there.
  [[nodiscard]] double clear_m(earth::GridPoint p) const;
  /// A novice with the simplest compass on a clear day.
  [[nodiscard]] const reckoning::Errors& novice() const { return novice_; }
  /// The corridor of a straight leg: half its width at the end, and how far beyond the end.
  struct Corridor {
    double half_m = 0, beyond_m = 0;
  };
  [[nodiscard]] Corridor corridor(double length_m) const;
  /// The nearest road or railway, tunnels left out; nothing when none is within `most_m` metres.
  struct RoadNear {
    double distance_m = 0;
    std::size_t line = 0;  ///< of the ground's map
  };
  [[nodiscard]] std::optional<RoadNear> road_near(earth::GridPoint p, double most_m,
                                                  Roads which) const;
  [[nodiscard]] std::optional<double> to_road_m(earth::GridPoint p, double most_m,
                                                Roads which) const;
  /// One nearer than the rule.
  [[nodiscard]] bool by_road(earth::GridPoint p, Roads which = Roads::but_quiet) const {
    return to_road_m(p, rules_.off_road_m, which).has_value();
  }
  /// The same anywhere on a straight leg, from `from_m` on.
  [[nodiscard]] bool meets_road(earth::GridPoint from, earth::GridPoint to, double from_m = 0,
                                Roads which = Roads::but_quiet) const;
  /// Nothing that hurts within the corridor of this straight leg.
  [[nodiscard]] bool safe_leg(earth::GridPoint from, earth::GridPoint to) const;

 private:
  const walking::Ground& ground_;
  SafetyRules rules_;
  reckoning::Errors novice_;
  walking::Cover cover_;
  landmarks::Fixes fixes_;
  landmarks::Surroundings surroundings_;
  terrain::Raster<float> clear_;
};

}  // namespace lodeway::learn
