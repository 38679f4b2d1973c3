#include "lodeway/tasks/quick_legs.hpp"

#include <iterator>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/reckoning/judge/judge.hpp"
#include "lodeway/route/legs/cut_legs.hpp"
#include "lodeway/tasks/judge_way.hpp"
#include "lodeway/trip/figure_text.hpp"
#include "lodeway/trip/make_plan.hpp"

namespace lodeway::tasks {

struct QuickLegs::Ready {
  const walking::Ground& ground;
  trip::Trip trip;
  route::Prepared prepared;
  landmarks::Surroundings around;
  reckoning::Judge judge;

  Ready(const walking::Ground& g, const trip::Trip& t, double declination_sigma,
        std::shared_ptr<const landmarks::Fixes> fixes)
      : ground(g),
        trip(t),
        prepared(g, trip.request),
        around(g.elevation, g.map, g.kinds),
        judge(g, trip.request.party, reckoning::forbidden_of(prepared.cover), declination_sigma, {},
              trip::speech_of(trip), std::move(fixes)) {}
};

QuickLegs::QuickLegs(std::unique_ptr<Ready> ready) : ready_(std::move(ready)) {}
QuickLegs::~QuickLegs() = default;

Result<std::unique_ptr<QuickLegs>> QuickLegs::make(const walking::Ground& ground,
                                                   const trip::Trip& trip,
                                                   std::shared_ptr<const landmarks::Fixes> fixes) {
  const auto sigma = declination_sigma_deg(ground, trip);
  if (!sigma) return std::unexpected(sigma.error());
  return std::unique_ptr<QuickLegs>(
      new QuickLegs(std::make_unique<Ready>(ground, trip, *sigma, std::move(fixes))));
}

Result<trip::Plan> QuickLegs::legs(const std::vector<walking::Waypoint>& given) const {
  const Ready& r = *ready_;
  if (given.size() < 2 || given.size() > most_quick_points)
    return fail(FaultCode::bad_input, "points_grid_m: expected 2 to 6 places");
  auto points = given;
  for (auto& point : points) {
    if (!r.ground.elevation.frame().contains(point.at))
      return fail(FaultCode::outside_ground, "a place lies outside the ground");
    if (point.name.empty())
      point.name = landmarks::words(r.around.place(point.at), r.trip.language);
  }
  trip::Trip trip = r.trip;
  trip.request.points = points;
  const route::Cutting cutting{r.ground, r.prepared, r.around, trip.request, trip::speech_of(trip)};
  walking::Way way;
  for (std::size_t i = 1; i < points.size(); ++i) {
    if (earth::grid_distance_m(points[i - 1].at, points[i].at) < 1)
      return fail(FaultCode::bad_input, "points_grid_m: expected places that are not the same");
    auto leg = route::leg_straight(cutting, points[i - 1], points[i]);
    if (!leg) return std::unexpected(leg.error());
    std::ranges::move(*leg, std::back_inserter(way.legs));
  }
  const auto outcome = trip::outcome_of(r.ground, trip, r.judge.judge(way));
  if (!outcome) return std::unexpected(outcome.error());
  return trip::plan_of(*outcome, trip, r.ground);
}

}  // namespace lodeway::tasks
