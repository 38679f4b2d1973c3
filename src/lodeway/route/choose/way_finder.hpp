#pragma once
/// The way that a party can keep: named choices from the front of time against certainty.
/// Method: docs/method/choosing-the-way.md
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "lodeway/landmarks/fixes.hpp"
#include "lodeway/landmarks/surroundings.hpp"
#include "lodeway/numeric/parallel.hpp"
#include "lodeway/reckoning/judge/judged.hpp"
#include "lodeway/reckoning/rehearsal/rehearsed_times.hpp"
#include "lodeway/route/front/front.hpp"
#include "lodeway/route/front/wishes.hpp"
#include "lodeway/route/legs/plan_way.hpp"
#include "lodeway/units/text.hpp"

namespace lodeway::route {

/// One of the ways to choose from: judged, with ways off.
struct NamedWay {
  walking::Choice choice = walking::Choice::quick;
  reckoning::JudgedWay way;                              ///< its name in the plan's language
  std::vector<std::optional<walking::WayOff>> ways_off;  ///< one a leg, once the way is chosen
  double hazard = 0;                                     ///< 1 - product of (1 - each leg's)
  double minutes = 0;                                    ///< walking
  double minutes_slow = 0;  ///< nine in ten take less, recovery by its mean
  double expected_min = 0;  ///< walking, and recovery by the chance that it is needed
  /// Share of the simulated parties that kept every leg, and its standard error.
  double rehearsed = 0, rehearsed_error = 0;
  reckoning::RehearsedTimes times;  ///< of the same parties
};

struct Ways {
  std::vector<NamedWay> ways;  ///< quickest first; one at least
  std::vector<std::string>
      remarks;                 ///< a sentence each: why fewer than three, which limit is not met
  std::vector<LegCost> front;  ///< every way that none other beats, as the search counts
};

class Lines;
class PartyGrounds;
class SinceTick;

/// What a ground holds for finding ways whoever walks: made once, asked by any number of threads.
/// Refers to the ground, which must outlive it. What the last few parties of one pace and one set
/// of bars met is kept for when one like them asks again (party_ground.hpp says how much memory
/// that takes); no answer rests on who asked before.
class WayFinder {
 public:
  explicit WayFinder(const walking::Ground& ground);
  WayFinder(WayFinder&&) noexcept;
  ~WayFinder();

  /// Up to three ways, quick, middle and sure, by the rule of rule.hpp, or fewer with the reason
  /// among the remarks. Stretches that the leader sets out stay as they are. Where no way keeps
  /// every limit the one that fewest leave for ground to keep off is given, and the remarks say
  /// which limit fails, where and by how much. The same answer on every run and however many
  /// threads. Faults: as plan_way where no way leads at all; cancelled.
  [[nodiscard]] Result<Ways> find(const walking::Request& request, const Wishes& wishes,
                                  numeric::Parallel& parallel, const GoOn& go_on = {}) const;

  /// Why the party goes leg `leg` (index) of a way found with this choice, and what the next best
  /// would be, in the plan's language: a few sentences with figures. The way without the leg is
  /// searched for. Faults: bad_input (no such leg), as `find`.
  [[nodiscard]] Result<std::string> explain(const walking::Request& request, const Wishes& wishes,
                                            const reckoning::JudgedWay& way, walking::Choice choice,
                                            std::size_t leg, numeric::Parallel& parallel) const;

  [[nodiscard]] const walking::Ground& ground() const { return ground_; }
  [[nodiscard]] const std::shared_ptr<const landmarks::Fixes>& fixes() const;
  [[nodiscard]] const landmarks::Surroundings& around() const { return around_; }

 private:
  const walking::Ground& ground_;
  landmarks::Surroundings around_;
  std::unique_ptr<const Lines> lines_;
  std::unique_ptr<const SinceTick> since_;
  std::unique_ptr<PartyGrounds> met_by_;
};

}  // namespace lodeway::route
