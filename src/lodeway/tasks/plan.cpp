#include "lodeway/tasks/plan.hpp"

#include <algorithm>
#include <utility>

#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/io/trip/trip_file.hpp"
#include "lodeway/route/choose/reach.hpp"
#include "lodeway/tasks/io_progress.hpp"
#include "lodeway/tasks/party_of_trip.hpp"
#include "lodeway/tasks/today.hpp"
#include "lodeway/walking/ground_area.hpp"

namespace lodeway::tasks {

namespace {

std::unexpected<Fault> stopped() {
  return fail(FaultCode::cancelled, "stopped; nothing was written");
}

constexpr double wider_times = 4, most_share = 0.6;  // of the file's cells; more is opened whole

/// No sheet of paper shows more than this beyond the way: an A3's longer side.
double sheets_beyond_m(const trip::Trip& trip) { return 0.42 * trip.map_scale; }

/// What of the file the trip could touch; the whole where that is little more, or where a place
/// lies outside, which is then said of the whole.
Result<walking::Ground> open_for(const std::string& file, const terrain::Frame& frame,
                                 const trip::Trip& trip, double beyond_m, double times,
                                 const io::Progress& progress) {
  const auto& r = trip.request;
  const auto outside = [&](const auto& place) { return !frame.contains(place.at); };
  const auto box = route::reach_of(r, times).wider(beyond_m);
  const bool whole = std::ranges::any_of(r.points, outside) ||
                     std::ranges::any_of(r.safe, outside) ||
                     static_cast<double>(walking::cells_of(frame, box).size()) >
                         most_share * static_cast<double>(frame.size());
  return whole ? io::open_ground(file, progress) : io::open_piece(file, box, progress);
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
  const auto of_ground = [&](const Fault& fault) {
    return request.ground_file.empty() ? fail_in(request.trip_file + ": ground", fault)
                                       : std::unexpected(fault);
  };
  const auto head = io::ground_head(ground_file);
  if (!head) return of_ground(head.error());
  const auto called = [&](const std::string& name) { return io::points_called(ground_file, name); };
  auto asked = io::read_trip(request.trip_file, walking::area_of(head->grid, head->frame), called);
  if (!asked) return std::unexpected(asked.error());
  if (request.from_here) *asked = trip::rest_of(*std::move(asked), *request.from_here);
  if (request.choice) asked->request.choice = *request.choice;
  const double beyond_m = request.for_sheets ? sheets_beyond_m(*asked) : 0;
  for (double times = 1;; times *= wider_times) {
    auto ground =
        open_for(ground_file, head->frame, *asked, beyond_m, times, io_progress(progress));
    if (!ground) return of_ground(ground.error());
    auto trip = *asked;
    for (const auto& change : trip.kinds) ground->kinds.take(change);
    const auto chances = take_party_file(trip, *ground, request.party.get());
    if (!chances) return fail_in(request.trip_file + ": party.file", chances.error());
    if (!go_on(0.05, "making the ground ready")) return stopped();
    const route::WayFinder finder(*ground, head->frame);
    auto ways = plan_ways(*ground, finder, trip, progress);
    const bool beyond = ground->elevation.frame() != head->frame &&
                        (ways ? ways->beyond_piece : ways.error().code == FaultCode::no_way);
    if (beyond) continue;
    if (!ways) return fail_in(request.trip_file, ways.error());
    PlannedTrip out;
    if (request.explain_leg != 0) {
      auto words = explain_leg(finder, *ways, request.explain_leg);
      if (!words) return fail_in(request.trip_file, words.error());
      out.explained = *std::move(words);
    }
    if (request.conditions) {
      auto rows = conditions_of(*ground, finder, *ways, progress);
      if (!rows) return fail_in(request.trip_file, rows.error());
      out.conditions = *std::move(rows);
    }
    out.plan = as_of_today(ways->ways[ways->picked].plan);
    out.ways = *std::move(ways);
    out.ways.day.reset();  // both refer to the ground where that stands now
    out.ways.on.reset();
    out.ground = *std::move(ground);
    return out;
  }
}

}  // namespace lodeway::tasks
