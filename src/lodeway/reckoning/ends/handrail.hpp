#pragma once
/// Legs along a line: losing it, the wrong branch, an end that nothing marks. Chances are those of
/// sight::PartyChances.
#include "lodeway/reckoning/defaults.hpp"
#include "lodeway/reckoning/ends/guides.hpp"

namespace lodeway::reckoning {

/// P(the line is kept for a length): stay^(length / 1 km). Cutting a leg in two changes nothing.
/// `shift`: of the kilometre's chance, in logit.
[[nodiscard]] double keeps_line(double stay, double length_m, double shift = 0);

/// How somebody who does not look goes on at a fork: straight on before turns. Of an arm that lies
/// `turn_cosine` off the way that was come by: ((1 + cos turn) / 2)^2, 0.02 at least. *practice*.
[[nodiscard]] double straightness(double turn_cosine);

/// A meeting of ways as who comes to it finds it.
struct ForkMet {
  double onward = 1;  ///< straightness of the right arm
  double arms = 0;    ///< of the others, each by how like it is, together
};
/// P(the right branch is taken): of those who look `branch` know it, the others and those who do
/// not look take an arm by its weight: 1 - (2 look (1 - branch) + 1 - look) arms / (arms + onward).
/// `shift`: in logit.
[[nodiscard]] double takes_right_branch(double look, double branch, const ForkMet& fork,
                                        double shift = 0);

/// The place 20 m back from the end of a line that was followed: the arm by which a party comes to
/// what is next.
[[nodiscard]] GridPoint arm_come_by(const std::vector<GridPoint>& way);

/// All meetings along a way, that at its start among them: at each of its points, every line of a
/// like kind that leads away from it. Lines that the way itself follows are none, nor at its start
/// the arm that leads back to `came_by` (of arm_come_by; within 6 m of it, *practice*). Within
/// `seen_m` of the end only those err who do not recognise it, which is `known`.
struct ForkOnWay {
  double at_m = 0;
  ForkMet fork;
};
[[nodiscard]] std::vector<ForkOnWay> forks_on(const Guides& around,
                                              const std::vector<GridPoint>& way,
                                              mapdata::Kind followed, double seen_m = 0,
                                              double known = 0,
                                              std::optional<GridPoint> came_by = std::nullopt);
/// takes_right_branch for all of them.
[[nodiscard]] double takes_all_branches(const Guides& around, const std::vector<GridPoint>& way,
                                        mapdata::Kind followed, double seen_m = 0,
                                        double known = 0, double shift = 0,
                                        std::optional<GridPoint> came_by = std::nullopt);

/// Does a line like the one that is followed go on past the way's end, by less than a right angle?
[[nodiscard]] bool goes_on_past_end(const Guides& around, const std::vector<GridPoint>& way,
                                    mapdata::Kind followed);

/// Along-track sigma on a line, `since_m` after the last thing that was ticked off: count, stride
/// and steps.
[[nodiscard]] double handrail_sigma_m(const Errors& errors, double since_m);

}  // namespace lodeway::reckoning
