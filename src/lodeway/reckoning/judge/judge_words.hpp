#pragma once
/// What a judge of legs says, in the plan's language.
#include <string>

#include "lodeway/reckoning/judge/drill_room.hpp"
#include "lodeway/units/text.hpp"

namespace lodeway::reckoning {

/// "a wall 50 m before the end"
[[nodiscard]] std::string confusable_words(const std::string& what, double before_m,
                                           const units::Speech& speech);

/// What to do when the end does not come, one sentence. `search_m`: how far along the line met
/// before turning round; `to_stop`: go on to what stops the leg; `line`: what is met, or followed.
/// `room`: nobody is sent onto ground to keep off, and how far it is is said where it bounds what
/// else would be tried; 20 m before it there is nothing to try. `certainty`: of the leg; where few keep it,
/// what they come to is not said to be its end. What is counted is in double paces.
[[nodiscard]] std::string if_lost_words(const walking::Leg& leg, const Approach& way,
                                        double search_m, bool to_stop, const units::Speech& speech,
                                        mapdata::Kind line, const DrillRoom& room = {},
                                        double certainty = 1);

}  // namespace lodeway::reckoning
