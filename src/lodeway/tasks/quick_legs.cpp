#include "lodeway/tasks/quick_legs.hpp"

#include <cmath>
#include <iterator>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/reckoning/judge/teller.hpp"
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
              std::move(fixes)) {}

  /// With the range of each leg's certainty: its low end is what paper and page say.
  [[nodiscard]] reckoning::JudgedWay judged(const walking::Way& way) const {
    auto out = reckoning::Teller(judge, trip::speech_of(trip)).judged(way);
    const auto bands = judge.bands(way);
    for (std::size_t i = 0; i < bands.size(); ++i) out.legs[i].judged.band = bands[i];
    return out;
  }
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
  const auto outcome = trip::outcome_of(r.ground, trip, r.judged(way));
  if (!outcome) return std::unexpected(outcome.error());
  return trip::plan_of(*outcome, trip, r.ground);
}

Result<LaidString> QuickLegs::measure(walking::Waypoint from, walking::Waypoint to) const {
  constexpr double look_every_m = 5, most_m = 60'000;
  constexpr int height_steps = 120;
  const Ready& r = *ready_;
  for (auto* point : {&from, &to}) {
    if (!r.ground.elevation.frame().contains(point->at))
      return fail(FaultCode::outside_ground, "a place lies outside the ground");
    if (point->name.empty())
      point->name = landmarks::words(r.around.place(point->at), r.trip.language);
  }
  const double length = earth::grid_distance_m(from.at, to.at);
  if (length < 1 || length > most_m)
    return fail(FaultCode::bad_input, "to: expected a place from 1 m to 60 km away");
  trip::Trip trip = r.trip;
  trip.request.points = {from, to};
  const route::Cutting cutting{r.ground, r.prepared, r.around, trip.request, trip::speech_of(trip)};
  walking::Course course;
  course.from = from.name;
  course.to = to.name;
  course.line = {from.at, to.at};
  walking::Way way;
  way.legs.push_back(route::described(cutting, std::move(course), -1));
  const auto outcome = trip::outcome_of(r.ground, trip, r.judged(way));
  if (!outcome) return std::unexpected(outcome.error());
  LaidString out{trip::plan_of(*outcome, trip, r.ground), {}, {}};
  const auto at = [&](double m) { return from.at + (m / length) * (to.at - from.at); };
  const int pieces = static_cast<int>(std::ceil(length / look_every_m));
  bool before = false;
  for (int i = 0; i < pieces; ++i) {
    const double a = length * i / pieces, b = length * (i + 1) / pieces;
    const auto bar = r.prepared.cover.bar_at(at((a + b) / 2));
    auto met = r.prepared.cover.line_met(at(a), at(b));
    if (met.bar == walking::Bar::none && bar != walking::Bar::none)
      met = {bar, at((a + b) / 2), r.prepared.cover.name_at(at((a + b) / 2))};
    if (met.bar != walking::Bar::none) {
      if (!before) out.keep_off.push_back({a, b, walking::bar_words(met), {at(a)}});
      out.keep_off.back().to_m = b;
    }
    if (before && met.bar == walking::Bar::none) out.keep_off.back().line.push_back(at(a));
    before = met.bar != walking::Bar::none;
  }
  if (before) out.keep_off.back().line.push_back(to.at);
  for (int i = 0; i <= height_steps; ++i)
    out.heights_m.push_back(terrain::height_at(r.ground.elevation, at(length * i / height_steps)));
  return out;
}

}  // namespace lodeway::tasks
