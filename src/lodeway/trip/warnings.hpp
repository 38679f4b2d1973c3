#pragma once
/// What a leader must be told before setting out, in the plan's language.
#include <optional>
#include <string>
#include <vector>

#include "lodeway/earth/time_zone.hpp"
#include "lodeway/trip/plan.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::trip {

/// From a plan whose legs, schedule, daylight and norths are worked out: declination zone,
/// daylight, voids, steep ground on a leg (slope of the height model over `steep_deg`), a leg with
/// nothing to stop it, certainty below the trip's own bound, blanks that the home note needs, old
/// or unknown data. Ordered: the worst first, then by leg. Nothing here says that anything is safe.
[[nodiscard]] std::vector<Warning> warnings_for(const Plan& plan, const walking::Ground& ground);

/// That the trip is over: home would have called for help before `now`. Nothing where it is not, or
/// where the zone has no such day.
[[nodiscard]] std::optional<Warning> past_warning(const Plan& plan, earth::UtcSeconds now);

/// What a weak field means for the compass; empty where the field is strong enough.
[[nodiscard]] std::string zone_words(const Norths& norths, Language language);

/// The plan's warnings that reach at least so far, the worst first: those of the whole trip, or of
/// one leg without its number.
[[nodiscard]] std::vector<std::string> told_on(const Plan& plan, Reach reach, int leg = -1);

/// Why the plan names no time to turn round by; empty where it names one, and
/// of a way of one leg.
[[nodiscard]] std::string no_turn_words(const Plan& plan);

/// "note", "caution", "danger": for programs, in no language.
[[nodiscard]] const char* severity_name(Severity severity);

/// What a leader who compares ways must know of each: a sentence for what its legs are short of the
/// asked certainty, one for those that more than `most_hazard` of 1 leave for barred ground; every
/// such leg with its figure, of 100; and one for a slow day that is longer than its light, with the
/// start that would do. Empty: all is kept.
[[nodiscard]] std::vector<std::string> shortfalls(const Plan& plan, double most_hazard);

/// From this slope on a walker's slip is hard to stop on wet grass or snow (common practice, no
/// source).
inline constexpr double steep_deg = 30;

/// "This map knows no cliffs, lakes here: …": what can stop or hurt a party and is nowhere on this
/// piece of the map, as far as the map itself tells (what was worked out from heights does not
/// count); empty where it has some of each.
[[nodiscard]] std::string map_lacks_words(const mapdata::MapData& map, Language language);

}  // namespace lodeway::trip
