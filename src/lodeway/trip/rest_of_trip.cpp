#include "lodeway/trip/rest_of_trip.hpp"

#include <algorithm>
#include <cassert>

#include <fmt/format.h>

#include "lodeway/trip/told.hpp"

namespace lodeway::trip {

namespace {
bool same_letters(const std::string& a, const std::string& b) {
  const auto lower = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; };
  return std::ranges::equal(a, b, {}, lower, lower);
}
}  // namespace

Trip rest_of(Trip trip, const FromHere& from) {
  auto& points = trip.request.points;
  assert(from.next_point >= 1 && from.next_point < points.size());
  points.erase(points.begin(), points.begin() + static_cast<std::ptrdiff_t>(from.next_point));
  walking::Waypoint here;
  here.name = from.name;
  here.at = from.at;
  here.safe = false;
  points.insert(points.begin(), here);
  points[1].stretch = walking::Stretch::find;  // as it was to be walked from where they are not
  trip.start = from.start;
  trip.name = told(trip.language, "{}, from {}",
                   {trip.name.empty() ? told(trip.language, "Trip") : trip.name, from.name});
  if (from.visibility) trip.request.party.visibility = *from.visibility;
  return trip;
}

Result<std::size_t> point_to_go_on_to(const Trip& trip, const std::string& name) {
  const auto& points = trip.request.points;
  std::string names;
  for (std::size_t i = points.size(); i-- > 1;) {  // the later of two that are called alike
    if (same_letters(points[i].name, name)) return i;
    names = "\"" + points[i].name + "\"" + (names.empty() ? "" : ", ") + names;
  }
  return fail(FaultCode::bad_input, fmt::format("next: expected one of {}, got \"{}\"", names, name));
}

std::size_t point_after_leg(const Trip& trip, const std::vector<walking::Leg>& legs,
                            std::size_t leg) {
  const auto& points = trip.request.points;
  std::size_t point = 1;  // that the way comes to next
  for (std::size_t k = 0; k < legs.size() && point + 1 < points.size(); ++k) {
    if (earth::grid_distance_m(legs[k].course.line.back(), points[point].at) >= 1) continue;
    if (k >= leg) return point;
    ++point;
  }
  return points.size() - 1;
}

}  // namespace lodeway::trip
