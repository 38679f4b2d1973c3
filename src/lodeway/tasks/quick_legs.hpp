#pragma once
/// The figures of legs on a bearing, at once: while a leader moves an end on the map.
#include <memory>
#include <vector>

#include "lodeway/landmarks/fixes.hpp"
#include "lodeway/result/result.hpp"
#include "lodeway/trip/plan.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::tasks {

inline constexpr std::size_t most_quick_points = 6;

/// A straight line over the ground as a string laid on the map shows it: its figures whatever lies
/// under it, and where it lies over ground to keep off.
struct LaidString {
  trip::Plan plan;  ///< one leg, judged from a party that has just found itself at its start
  /// A piece that this party keeps off, from the first of `line` to its last.
  struct KeepOff {
    double from_m = 0, to_m = 0;
    std::string what;  ///< "a cliff", "ground over the slope limit"
    std::vector<earth::GridPoint> line;
  };
  std::vector<KeepOff> keep_off;
  /// Heights at even steps of the grid from start to end; NaN where none is known.
  std::vector<double> heights_m;
};

/// What a ground and a party hold ready for such questions: made once (a second or so on 144 km²),
/// asked by any number of threads. Refers to the ground, which must outlive it.
class QuickLegs {
 public:
  /// `fixes`: of this ground, made here when not given.
  /// Faults: as magnetic::field_at on the trip's date, at its first point or the ground's middle.
  [[nodiscard]] static Result<std::unique_ptr<QuickLegs>> make(
      const walking::Ground& ground, const trip::Trip& trip,
      std::shared_ptr<const landmarks::Fixes> fixes = nullptr);
  ~QuickLegs();

  /// A plan whose legs join the points, straight, judged from a party that has just found itself at
  /// the first; its clock begins at the trip's start. No ways off. Some milliseconds a leg.
  /// Faults: bad_input (fewer than 2 or more than `most_quick_points` points, two the same), no_way
  /// (what bars it, and where), outside_ground, as trip::make_plan.
  [[nodiscard]] Result<trip::Plan> legs(const std::vector<walking::Waypoint>& points) const;
  /// Ground to keep off is looked for every 5 m of the grid; at most 60 km.
  /// Faults: bad_input (the two are one, or farther), outside_ground, as trip::make_plan.
  [[nodiscard]] Result<LaidString> measure(walking::Waypoint from, walking::Waypoint to) const;

 private:
  struct Ready;
  explicit QuickLegs(std::unique_ptr<Ready> ready);
  std::unique_ptr<Ready> ready_;
};

}  // namespace lodeway::tasks
