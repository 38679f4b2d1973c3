#pragma once
/// Which of the named ways is printed: the one that was asked for, unless too many stray on it.
#include <cstddef>
#include <span>
#include <string>

#include "lodeway/trip/plan.hpp"
#include "lodeway/units/language.hpp"
#include "lodeway/walking/request.hpp"

namespace lodeway::tasks {

/// Of a named way what the pick goes by.
struct NamedHarm {
  walking::Choice choice = walking::Choice::quick;
  double keep_off = 0;  ///< parties that set foot on ground to keep off, of 1: the printed figure
  std::string name;     ///< in the plan's language
  bool outside_else = false;  ///< outside the limits for another reason than those who stray
};

struct PickedWay {
  std::size_t index = 0;
  std::string why;  ///< a sentence where another way is picked than was asked for; else empty
};

/// The way of the choice asked for, or the next surer that there is, or the last. Where more than
/// `most_keep_off` of 1 stray on that, the first of those within the limit, surer ones first, those
/// that nothing else puts outside the limits before the others; where none is within it, the one on
/// which fewest stray, by whole hundredths as printed. One way at least, quickest first.
[[nodiscard]] PickedWay pick_way(std::span<const NamedHarm> ways, walking::Choice asked,
                                 double most_keep_off, units::Language language);

/// The plan of the way picked with why it is that one among its cautions, for the card too; as it
/// is where `why` is empty.
[[nodiscard]] trip::Plan told_why(trip::Plan plan, const std::string& why);

}  // namespace lodeway::tasks
