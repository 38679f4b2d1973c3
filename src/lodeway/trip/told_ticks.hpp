#pragma once
/// What a leg has to be ticked off, as command, JSON, page and card tell it; which of these stand in
/// boxes where a card has room for so many; where there is nothing. Distances along the leg on the ground.
#include <string>
#include <vector>

#include "lodeway/trip/planned_leg.hpp"
#include "lodeway/trip/trip.hpp"

namespace lodeway::trip {

/// *Practice*: a stretch without a tick-off longer than this, some ten minutes, is said to be bare;
/// bends are told in one longer than half of it.
inline constexpr double bare_m = 600;

/// The leg's own, without what lies within 15 m of its start, and bends (PlannedLeg::bends) in stretches
/// that would be bare. By distance, a bend 40 m and more from all others.
[[nodiscard]] std::vector<walking::Tick> told_ticks(const PlannedLeg& leg, const Trip& trip);

/// So many of a leg's ticks, by distance: the last before the end always; then one by one what parts the
/// longest bare stretch best, counted by how well it can be known: three times what is a thing, twice a
/// bend, once a change of slope, which cloud hides; less what is the same as its neighbour.
[[nodiscard]] std::vector<walking::Tick> spread_ticks(const PlannedLeg& leg, std::size_t most);

struct Stretch {
  double from_m = 0, to_m = 0;
};
/// Longer than bare_m, from the start, between ticks and to the end.
[[nodiscard]] std::vector<Stretch> bare_stretches(const PlannedLeg& leg);

/// "also 171 m: wood edge, left; nothing for 1100 m, from 620 m": what of a leg's ticks is not among
/// `boxed`, and what is bare; empty where there is neither. Briefly: only what cloud does not hide.
[[nodiscard]] std::string more_ticks_words(const PlannedLeg& leg, const std::vector<walking::Tick>& boxed,
                                           const Trip& trip, bool briefly = false);

}  // namespace lodeway::trip
