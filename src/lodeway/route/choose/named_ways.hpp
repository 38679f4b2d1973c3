#pragma once
/// Three of a front that a leader can choose from, or fewer with the reason.
/// Rules and why these: docs/method/two-objective-search.md
#include <cstddef>
#include <functional>
#include <optional>
#include <span>

#include "lodeway/route/front/front.hpp"
#include "lodeway/route/front/wishes.hpp"

namespace lodeway::route {

/// When are two ways one to a leader? All *practice*, no source.
struct NamingRules {
  double most_common = 0.8;  ///< share of the length; two ways that have more of it in common ...
  double as_sure = 0.05;     ///< ... and whose losses differ by less are alike
  /// Losses nearer than this are equally sure: two hundredths of certainty, less than closed form
  /// and rehearsal are apart.
  double same_loss = 0.02;
  double most_price_s = route::most_price_s;
};

/// Why a name is not given.
enum class NotNamed : unsigned char {
  given,          ///< it is
  no_surer,       ///< no way is surer than the quickest, by `same_loss`
  too_dear,       ///< each 1 of 100 that a way is surer costs more than `most_price_s` allows
  alike,          ///< the surer ones lie where the quickest does and are hardly surer
  none_between,   ///< no way has a time between the two others
  no_good_trade,  ///< those between pay more for their certainty than they would in even shares
  between_alike,  ///< those with a good trade are like one of the two others
};

/// Indices into the front.
struct Naming {
  std::size_t quickest = 0;
  std::optional<std::size_t> balanced, surest;
  NotNamed why_no_balanced = NotNamed::given, why_no_surest = NotNamed::given;
  double late_s =
      0;  ///< above 0: no way is in time, and the quickest that is least late is this late
};

/// What the rules need to know of ways. Asked only of those that may be named: a way may be dear to
/// lay out.
struct AboutWays {
  /// Seconds after the time when the way has to be done; at most 0: in time. Empty: all are.
  std::function<double(std::size_t)> late_s;
  /// Share of the shorter one's length that the two have in common, 0 to 1. Empty: 0.
  std::function<double(std::size_t, std::size_t)> common;
};

/// `front`: seconds ascending, loss descending, at least one. Of the ways in time
/// - quickest: the first;
/// - surest: the quickest of those within `same_loss` of the loss of the one that is best at
///   `most_price_s`, seconds and loss added up;
/// - balanced: of those in time between the two and not alike either, the one that lies farthest
///   below the chord between them, time and loss each scaled to the chord's ends.
/// None in time: the one least late is the quickest, and it alone is named.
[[nodiscard]] Naming name_ways(std::span<const LegCost> front, const AboutWays& about,
                               const NamingRules& rules = {});

}  // namespace lodeway::route
