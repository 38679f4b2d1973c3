#pragma once
/// How sure is each leg of a way, and is it better aimed off than straight at its end? Method, assumptions and what is left out:
/// docs/method/ends-of-legs.md.
#include "lodeway/reckoning/ends/aimed_leg.hpp"
#include "lodeway/reckoning/judge/hazard.hpp"
#include "lodeway/reckoning/judge/judged.hpp"
#include "lodeway/reckoning/judge/leg_model.hpp"
#include "lodeway/reckoning/judge/possible_party.hpp"
#include "lodeway/walking/cover.hpp"
#include "lodeway/walking/request.hpp"

namespace lodeway::reckoning {

/// Cells that the party may not enter, voids and the file's edge apart (those are said elsewhere).
[[nodiscard]] Forbidden forbidden_of(const walking::Cover& cover);

/// What a planner weighs a leg by.
struct LegFigures {
  double certainty = 0;           ///< that the party is where it believes, when the leg ends
  double hazard_probability = 0;  ///< of setting foot on forbidden ground
  double minutes = 0;             ///< walking, when all goes well
  double recovery_minutes = 0;    ///< expected, when it does not
  double expected_minutes = 0;    ///< minutes + (1 - certainty) recovery_minutes
  bool fix_at_end =
      true;  ///< false: a turn, or an end by the count; `carried` is more than a fix's
  GridPoint aim;         ///< where the needle points to; the leg's end when not aimed off
  double aim_off_m = 0;  ///< along the line met, from the aim to the end
  Drift carried;         ///< what the next leg starts with
};

/// Has a leg the same figures with either of what is carried to it? One along a line is kept and
/// ended by the line: only the arm that one came by counts there, and on the needle only the rest.
[[nodiscard]] bool comes_alike(const walking::Leg& leg, Drift a, Drift b);

/// Every const function may be called from several threads at once.
class Judge {
 public:
  /// Keeps a reference to the ground. `declination_sigma_deg`: one sigma, shared by all legs.
  /// `fixes`: of this ground, found here when not given.
  Judge(const walking::Ground& ground, const walking::Party& party, Forbidden forbidden,
        double declination_sigma_deg, Habits habits = {},
        std::shared_ptr<const landmarks::Fixes> fixes = nullptr);

  /// `hazards`: of the barred cells, where they are at hand.
  Judge(const walking::Ground& ground, const walking::Party& party, double declination_sigma_deg,
        Habits habits, std::shared_ptr<const HazardGround> hazards,
        std::shared_ptr<const landmarks::Fixes> fixes = nullptr,
        std::shared_ptr<const TakenLines> taken = nullptr);

  /// A way may not end at a turn: there the party is where it believes when it stands within
  /// Habits::near_enough_m of the place. Other ends are given back as they are.
  [[nodiscard]] Weighed as_end_of_way(const walking::Leg& leg, Weighed model) const;
  /// The figures of `weigh` for a planner. Read of the leg: course (its ends' names apart),
  /// figures' length and minutes (0: by the ground factor), ticks, stop. A hazard that few tracks show to be under 0.01 or over 0.3 is not
  /// worked out finer. Some 0.05 to 0.5 ms; from any thread.
  [[nodiscard]] LegFigures assess(const walking::Leg& leg, const Drift& carried) const;
  /// Everything that the figures were worked out from; `carried` goes on to the leg's end.
  [[nodiscard]] Weighed weigh(const walking::Leg& leg, Drift& carried) const {
    return weigh(leg, carried, false);
  }
  /// The chance that a party of which no more is known than Party::doubt has it keeps every leg:
  /// the mean over `possible_parties`, each walking as the card has it, by its own figures. Some
  /// seven times as long as `Teller::judged` without hazard.
  [[nodiscard]] double averaged_certainty(const walking::Way& way) const;
  /// How far each leg's certainty moves when every chance of failing in the table is a third more
  /// (4/3) or a third less (3/4) than it says, and gross errors with it; walked as the card has it.
  [[nodiscard]] std::vector<CertaintyBand> bands(const walking::Way& way) const;
  /// The error of a party that has just found itself.
  [[nodiscard]] Drift at_fix() const;

  [[nodiscard]] const Errors& errors() const { return errors_; }
  [[nodiscard]] const Habits& habits() const { return habits_; }
  [[nodiscard]] const Forbidden& forbidden() const { return hazards_->cells(); }
  [[nodiscard]] const HazardGround& hazards() const { return *hazards_; }
  [[nodiscard]] const Guides& guides() const { return *guides_; }
  [[nodiscard]] const walking::Party& party() const { return party_; }
  [[nodiscard]] double declination_sigma() const { return declination_sigma_; }

 private:
  /// A leg on a bearing, walked straight at its end.
  struct SetOut {
    GridPoint from, to;
    units::GridBearing bearing = {};
    double length_m = 0;
    OnNeedle needle = {};
    LegAxes spread = {};
    numeric::Covariance at_end = {};
    double newly_wrong = 0;  ///< this bearing is set far wrong, and none before it was
    /// Right on this bearing, wrong on one to the turn before it, `from_fix_m` from the last fix.
    double wrong_to_turn = 0, from_fix_m = 0;
    Drift carried;
  };
  /// An end, and how often it is found where nothing is like it and no bearing far wrong.
  struct Found {
    Approach way;
    double certainty = 0;
  };
  struct Decoys {
    std::vector<DecoyPlace> places;
    double probability = 0;  ///< of taking any of them for the end
  };

  // A leg is weighed in steps: set out, find its end, sort out what is like it; then hazard and
  // recovery. `card`: how it is walked, where that is settled; null: as is surest.
  [[nodiscard]] Weighed weigh(const walking::Leg& leg, Drift& carried, bool roughly) const;
  [[nodiscard]] LegModel kept(const walking::Leg& leg, Drift& carried, const LegModel* card) const;
  [[nodiscard]] SetOut set_out(const walking::Leg& leg, const Drift& carried) const;
  [[nodiscard]] Found surest_end(const walking::Leg& leg, const SetOut& start) const;
  [[nodiscard]] Found end_by_card(const walking::Leg& leg, const SetOut& start,
                                  const End& card) const;
  [[nodiscard]] Found straight_end(const SetOut& start, const std::optional<Mark>& mark,
                                   double beyond_m) const;
  [[nodiscard]] Found line_end(const walking::Leg& leg, const SetOut& start,
                               const std::optional<Mark>& mark, const PlaceOnLine& place) const;
  [[nodiscard]] static Found on_line(const SetOut& start, const PlaceOnLine& place,
                                     const std::optional<Mark>& mark, const AimedLeg& aimed,
                                     double window_m);
  [[nodiscard]] bool line_clear(const SetOut& start, const PlaceOnLine& place,
                                GridPoint aim) const;
  [[nodiscard]] Found line_end_by_card(const walking::Leg& leg, const SetOut& start,
                                       const std::optional<Mark>& mark, const AtLine& card) const;
  [[nodiscard]] Found handrail_end(const walking::Leg& leg,
                                   std::optional<GridPoint> came_by, const LegModel* card) const;
  [[nodiscard]] Decoys decoys(const walking::Leg& leg, const Approach& way) const;
  [[nodiscard]] Decoys line_decoys(const Approach& way, const AtLine& end) const;
  [[nodiscard]] Decoys mark_decoys(const Approach& way, const AtMark& end) const;
  [[nodiscard]] Decoys handrail_decoys(const walking::Leg& leg, const Approach& way,
                                       const Mark& mark) const;
  [[nodiscard]] double certainty(const SetOut& start, const Found& found, double mistaken) const;
  [[nodiscard]] double hazard(const Approach& way, bool roughly) const;
  [[nodiscard]] double recovery_minutes(const walking::Leg& leg, const LegModel& model) const;
  [[nodiscard]] double walking_minutes(const walking::Leg& leg, const Approach& way) const;
  /// What the next leg starts with.
  [[nodiscard]] Drift carried_on(const walking::Leg& leg, const Approach& way, Drift carried) const;
  [[nodiscard]] LegModel ended_by_count(LegModel model) const;
  [[nodiscard]] std::optional<Mark> known(std::optional<Mark> mark) const;
  [[nodiscard]] LineEnd line_asked(const SetOut& start, const std::optional<Mark>& mark,
                                   const PlaceOnLine& place) const;
  [[nodiscard]] AimCosts line_costs(const walking::Leg& leg, const PlaceOnLine& place) const;

  [[nodiscard]] Judge of(const PossibleParty& party) const;
  [[nodiscard]] Judge with_failing(double failing) const;
  [[nodiscard]] double known(double of_all) const;
  [[nodiscard]] double minutes_per_m(const walking::Leg& leg) const;

  const walking::Ground& ground_;
  walking::Party party_;
  std::shared_ptr<const HazardGround> hazards_;
  double declination_sigma_;
  Habits habits_;
  Errors errors_;
  double known_shift_ = 0;  ///< of knowing, keeping to a line, the right branch: in logit
  std::shared_ptr<const Guides> guides_;
};

/// The walk that a leg on the needle is, for the chance to tread ground to keep off.
[[nodiscard]] Walk walk_of(const Approach& way, const Guides& guides);

}  // namespace lodeway::reckoning
