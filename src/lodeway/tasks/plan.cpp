#include "lodeway/tasks/plan.hpp"

#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/io/trip/trip_file.hpp"
#include "lodeway/tasks/party_of_trip.hpp"
#include "lodeway/walking/ground_area.hpp"

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
  if (!ground) {
    return request.ground_file.empty() ? fail_in(request.trip_file + ": ground", ground.error())
                                       : std::unexpected(ground.error());
  }
  auto trip = io::read_trip(request.trip_file, walking::area_of(*ground));
  if (!trip) return std::unexpected(trip.error());
  for (const auto& change : trip->kinds) ground->kinds.take(change);
  if (const auto taken = take_party_file(*trip, *ground); !taken)
    return fail_in(request.trip_file + ": party.file", taken.error());
  if (request.choice) trip->request.choice = *request.choice;
  if (!go_on(0.05, "making the ground ready")) return stopped();
  const route::WayFinder finder(*ground);
  auto ways = plan_ways(*ground, finder, *trip, progress);
  if (!ways) return fail_in(request.trip_file, ways.error());
  PlannedTrip out;
  if (request.explain_leg != 0) {
    auto words = explain_leg(finder, *ways, request.explain_leg);
    if (!words) return fail_in(request.trip_file, words.error());
    out.explained = *std::move(words);
  }
  if (request.conditions) {
    auto rows = conditions_of(*ground, finder, *ways);
    if (!rows) return fail_in(request.trip_file, rows.error());
    out.conditions = *std::move(rows);
  }
  out.plan = ways->ways[ways->picked].plan;
  out.ways = *std::move(ways);
  out.ground = *std::move(ground);
  return out;
}

}  // namespace lodeway::tasks
