#include "lodeway/tasks/named_place.hpp"

#include <algorithm>
#include <cctype>
#include <vector>

#include <fmt/format.h>

#include "lodeway/earth/place_on_ground.hpp"
#include "lodeway/walking/ground_area.hpp"

namespace lodeway::tasks {

Result<earth::GridPoint> place_of(const walking::Ground& ground, const std::string& text) {
  std::vector<earth::GridPoint> named;
  for (const auto& p : ground.map.points) {
    if (p.label.name == text) named.push_back(p.at);
  }
  if (named.size() > 1) {
    return fail(FaultCode::bad_input,
                fmt::format("from: expected one place, \"{}\" is the name of {}; give a grid "
                            "reference",
                            text, named.size()));
  }
  if (named.size() == 1) return named.front();
  const auto place = earth::place_on_ground(text, walking::area_of(ground));
  if (!place && std::ranges::none_of(text, [](unsigned char c) { return std::isdigit(c) != 0; })) {
    return fail(
        FaultCode::bad_input,
        fmt::format("from: expected a name on the map or a grid reference, got \"{}\"", text));
  }
  return place ? place : fail_in("from", place.error());
}

}  // namespace lodeway::tasks
