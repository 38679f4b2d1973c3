#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/mapdata/along_line.hpp"
#include "lodeway/route/legs/cut_legs.hpp"
#include "lodeway/route/legs/way_changes.hpp"
#include "lodeway/walking/barred_beside.hpp"
#include "lodeway/walking/course.hpp"

namespace lodeway::route {

using walking::Leg;
using walking::LegKind;

walking::Course course_of(const Cutting& c, LegKind kind, std::vector<earth::GridPoint> line,
                          int followed) {
  walking::Course out;
  out.kind = kind;
  out.line = std::move(line);
  if (followed >= 0) {
    const auto& label = c.ground.map.lines[static_cast<std::size_t>(followed)].label;
    out.followed = {label.kind, landmarks::thing(label.kind, label.name, c.language)};
  }
  const double own = c.ground.kinds[out.followed.kind].speed_factor;
  const bool along = kind == LegKind::along;
  double factor = own;
  if (!along || !walking::is_path(out.followed.kind)) {
    factor = c.prepared.cover.mean_factor(out.line);
    if (along) factor = std::min(factor, own);
  }
  out.ground_factor = std::clamp(factor, 0.05, 1.0);
  return out;
}

int line_followed(const Cutting& c, const walking::Course& course) {
  if (course.kind != LegKind::along) return -1;
  for (std::size_t i = 1; i < course.line.size(); ++i) {
    const auto middle = 0.5 * (course.line[i - 1] + course.line[i]);
    for (const auto& near : c.around.lines().near(middle, 1)) {
      if (c.ground.map.lines[near.ref.line].label.kind == course.followed.kind)
        return static_cast<int>(near.ref.line);
    }
  }
  return -1;
}

Leg described(const Cutting& c, walking::Course course, int followed) {
  const auto& line = course.line;
  const auto& party = c.request.party;
  Leg out;
  out.figures = walking::figures_of(course, c.ground, party);
  const double scale = out.figures.length_m / mapdata::length_m(line);
  const auto minutes_to = [&](double at_m) {  // by the same model
    walking::Course part = course;
    part.line = {line.front()};
    double run = 0;
    for (std::size_t i = 1; i < line.size() && run < at_m; ++i) {
      const double piece = earth::grid_distance_m(line[i - 1], line[i]);
      const double t = std::min(1.0, (at_m - run) / piece);
      part.line.push_back(line[i - 1] + t * (line[i] - line[i - 1]));
      run += piece;
    }
    return walking::figures_of(part, c.ground, party).minutes;
  };
  for (const auto& s : c.around.along(line, followed, party.visibility)) {
    out.ticks.push_back({landmarks::words(s, c.language), s.kind, s.side, s.at_m * scale,
                         minutes_to(s.at_m), s.at,
                         s.meeting == landmarks::Meeting::steepens || s.meeting == landmarks::Meeting::eases ||
                             s.meeting == landmarks::Meeting::level});
  }
  // Not everybody sees where a road becomes a track: it is told, and nothing is counted from it.
  // At the leg's start and end it is what the leg begins and ends with.
  constexpr double at_an_end_m = 15;
  const double whole_m = mapdata::length_m(line);
  for (const auto& [at_m, kind] : way_changes(c, course)) {
    if (at_m < at_an_end_m || at_m > whole_m - at_an_end_m) continue;
    out.ticks.push_back({fmt::format("{} {}",
                                     c.language == units::Language::german ? "wird" : "becomes",
                                     landmarks::thing(kind, "", c.language)),
                         mapdata::Kind::other, mapdata::Side::none, at_m * scale, minutes_to(at_m),
                         mapdata::point_along(line, at_m)});
  }
  std::ranges::stable_sort(out.ticks, {}, &walking::Tick::at_m);
  const auto heading = earth::grid_bearing(line[line.size() - 2], line.back());
  if (const auto stop = c.around.stop_beyond(line.back(), heading, followed)) {
    const double minutes = stop->beyond_m / out.figures.length_m * out.figures.minutes;
    out.stop = walking::Stop{landmarks::thing(stop->kind, stop->name, c.language), stop->kind,
                             stop->beyond_m, minutes, stop->shape};
  }
  for (const auto& d : c.around.dangers(line)) {
    out.dangers.push_back({landmarks::words(d, c.language), d.side, d.distance_m});
  }
  out.barred_beside = walking::barred_beside(c.prepared.cover, line);
  out.course = std::move(course);
  return out;
}

Result<std::vector<Leg>> leg_straight(const Cutting& c, const walking::Waypoint& from,
                                      const walking::Waypoint& to) {
  const auto blocked = c.prepared.cover.first_bar(from.at, to.at);
  if (blocked.bar != walking::Bar::none) {
    return fail(
        FaultCode::no_way,
        fmt::format(
            "the bearing from {} to {} meets {} at {:.0f} {:.0f}: set a point to go round it",
            from.name, to.name, walking::bar_words(blocked), blocked.at.east_m,
            blocked.at.north_m));
  }
  auto course = course_of(c, LegKind::bearing, {from.at, to.at}, -1);
  course.from = from.name;
  course.to = to.name;
  return std::vector{described(c, std::move(course), -1)};
}

}  // namespace lodeway::route
