#include "lodeway/tasks/plan.hpp"

#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/io/trip/trip_file.hpp"
#include "lodeway/route/plan_way.hpp"
#include "lodeway/tasks/judge_way.hpp"
#include "lodeway/trip/make_plan.hpp"

namespace lodeway::tasks {

namespace {

std::unexpected<Fault> stopped() {
  return fail(FaultCode::cancelled, "stopped; nothing was written");
}

}  // namespace

Result<PlannedTrip> plan_trip(const PlanRequest& request, Progress* progress) {
  const auto go_on = [&](double share, const char* doing) {
    return progress == nullptr || progress->go_on(share, doing);
  };
  auto ground_file = request.ground_file;
  if (ground_file.empty()) {
    auto named = io::ground_of_trip(request.trip_file);
    if (!named) return std::unexpected(named.error());
    ground_file = *std::move(named);
  }
  if (!go_on(0.0, "opening the ground")) return stopped();
  auto ground = io::open_ground(ground_file);
  if (!ground) return std::unexpected(ground.error());
  auto trip = io::read_trip(request.trip_file, ground->grid);
  if (!trip) return std::unexpected(trip.error());
  for (const auto& change : trip->kinds) ground->kinds.take(change);
  auto way = route::plan_way(
      *ground, trip->request, trip->language, [&](std::size_t done, std::size_t of) {
        return go_on(0.1 + 0.8 * static_cast<double>(done) / static_cast<double>(of),
                     "finding the way");
      });
  if (!way) return fail_in(request.trip_file, way.error());
  if (!go_on(0.9, "judging each leg")) return stopped();
  const auto certainty = judge_way(*ground, *trip, *way);
  if (!certainty) return fail_in(request.trip_file, certainty.error());
  if (!go_on(0.95, "working out the card")) return stopped();
  auto plan = trip::make_plan(*ground, *std::move(trip), *std::move(way));
  if (!plan) return fail_in(request.trip_file, plan.error());
  plan->certainty = *certainty;
  return PlannedTrip{*std::move(ground), *std::move(plan)};
}

}  // namespace lodeway::tasks
