// From a place that was found to the rest of the trip.
#include <fmt/format.h>

#include "lodeway/tasks/clock.hpp"
#include "lodeway/tasks/relocate.hpp"
#include "lodeway/trip/clock_text.hpp"
#include "lodeway/trip/told.hpp"
#include "lodeway/units/text.hpp"

namespace lodeway::tasks {

namespace {
std::size_t index_of(const GoOn& go_on) {
  return static_cast<std::size_t>(go_on.place > 0 ? go_on.place - 1 : 0);
}
}  // namespace

Result<PlanRequest> plan_from_here(const RelocateRequest& request, const Relocated& found,
                                   const GoOn& go_on) {
  const auto bad = [](std::string what) { return fail(FaultCode::bad_input, std::move(what)); };
  if (!found.trip) return bad(request.file + ": to go on expected a trip file, not a ground");
  const auto& places = found.answer.places;
  if (places.empty()) return bad("to go on expected a place that fits; there is none");
  const auto index = index_of(go_on);
  if (index >= places.size())
    return bad(fmt::format("place: expected 1 to {}, got {}", places.size(), go_on.place));
  const auto& place = places[index];
  if (go_on.place == 0 && place.part.share < settled_share) {
    return bad(fmt::format(
        "the place is not settled: {} in 100 for the likeliest, expected {}; tell more, or name it "
        "with --place",
        units::of_hundred(place.part.share), units::of_hundred(settled_share)));
  }
  trip::FromHere from;
  from.at = place.part.best;
  from.name = place.near.empty() ? place.grid_reference : place.near;
  from.visibility = found.answer.visibility;
  const auto start = clock_minutes(go_on.time, "time");
  if (!start) return std::unexpected(start.error());
  if (*start >= 24 * 60)
    return bad(fmt::format("time: expected an hour of the trip's day, got \"{}\"", go_on.time));
  from.start = std::chrono::minutes(static_cast<int>(*start));
  if (!go_on.next.empty()) {
    const auto point = trip::point_to_go_on_to(*found.trip, go_on.next);
    if (!point) return std::unexpected(point.error());
    from.next_point = *point;
  } else if (request.told.leg > 0) {
    from.next_point = trip::point_after_leg(*found.trip, found.legs,
                                            static_cast<std::size_t>(request.told.leg) - 1);
  } else {
    return bad("next: expected the name of the trip's place to go on to");
  }
  PlanRequest out;
  out.trip_file = request.file;
  out.ground_file = request.ground_file;
  out.from_here = std::move(from);
  return out;
}

std::string go_on_words(const trip::Plan& plan, const trip::FromHere& from, const Relocated& found,
                        const GoOn& go_on) {
  const auto index = index_of(go_on);
  return trip::told(plan.trip.language, "Go on from place {}, [{}], at {}, to {}:",
                    {index + 1, found.answer.places[index].grid_reference,
                     trip::clock_text(from.start), plan.trip.request.points[1].name});
}

}  // namespace lodeway::tasks
