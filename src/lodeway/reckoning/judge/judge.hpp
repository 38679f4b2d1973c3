#pragma once
/// How sure is each leg of a way, and is it better aimed off than straight at its end? Method, assumptions and what is left out:
/// docs/method/ends-of-legs.md.
#include "lodeway/reckoning/growth/dead_reckoning.hpp"
#include "lodeway/reckoning/ends/guides.hpp"
#include "lodeway/reckoning/judge/hazard.hpp"
#include "lodeway/reckoning/judge/judged.hpp"
#include "lodeway/reckoning/judge/possible_party.hpp"
#include "lodeway/units/text.hpp"
#include "lodeway/walking/cover.hpp"
#include "lodeway/walking/request.hpp"

namespace lodeway::reckoning {

/// Cells that the party may not enter, voids and the file's edge apart (those are said elsewhere).
[[nodiscard]] Forbidden forbidden_of(const walking::Cover& cover);

/// How a leg's end is found.
enum class EndKind : unsigned char {
  point,  ///< a mark seen from around
  line,   ///< a line met, then along it to the mark (aimed off or not)
  turn,   ///< nothing to see: a dog-leg's turn, the error is carried on
  handrail_mark,
  handrail_count,  ///< along a line: to a mark, or only by count
};

/// Something on the way that could be taken for the end.
struct DecoyPlace {
  bool is_line = false;
  std::size_t line = 0;   ///< Guides::line
  std::uint32_t fix = 0;  ///< of a mark: index into Guides::fixes()
  GridPoint at;           ///< of a mark
  double along_m = 0;     ///< where it is met, along the leg
  double seen_from_m = 0, recognised = 1, looks_alike = 1;
  double lie_apart_deg = 0;
  double probability = 0;  ///< of being taken for the end
};

/// Everything that the certainty of a leg was worked out from: the rehearsal walks by the same
/// figures.
struct LegModel {
  EndKind end = EndKind::turn;
  std::optional<Mark> mark;
  std::size_t line = 0;  ///< of EndKind::line: Guides::line
  double target_along_m = 0, window_m = 0;
  double offset_m = 0;               ///< aimed off, along the line, + towards its last point
  GridPoint from, to, aim;           ///< aim = to when not aimed off
  units::GridBearing bearing;
  double length_m = 0;  ///< of the bearing part, or of the handrail's length
  double seen_from_m = 0, recognised = 1;
  double line_recognised = 1;
  double leaving_m = 0;  ///< of EndKind::line: not met nearer to the start
  double beyond_m = 0, line_sigma_m = 0;
  LegAxes spread;              ///< at the end, shared errors and start in it
  LegGrowth growth;            ///< how it comes to that; of a bearing leg
  numeric::Covariance at_end;  ///< the same, x east, y north
  double since_tick_m = 0;     ///< handrail: after the last tick
  double keeps = 1;            ///< handrail: line and branches kept
  bool line_goes_on = true;    ///< handrail: something like it goes on past the end
  double set_right = 1;        ///< bearing leg: no bearing since the last fix is set far wrong
  std::vector<DecoyPlace> decoys;
  double decoy_probability = 0;  ///< of taking any of them for the end
  bool aim_is_left = false;      ///< of the straight way to the end; when aimed off
  double certainty = 0;  ///< kept at the first try
  double hazard_probability = 0;
  double minutes = 0;           ///< walking, as aimed; on a line to its end
  double recovery_minutes = 0;  ///< expected, when it fails
};

/// What a planner weighs a leg by.
struct LegFigures {
  double certainty = 0;           ///< that the party is where it believes, when the leg ends
  double hazard_probability = 0;  ///< of setting foot on forbidden ground
  double minutes = 0;             ///< walking, when all goes well
  double recovery_minutes = 0;    ///< expected, when it does not
  double expected_minutes = 0;    ///< minutes + (1 - certainty) recovery_minutes
  bool fix_at_end =
      true;  ///< false: a turn, or an end by the count; `carried` is more than a fix's
  EndKind end = EndKind::turn;
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
        double declination_sigma_deg, Habits habits = {}, const units::Speech& language = {},
        std::shared_ptr<const landmarks::Fixes> fixes = nullptr);

  /// `hazards`: of the barred cells, where they are at hand.
  Judge(const walking::Ground& ground, const walking::Party& party, double declination_sigma_deg,
        Habits habits, std::shared_ptr<const HazardGround> hazards,
        const units::Speech& language = {},
        std::shared_ptr<const landmarks::Fixes> fixes = nullptr,
        std::shared_ptr<const TakenLines> taken = nullptr);

  /// All legs in order, the error carried from fix to fix. A dog-leg's turn counts 1 in the way's
  /// certainty; its error is in the next leg's. Below 1 ms a leg on real ground.
  [[nodiscard]] JudgedWay judge(const walking::Way& way) const;
  /// A way may not end at a turn: there the party is where it believes when it stands within
  /// Habits::near_enough_m of the place. Other ends are given back as they are.
  [[nodiscard]] LegModel as_end_of_way(const walking::Leg& leg, LegModel model) const;
  /// What the card says of a leg that was weighed.
  [[nodiscard]] Judged judged(const walking::Leg& leg, const LegModel& model) const;
  /// The figures of `weigh` for a planner. Read of the leg: course (its ends' names apart),
  /// figures' length and minutes (0: by the ground factor), ticks, stop. A hazard that few tracks show to be under 0.01 or over 0.3 is not
  /// worked out finer. Some 0.05 to 0.5 ms; from any thread.
  [[nodiscard]] LegFigures assess(const walking::Leg& leg, const Drift& carried) const;
  /// Everything that the figures were worked out from; `carried` goes on to the leg's end.
  [[nodiscard]] LegModel weigh(const walking::Leg& leg, Drift& carried) const {
    return weigh(leg, carried, false);
  }
  /// The chance that a party of which no more is known than Party::doubt has it keeps every leg:
  /// the mean over `possible_parties`, each walking as the card has it, by its own figures. Some
  /// seven times `judge` without hazard.
  [[nodiscard]] double averaged_certainty(const walking::Way& way) const;
  /// How far each leg's certainty moves when every chance of failing in the table is a third more
  /// (4/3) or a third less (3/4) than it says, and gross errors with it; walked as the card has it.
  [[nodiscard]] std::vector<CertaintyBand> bands(const walking::Way& way) const;
  /// The error of a party that has just found itself.
  [[nodiscard]] Drift at_fix() const;

  [[nodiscard]] const Errors& errors() const { return errors_; }
  [[nodiscard]] const Habits& habits() const { return habits_; }
  [[nodiscard]] const Forbidden& forbidden() const { return hazards_->cells(); }
  [[nodiscard]] const Guides& guides() const { return *guides_; }
  [[nodiscard]] const walking::Party& party() const { return party_; }
  [[nodiscard]] double declination_sigma() const { return declination_sigma_; }

 private:
  /// `card`: how the leg is walked, where that is settled; null: as is surest.
  void bearing_end(const walking::Leg& leg, LegModel& model, const LegModel* card) const;
  void line_end(const walking::Leg& leg, LegModel& model, const LegModel* card) const;
  void handrail_end(const walking::Leg& leg, LegModel& model,
                    std::optional<GridPoint> came_by) const;
  void decoys(const walking::Leg& leg, LegModel& model) const;
  void line_decoys(LegModel& model) const;
  void point_decoys(LegModel& model) const;
  void handrail_decoys(const walking::Leg& leg, LegModel& model) const;
  [[nodiscard]] Walk walk_of(const LegModel& model) const;
  /// With a card only what certainty and the next leg rest on.
  [[nodiscard]] LegModel weigh(const walking::Leg& leg, Drift& carried, bool roughly,
                               const LegModel* card = nullptr) const;
  [[nodiscard]] Judge of(const PossibleParty& party) const;
  [[nodiscard]] Judge with_failing(double failing) const;
  [[nodiscard]] double known(double of_all) const;
  [[nodiscard]] double hazard_of(const LegModel& model, bool roughly) const;
  void after_failure(const walking::Leg& leg, LegModel& model) const;
  void carry_on(const walking::Leg& leg, const LegModel& model, Drift& carried) const;
  void lay_out(const walking::Leg& leg, const LegModel& model, Judged& out) const;
  [[nodiscard]] double minutes_per_m(const walking::Leg& leg) const;

  const walking::Ground& ground_;
  walking::Party party_;
  std::shared_ptr<const HazardGround> hazards_;
  double declination_sigma_;
  Habits habits_;
  units::Speech language_;
  Errors errors_;
  double known_shift_ = 0;  ///< of knowing, keeping to a line, the right branch: in logit
  std::shared_ptr<const Guides> guides_;
};

/// Is there something near enough ahead for those who missed the end to go on to?
[[nodiscard]] bool goes_on_to_stop(const walking::Leg& leg, const LegModel& model);

}  // namespace lodeway::reckoning
