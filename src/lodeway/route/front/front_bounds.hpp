#pragma once
/// What the search over time and certainty stands on: arcs by the place they leave, and what is at
/// least still to come from everywhere.
#include "lodeway/route/front/front.hpp"

namespace lodeway::route {

/// Arcs by one of their ends: those of place p are arcs[start[p]] ... arcs[start[p + 1] - 1], in
/// the order they were given.
struct ArcsByPlace {
  std::vector<std::uint32_t> start, arcs;
};
enum class ArcEnd : unsigned char { from, to };
[[nodiscard]] ArcsByPlace arcs_by_place(std::size_t places, std::span<const Arc> arcs, ArcEnd end);

/// Can this leg be within the limits of one leg?
[[nodiscard]] inline bool leg_allowed(const LegCost& c, const Limits& limits) {
  return c.seconds <= limits.leg_seconds && c.loss <= limits.leg_loss &&
         c.hazard <= limits.leg_hazard;
}

/// By place: the least of one cost from there to `to`, over legs within the limits of one leg;
/// infinity where no way leads. Dijkstra 1959, backwards.
[[nodiscard]] std::vector<double> least_to_go(const FrontProblem& problem, double LegCost::* which);

}  // namespace lodeway::route
