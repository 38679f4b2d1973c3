#include "lodeway/reckoning/judge/counted_from.hpp"

#include <algorithm>
#include <functional>
#include <utility>

#include "lodeway/numeric/logit.hpp"
#include "lodeway/sight/report.hpp"

namespace lodeway::reckoning {

std::vector<CountedFrom> counted_from(const Judge& judge, const walking::Leg& leg, double length_m,
                                      double shift, double at_m) {
  const double stands = at_m < 0 ? length_m : at_m;
  constexpr double hardly_any = 1e-4;
  const double grid =  // ticks have metres on the ground
      leg.figures.length_m > 0 ? length_m / leg.figures.length_m : 1;
  const double attention = sight::perception_of(judge.party().skill).attention;
  std::vector<std::pair<double, mapdata::Kind>> ticks;
  for (const auto& tick : leg.ticks) {
    const double at = grid * tick.at_m;
    if (tick.counted_from() && at < stands - 1) ticks.emplace_back(at, tick.kind);
  }
  std::ranges::sort(ticks, std::ranges::greater{}, &std::pair<double, mapdata::Kind>::first);
  std::vector<CountedFrom> out;
  double left = 1;
  for (const auto& [at, kind] : ticks) {
    if (left < hardly_any) break;
    const double noticed = attention * numeric::shifted_chance(judge.guides().noticed(kind), shift);
    out.push_back({stands - at, left * noticed});
    left *= 1 - noticed;
  }
  out.push_back({stands, left});
  return out;
}

}  // namespace lodeway::reckoning
