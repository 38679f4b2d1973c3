#include "lodeway/tasks/ways.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "lodeway/tasks/judge_way.hpp"
#include "lodeway/tasks/pick_way.hpp"
#include "lodeway/tasks/threads.hpp"
#include "lodeway/tasks/walked_days.hpp"
#include "lodeway/trip/figure_text.hpp"
#include "lodeway/trip/way_kept_told.hpp"
#include "lodeway/trip/make_plan.hpp"
#include "lodeway/trip/schedule.hpp"
#include "lodeway/trip/warnings.hpp"

namespace lodeway::tasks {

namespace {

/// Minutes of walking that a slow day leaves until last light; no limit where the sun stays up.
double most_minutes(const trip::Trip& trip, const trip::Daylight& daylight) {
  if (!daylight.dusk || !trip::held_to_daylight(trip, daylight)) return route::no_limit;
  double left = std::chrono::duration<double, std::ratio<60>>(*daylight.dusk - trip.start).count();
  const auto& party = trip.request.party;
  for (const auto& point : trip.request.points) left -= point.stay_min;
  if (party.rest_every_min > 0)
    left *= party.rest_every_min / (party.rest_every_min + party.rest_min);
  return std::max(left, 1.0);
}

Result<route::Wishes> wishes_of(const walking::Ground& ground, const trip::Trip& trip,
                                const trip::Daylight& daylight) {
  const auto sigma = declination_sigma_deg(ground, trip);
  if (!sigma) return std::unexpected(sigma.error());
  return route::Wishes{trip::speech_of(trip), *sigma, trip.min_certainty,
                       most_minutes(trip, daylight), trip.most_keep_off};
}

}  // namespace

Result<PlannedWays> plan_ways(const walking::Ground& ground, const route::WayFinder& finder,
                              const trip::Trip& trip, Progress* progress) {
  const auto go_on = [&](double share, const char* doing) {
    return progress == nullptr || progress->go_on(share, doing);
  };
  const auto daylight = trip::daylight_of(ground, trip, trip.request.points.front().at);
  if (!daylight) return std::unexpected(daylight.error());
  auto wishes = wishes_of(ground, trip, *daylight);
  if (!wishes) return std::unexpected(wishes.error());
  wishes->walkers = 0;  // these walk on below, and nobody puts them back
  Threads threads;
  auto found = finder.find(trip.request, *wishes, threads, [&](std::size_t done, std::size_t of) {
    return go_on(0.1 + 0.6 * static_cast<double>(done) / static_cast<double>(of), "finding ways");
  });
  if (!found) return std::unexpected(found.error());
  PlannedWays out;
  out.remarks = std::move(found->remarks);
  out.beyond_piece = found->beyond_piece;
  out.on = found->on;
  const auto walking = [&](std::size_t done) {
    return go_on(0.7 + 0.2 * static_cast<double>(done) / static_cast<double>(found->ways.size()),
                 "walking them");
  };
  if (!walking(0)) return fail(FaultCode::cancelled, "stopped");
  std::vector<const reckoning::JudgedWay*> all;
  for (const auto& way : found->ways) all.push_back(&way.way);
  out.day = std::make_shared<const DayWalk>(found->on, all, threads);
  for (auto& way : found->ways) {
    if (!walking(out.ways.size())) return fail(FaultCode::cancelled, "stopped");
    auto days = out.day->walk(trip, way.way, way.escapes, *daylight, threads);
    if (!days) return std::unexpected(days.error());
    const double as_known =
        std::exchange(way.way.certainty, trip::way_kept_told(way.averaged, *days));
    auto outcome =
        trip::outcome_of(ground, trip, std::move(way.way), std::move(way.escapes), *days);
    if (!outcome) return std::unexpected(outcome.error());
    auto plan = trip::plan_of(*outcome, trip, ground);
    auto short_of = trip::shortfalls(plan, wishes->most_hazard);
    out.ways.push_back({way.choice, *std::move(outcome), std::move(plan), way.expected_min,
                        way.averaged, as_known, way.hazard, *std::move(days),
                        std::move(short_of)});
  }
  std::vector<NamedHarm> harms;
  for (const auto& way : out.ways) {
    const bool outside_else =
        std::ranges::any_of(way.plan.verdict.reasons, [](const trip::Reason& r) {
          return r.band == trip::Band::outside && r.what != trip::Fails::keep_off;
        });
    harms.push_back({way.choice, way.plan.keep_off, way.plan.way.name, outside_else});
  }
  auto picked = pick_way(harms, trip.request.choice, trip.most_keep_off, trip.language);
  out.picked = picked.index;
  out.picked_why = std::move(picked.why);
  auto& plan = out.ways[out.picked].plan;
  plan = told_why(std::move(plan), out.picked_why);
  return out;
}

Result<std::string> explain_leg(const route::WayFinder& finder, const PlannedWays& ways, int leg) {
  const auto& picked = ways.ways[ways.picked];
  const auto count = picked.plan.way.legs.size();
  if (leg < 1 || static_cast<std::size_t>(leg) > count) {
    return fail(FaultCode::bad_input,
                fmt::format("leg: expected 1 to {}, the legs of the way picked ({}); got {}", count,
                            picked.plan.way.name, leg));
  }
  const auto& trip = picked.plan.trip;
  const auto wishes = wishes_of(finder.ground(), trip, picked.plan.daylight);
  if (!wishes) return std::unexpected(wishes.error());
  Threads threads;
  auto way = picked.outcome.way;
  way.certainty = picked.as_known;  // as the ways that it is held against
  return finder.explain(trip.request, *wishes, way, picked.choice,
                        static_cast<std::size_t>(leg) - 1, threads);
}

}  // namespace lodeway::tasks
