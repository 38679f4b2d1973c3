#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "lodeway/earth/place_text.hpp"
#include "lodeway/learn/course/codes.hpp"
#include "lodeway/learn/course/parts.hpp"
#include "lodeway/mapdata/traffic.hpp"

namespace lodeway::learn {

std::string day_reference(GridPoint p) {
  // A reference names the square's lower left corner: half a square on, it is the nearest one.
  return earth::grid_reference({p.east_m + 5, p.north_m + 5}, 4);
}

TrainingDay make_day(const TrainingGround& ground, GridPoint from, std::string from_words,
                     double grid_magnetic_deg, std::uint64_t seed, units::Language language) {
  TrainingDay day;
  day.language = language;
  day.seed = seed;
  day.from = from;
  day.from_words = std::move(from_words);
  day.magnetic_from_grid_deg = grid_magnetic_deg;
  day.roads_told = std::ranges::any_of(ground.ground().map.lines, [](const auto& line) {
    return mapdata::traffic_of(line) != mapdata::Traffic::unknown;
  });
  using mapdata::Kind;
  constexpr std::array ways{Kind::road, Kind::railway,    Kind::track,
                            Kind::path, Kind::faint_path, Kind::forbidden};
  day.roads_known = std::ranges::any_of(ground.ground().map.lines, [&](const auto& line) {
    return std::ranges::find(ways, line.label.kind) != ways.end();
  });
  // A stream of its own for each part: one part's luck does not change another.
  std::uint64_t stream = 0;
  for (const auto make : {detail::make_settings, detail::make_paces, detail::make_bearings,
                          detail::make_features, detail::make_forks, detail::make_drops})
    make(ground, numeric::Random(seed, ++stream), day);
  return day;
}

std::vector<BearingCourse> make_bearing_courses(const TrainingGround& ground, GridPoint from,
                                                std::uint64_t seed) {
  TrainingDay day;
  day.from = from;
  detail::make_bearings(ground, numeric::Random(seed, 3), day);
  return std::move(day.bearings);
}

bool has_roads(const TrainingDay& day) {
  return std::ranges::any_of(day.bearings,
                             [](const auto& b) { return b.road_catches || b.road_beside_m; }) ||
         std::ranges::any_of(day.features, &FeatureFind::road) ||
         (day.forks && day.forks->road_m > 0);
}

std::vector<Measured> marks_of(const TrainingDay& day, std::string_view code) {
  std::vector<Measured> out;
  const auto add = [&](Exercise exercise, std::string course) -> Measured& {
    auto& m = out.emplace_back();
    m.exercise = exercise;
    m.course = code.empty() ? std::move(course) : course_code(code, course);
    return m;
  };
  const auto number = [](const char* letter, std::size_t i) {
    return letter + std::to_string(i + 1);
  };
  if (!day.settings.empty()) add(Exercise::setting, "desk");
  for (std::size_t i = 0; i < day.paces.size(); ++i) {
    auto& m = add(Exercise::pacing, number("P", i));
    m.ground = day.paces[i].ground;
    m.course_m = day.paces[i].length_m;
  }
  for (std::size_t i = 0; i < day.bearings.size(); ++i)
    add(Exercise::bearing, number("B", i)).leg_m = std::round(day.bearings[i].length_m);
  for (std::size_t i = 0; i < day.bearings.size(); ++i) {
    if (!day.bearings[i].crosses.empty()) add(Exercise::lines, number("B", i));
  }
  if (!day.features.empty()) add(Exercise::features, "features");
  if (day.forks) add(Exercise::forks, "forks");
  if (!day.drops.empty()) add(Exercise::drops, "drops");
  if (!day.times.empty()) add(Exercise::time, "time");
  for (std::size_t i = 0; i < day.bearings.size(); ++i) {
    if (!day.bearings[i].may_plant) continue;
    add(Exercise::doubt, number("B", i));
    break;
  }
  return out;
}

}  // namespace lodeway::learn
