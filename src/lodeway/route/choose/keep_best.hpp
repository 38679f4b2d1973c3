#pragma once
/// Of the ways that were judged as a whole, those that names may be given to.
/// Method: docs/method/choosing-the-way.md, Limits. Not for use outside route.
#include <optional>
#include <vector>

#include "lodeway/route/choose/way_finder.hpp"

namespace lodeway::route {

/// All *practice*.
struct BreachRules {
  double alike = 0.1, alike_share = 0.25;  ///< more than a breach, or this part of it: is one to it
  double most_longer = 1.5;                ///< times the least-time way's time, recovery in it
  double as_sure = 0.02;                   ///< a loss that is no difference
  double as_quick = 1.02;                  ///< times a way's seconds (cost_of): hardly longer
};

/// Limits on legs that are not kept, past their rounding.
struct Missed {
  bool certainty = false, hazard = false;
  [[nodiscard]] bool any() const { return certainty || hazard; }
};
/// By any leg of a way that is judged.
[[nodiscard]] Missed missed_by(const reckoning::JudgedWay& way, const Wishes& wishes);

/// By how much the legs pass what is asked of each, added up: short of the certainty, and over the
/// hazard; both as chances, each from its rounding on.
[[nodiscard]] double breach_of(const reckoning::JudgedWay& way, const Wishes& wishes);

/// Leaves of `ways` (judged, in any order) a front by cost_of: seconds ascending, loss descending,
/// at least one. `least_time`, where there is one, is a way like the others; `missed`: the limits
/// that no way keeps; where it is only the certainty, those go that set foot on barred ground, if
/// any does not.
/// - Where one breaks no limit: of those that break none.
/// - Where a limit is missed what the least-time way beats goes: no quicker, no surer, and breaking
///   limits no less or taking over `most_longer` times as long. Of those no longer than that stay
///   the ones `alike` to the least breach among them; a longer one has to break limits no more than
///   that least. What legs are short of the certainty counts half here, but whole of what is slower
///   and less sure than the least time.
/// - Else: within a hundredth of the least breach (stretches the leader set out may break limits).
/// A way that takes no less time than another, legs not counted, and is less sure by more than
/// `as_sure` goes too: fewer legs alone are no choice. So does one that is hardly quicker
/// (`as_quick`) and less sure by more than that.
/// True: ways surer than all that stay went because they break limits more.
bool keep_best(std::vector<NamedWay>& ways, std::optional<NamedWay> least_time,
               const Missed& missed, const Wishes& wishes, const BreachRules& rules = {});

}  // namespace lodeway::route
