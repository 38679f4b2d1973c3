#pragma once
/// The names quick, middle and sure put on judged ways, and what is said of the limits.
/// The rule itself: rule.hpp. Not for use outside route.
#include <string>
#include <vector>

#include "lodeway/route/choose/rule.hpp"
#include "lodeway/route/choose/way_finder.hpp"

namespace lodeway::route {

/// What the rule reads of a way that is judged whole. What a leg is short of the certainty counts
/// from `chance_rounding` on. What nothing leads counts longer
/// (under_wires.hpp), and water to wade (wades.hpp).
[[nodiscard]] Candidate candidate_of(const NamedWay& way, const Wishes& wishes);

/// The limits as the rule has them.
[[nodiscard]] ChoiceRules rules_of(const Wishes& wishes);

/// Limits that every one of some ways breaks.
struct BrokenByAll {
  bool certainty = true, keep_off = true, light = true;
  [[nodiscard]] bool any() const { return certainty || keep_off || light; }
};
[[nodiscard]] BrokenByAll broken_by_all(const std::vector<NamedWay>& ways, const Wishes& wishes);

/// Does one of them keep every limit?
[[nodiscard]] bool any_keeps(const std::vector<NamedWay>& ways, const Wishes& wishes);

/// Names up to three of the ways (judged, in any order, at least one): quick first. The remarks say
/// why there are fewer; where no way keeps the limits that is the first of them, then each limit
/// that none keeps with the leg where the nearest falls short most. `front`: those that none other
/// beats in time and certainty.
[[nodiscard]] Ways named(std::vector<NamedWay> ways, const Wishes& wishes);

/// Nearer than this one way runs beside another: 2 mm at 1:25 000; *practice*.
inline constexpr double beside_m = 50;

/// The share of a's length that lies farther than `within_m` from b. Accuracy: samples every 25 m.
[[nodiscard]] double share_off(const reckoning::JudgedWay& a, const reckoning::JudgedWay& b,
                               double within_m = beside_m);

}  // namespace lodeway::route
