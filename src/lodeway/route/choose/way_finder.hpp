#pragma once
/// The way that a party can keep: named choices from the front of time against certainty.
/// Method: docs/method/choosing-the-way.md
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "lodeway/landmarks/fixes.hpp"
#include "lodeway/numeric/parallel.hpp"
#include "lodeway/reckoning/judge/judge.hpp"
#include "lodeway/route/escape/escape_routes.hpp"
#include "lodeway/route/front/front.hpp"
#include "lodeway/route/front/wishes.hpp"
#include "lodeway/route/legs/plan_way.hpp"
#include "lodeway/units/text.hpp"

namespace lodeway::route {

/// One of the ways to choose from: judged, with its escape routes.
struct NamedWay {
  walking::Choice choice = walking::Choice::quick;
  reckoning::JudgedWay way;  ///< its name in the plan's language
  EscapesOfWay escapes;      ///< once the way is chosen
  double hazard = 0;         ///< 1 - product of (1 - each leg's)
  double minutes = 0;                                    ///< walking
  double minutes_slow = 0;  ///< nine in ten take less, recovery by its mean
  double expected_min = 0;  ///< walking, and recovery by the chance that it is needed
  double wading_min = 0;    ///< what the choice counts for water to wade (wades.hpp)
  /// The way's certainty averaged over what is not known of the party; set of named ways only.
  double averaged = 0;
  /// Share of the simulated parties that kept every leg, and its standard error.
  double rehearsed = 0, rehearsed_error = 0;
};

struct LocalGround;

/// What ways were judged by, for who lets parties walk them. May outlive the finder's answers, not
/// its ground.
class JudgedOn {
 public:
  JudgedOn(std::shared_ptr<const LocalGround> local, std::shared_ptr<const walking::Cover> cover,
           reckoning::Judge judge)
      : local_(std::move(local)), cover_(std::move(cover)), judge_(std::move(judge)) {}
  [[nodiscard]] const walking::Ground& ground() const;
  [[nodiscard]] const walking::Cover& cover() const { return *cover_; }
  [[nodiscard]] const reckoning::Judge& judge() const { return judge_; }

 private:
  std::shared_ptr<const LocalGround> local_;
  std::shared_ptr<const walking::Cover> cover_;
  reckoning::Judge judge_;
};

/// A way in other conditions than it was found for.
struct JudgedOtherwise {
  std::vector<reckoning::JudgedWay> ways;
  std::shared_ptr<const JudgedOn> on;
};

struct Ways {
  std::vector<NamedWay> ways;  ///< quickest first; one at least
  std::vector<std::string>
      remarks;                 ///< a sentence each: why fewer than three, which limit is not met
  std::shared_ptr<const JudgedOn> on;  ///< what they were judged by
  std::vector<LegCost> front;  ///< every way that none other beats, as the search counts
  /// The ground is a piece of a larger one, and what lies beyond it could change the answer.
  bool beyond_piece = false;
};

class LocalGrounds;
struct Workshop;

/// What a ground holds for finding ways whoever walks: asked by any number of threads. Refers to
/// the ground, which must outlive it. Of a large ground only the part that a trip could touch
/// (reach.hpp) is looked at, and made ready when it is first asked for; the last two parts are
/// kept. What the last few parties of one pace and one set of bars met is kept for when one like
/// them asks again (party_ground.hpp says how much memory that takes); no answer rests on who asked
/// before.
class WayFinder {
 public:
  /// `whole`: the frame of the ground that this one is a piece of (walking/piece.hpp); else its
  /// own.
  explicit WayFinder(const walking::Ground& ground,
                     const std::optional<terrain::Frame>& whole = std::nullopt);
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

  /// Ways that were found for `planned` when the party or the day is otherwise (`changed`, the same
  /// points): the same legs, what is seen on them, their times and how sure they are told anew. Of
  /// `planned` and `changed` all may differ but the ground. The order is that of `ways`; the certainty of each is averaged, as NamedWay::averaged.
  [[nodiscard]] JudgedOtherwise judged_otherwise(
      const walking::Request& planned, const walking::Request& changed, const Wishes& wishes,
      const std::vector<const reckoning::JudgedWay*>& ways, numeric::Parallel& parallel) const;

  [[nodiscard]] const walking::Ground& ground() const { return ground_; }
  /// Of the whole ground.
  [[nodiscard]] std::shared_ptr<const landmarks::Fixes> fixes() const;

 private:
  [[nodiscard]] Result<Ways> find_on(const std::shared_ptr<const LocalGround>& part, const walking::Request& request,
                                     const Wishes& wishes, numeric::Parallel& parallel,
                                     const GoOn& go_on) const;
  /// The escape routes of these ways into `out`, from a wider part of the ground where they may
  /// lead out of this one; false where even the widest that there is may be too small.
  [[nodiscard]] bool find_escapes(const LocalGround& local, const Workshop& shop,
                                  const walking::Request& request, const Wishes& wishes,
                                  numeric::Parallel& parallel,
                                  const std::vector<const reckoning::JudgedWay*>& ways,
                                  const std::function<bool()>& go_on,
                                  std::vector<EscapesOfWay>& out) const;
  [[nodiscard]] std::shared_ptr<const LocalGround> part_for(const walking::Request& request,
                                                            double times) const;
  /// The part in which all of these ways lie.
  [[nodiscard]] std::shared_ptr<const LocalGround> part_holding(
      const walking::Request& request, const std::vector<const reckoning::JudgedWay*>& ways) const;
  static constexpr double wider_times = 4;  ///< where a part of the ground was too small
  const walking::Ground& ground_;
  terrain::Frame whole_;
  std::unique_ptr<const LocalGrounds> parts_;
};

}  // namespace lodeway::route
