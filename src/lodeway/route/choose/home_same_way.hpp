#pragma once
/// Out and back comes home by the legs that were gone out, unless another way is better by a stated
/// amount. Not for use outside route. Method: docs/method/choosing-the-way.md
#include <functional>
#include <vector>

#include "lodeway/numeric/parallel.hpp"
#include "lodeway/reckoning/judge/judge.hpp"
#include "lodeway/route/choose/choose_ways.hpp"
#include "lodeway/route/choose/rule.hpp"
#include "lodeway/route/legs/cut_legs.hpp"

namespace lodeway::route {

/// Is the other way home so much better than the one that was gone out: quicker by `other_home_min`,
/// or surer or farther off ground to keep off by what the rules hold to be a difference? One that
/// keeps every limit is, where this one does not; and the other way about it never is.
[[nodiscard]] bool better_home(const Candidate& other, const Candidate& same,
                               const ChoiceRules& rules);

/// A stretch of the request that leads back over an earlier one: from point `back` - 1 to point
/// `back`, which are the ends of the one that leads to point `out`. Both are left to be found.
struct ThereAndBack {
  std::size_t out = 1, back = 1;
};
[[nodiscard]] std::vector<ThereAndBack> there_and_back(
    const std::vector<walking::Waypoint>& points);

/// Of each way the legs back over a stretch are put in place by those out, turned round, unless it
/// is better without by the amount above. Judged anew; the order stays. `go_on` is asked before the
/// ways are turned and before every round of judging. Faults: cancelled; the ways are then as they
/// were.
[[nodiscard]] Result<void> home_the_same_way(const Cutting& c, const reckoning::Judge& judge,
                                             const Wishes& wishes, const ChoiceRules& rules,
                                             const std::vector<walking::Waypoint>& points,
                                             std::vector<NamedWay>& ways,
                                             numeric::Parallel& parallel,
                                             const std::function<bool()>& go_on = {});

}  // namespace lodeway::route
