#pragma once
/// The days of parties that walk a way and are never put back: what the clock of a plan rests on.
/// Method: docs/method/schedule.md
#include <memory>
#include <vector>

#include "lodeway/reckoning/judge/escape.hpp"
#include "lodeway/result/result.hpp"
#include "lodeway/route/choose/way_finder.hpp"
#include "lodeway/sight/cue_planes.hpp"
#include "lodeway/trip/plan.hpp"
#include "lodeway/walkers/walked.hpp"

namespace lodeway::tasks {

/// So many walk each way: the rank of the nine-in-ten party is then good to 1.3 in 100 (one
/// standard error).
inline constexpr std::size_t days_walked = 500;

/// The world of some ways, made once for all of them. Refers to what it is made of.
class DayWalk {
 public:
  /// `ways`: all that will be walked. Some 0.05 s.
  DayWalk(std::shared_ptr<const route::JudgedOn> on,
          const std::vector<const reckoning::JudgedWay*>& ways, numeric::Parallel& parallel);
  /// The same ways on another sort of day: what is still as it was `before` is not made again. The
  /// answers are those of the other constructor.
  DayWalk(const DayWalk& before, std::shared_ptr<const route::JudgedOn> on,
          const std::vector<const reckoning::JudgedWay*>& ways, numeric::Parallel& parallel);
  /// `escapes`: a list a leg, or none. The same seed as `rehearse` has without one. No turn-round
  /// rule: that is made of these days. Sets Judged::in_the_end of the way's legs, and raises
  /// their hazard to the share that sets foot on ground to keep off, the lost among them.
  /// Faults: as walkers::walk, the way then as it was.
  [[nodiscard]] Result<walking::WalkedDays> walk(const trip::Trip& trip, reckoning::JudgedWay& way,
                                                 const route::EscapesOfWay& escapes,
                                                 const trip::Daylight& daylight,
                                                 numeric::Parallel& parallel,
                                                 std::size_t parties = days_walked) const;

 private:
  std::shared_ptr<const route::JudgedOn> on_;
  std::shared_ptr<const sight::CuePlanes> planes_;
  walkers::World world_;
};

/// What parties of a trip walk by: the legs as judged, rests, clock and last light; no turn-round
/// rule, no escape routes yet.
[[nodiscard]] walkers::Card day_card(const reckoning::Judge& judge, const trip::Trip& trip,
                                     const reckoning::JudgedWay& way,
                                     const trip::Daylight& daylight);

/// The ground and sights that walkers of these lines look at: 3 km about them; in clear air with
/// what the named tops near by are seen from.
[[nodiscard]] sight::CuePlanes planes_for(
    const walking::Ground& ground, const walking::Cover& cover, const walking::Party& party,
    const std::vector<const std::vector<earth::GridPoint>*>& lines, numeric::Parallel& parallel);

}  // namespace lodeway::tasks
