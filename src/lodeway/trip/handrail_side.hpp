#pragma once
/// What keeps to one side of a handrail leg.
#include <string>
#include <vector>

#include "lodeway/reckoning/judge/judged.hpp"
#include "lodeway/trip/trip.hpp"
#include "lodeway/walking/ground.hpp"

namespace lodeway::trip {

/// One a leg; empty where nothing keeps company, beside a bearing always: "Fallow Beck on your left",
/// with which way the water runs where the leg climbs or falls by 5 m. Looked for each 25 m
/// within 60 m: water, walls, fences, hedges, roads, railways, cliffs and lake shores of which at
/// least seven in ten places see the same side and one in ten at most the other; the one seen most
/// often is named. Practice: no source for these bounds. Of a leg along a road what its traffic asks
/// of a party stands behind it, by the map's class of the busiest part; of a quiet road nothing. Of any
/// leg, one on a bearing too, that a power line hangs over seven tenths of it, within 20 m.
[[nodiscard]] std::vector<std::string> sides_of(const reckoning::JudgedWay& way,
                                                const walking::Ground& ground, Language language);

}  // namespace lodeway::trip
