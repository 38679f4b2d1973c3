#include "lodeway/tasks/place_named.hpp"

#include <algorithm>
#include <cctype>

#include <fmt/format.h>

#include "lodeway/earth/place_on_ground.hpp"
#include "lodeway/walking/ground_area.hpp"

namespace lodeway::tasks {

Result<earth::GridPoint> place_named(const walking::Ground& ground, const std::string& text,
                                     const std::string& where, bool beyond) {
  std::vector<earth::GridPoint> named;
  for (const auto& p : ground.map.points) {
    if (p.label.name == text) named.push_back(p.at);
  }
  if (named.size() > 1) {
    return fail(FaultCode::bad_input,
                fmt::format("{}: expected one place, \"{}\" is the name of {}; give a grid "
                            "reference",
                            where, text, named.size()));
  }
  if (named.size() == 1) return named.front();
  const auto area = walking::area_of(ground);
  auto place = beyond ? earth::place_about_ground(text, area) : earth::place_on_ground(text, area);
  if (!place && std::ranges::none_of(text, [](unsigned char c) { return std::isdigit(c) != 0; })) {
    return fail(FaultCode::bad_input,
                fmt::format("{}: expected a name on the map or a grid reference, got \"{}\"", where,
                            text));
  }
  return place ? place : fail_in(where, place.error());
}

}  // namespace lodeway::tasks
