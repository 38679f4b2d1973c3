#include "lodeway/route/choose/reach.hpp"

#include <algorithm>
#include <cmath>

namespace lodeway::route {

namespace {
constexpr double snap_m = 2000;
}  // namespace

walking::Box reach_of(const walking::Request& request, double times) {
  if (request.points.empty()) return {};
  auto out = walking::Box::about(request.points.front().at);
  for (std::size_t i = 1; i < request.points.size(); ++i) {
    const auto a = request.points[i - 1].at, b = request.points[i].at;
    const double straight = earth::grid_distance_m(a, b), half = 0.5 * first_reach_m(straight);
    const double narrow = std::sqrt(half * half - 0.25 * straight * straight);
    const auto on = straight > 0 ? (1 / straight) * (b - a) : earth::GridPoint{1, 0};
    const earth::GridPoint by{std::hypot(half * on.east_m, narrow * on.north_m),
                              std::hypot(half * on.north_m, narrow * on.east_m)};
    const auto middle = 0.5 * (a + b);
    out.take(middle - by);
    out.take(middle + by);
  }
  for (const auto& safe : request.safe) out.take(safe.at);
  out = out.wider(beyond_reach_m * times);
  return {std::floor(out.west_m / snap_m) * snap_m, std::floor(out.south_m / snap_m) * snap_m,
          std::ceil(out.east_m / snap_m) * snap_m, std::ceil(out.north_m / snap_m) * snap_m};
}

bool leads_off_beyond(const terrain::Frame& piece, const terrain::Frame& whole,
                      const std::vector<EscapesOfWay>& escapes, double least_s_per_m) {
  if (piece == whole) return false;
  const auto beyond = [&](const reckoning::Escape& escape) {
    return !escape.legs.empty() &&
           60 * escape.minutes >
               least_s_per_m *
                   walking::to_cut_m(piece, whole, escape.legs.front().course.line.front());
  };
  return std::ranges::any_of(escapes, [&](const EscapesOfWay& way) {
    return std::ranges::any_of(
        way, [&](const auto& leg) { return leg.empty() || std::ranges::any_of(leg, beyond); });
  });
}

}  // namespace lodeway::route
