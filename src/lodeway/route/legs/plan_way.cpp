#include "lodeway/route/legs/plan_way.hpp"

#include <algorithm>
#include <iterator>

#include <fmt/format.h>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/route/legs/cut_legs.hpp"
#include "lodeway/route/field/party_ground.hpp"

namespace lodeway::route {

Result<std::vector<walking::Leg>> given_stretch(const Cutting& c, const walking::Waypoint& from,
                                                const walking::Waypoint& to) {
  for (const auto* point : {&from, &to}) {
    if (const auto ok = check_place(c.prepared, *point); !ok) return std::unexpected(ok.error());
  }
  if (earth::grid_distance_m(from.at, to.at) < 1.0) {
    return fail(
        FaultCode::bad_input,
        fmt::format("{} and {}: expected two places, they are the same", from.name, to.name));
  }
  switch (to.stretch) {
    case walking::Stretch::along:
      return leg_along(c, from, to);
    case walking::Stretch::bearing:
      return leg_straight(c, from, to);
    case walking::Stretch::find:
      break;
  }
  const auto path = c.kept != nullptr ? c.kept->path(c.ground, from, to)
                                      : find_path(c.ground, c.prepared, from, to);
  if (!path) return std::unexpected(path.error());
  return cut_legs(c, *path, from.name, to.name);
}

std::vector<walking::Waypoint> named_points(const Cutting& c) {
  auto points = c.request.points;
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (points[i].name.empty())
      points[i].name = landmarks::words(c.around.place(points[i].at), c.language);
    if (points[i].name.empty())
      points[i].name =
          (c.language == units::Language::german ? "Punkt " : "point ") + std::to_string(i + 1);
  }
  return points;
}

Result<std::vector<walking::Leg>> given_legs(const Cutting& c,
                                             const std::vector<walking::Waypoint>& points,
                                             const GoOn& go_on) {
  std::vector<walking::Leg> out;
  for (std::size_t i = 1; i < points.size(); ++i) {
    if (go_on && !go_on(i - 1, points.size() - 1)) return fail(FaultCode::cancelled, "stopped");
    auto legs = given_stretch(c, points[i - 1], points[i]);
    if (!legs) return std::unexpected(legs.error());
    name_apart(*legs, c.language);
    std::ranges::move(*legs, std::back_inserter(out));
  }
  return out;
}

Result<walking::Way> plan_way(const walking::Ground& ground, const walking::Request& request,
                              units::Language language, const GoOn& go_on) {
  if (request.points.size() < 2)
    return fail(FaultCode::bad_input, "the way: expected two points at least");
  const Prepared prepared(ground, request);
  const landmarks::Surroundings around(ground.elevation, ground.map, ground.kinds);
  const Cutting c{ground, prepared, around, request, language};
  const auto points = named_points(c);
  walking::Way out;
  const bool given = std::ranges::none_of(points.begin() + 1, points.end(), [](const auto& p) {
    return p.stretch == walking::Stretch::find;
  });
  out.name = given ? (language == units::Language::german ? "vorgegeben" : "given by the leader")
                   : (language == units::Language::german ? "schnell" : "quick");
  auto legs = given_legs(c, points, go_on);
  if (!legs) return std::unexpected(legs.error());
  out.legs = *std::move(legs);
  return out;
}

}  // namespace lodeway::route
