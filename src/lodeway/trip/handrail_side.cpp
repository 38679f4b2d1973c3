#include "lodeway/trip/handrail_side.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/mapdata/along_line.hpp"
#include "lodeway/mapdata/line_index.hpp"
#include "lodeway/mapdata/traffic.hpp"
#include "lodeway/trip/told.hpp"
#include "lodeway/trip/wording.hpp"

namespace lodeway::trip {

namespace {

using mapdata::Kind;
using walking::GridPoint;

constexpr double look_every_m = 25, seen_within_m = 60, on_it_m = 4;
constexpr double most_share = 0.7, other_share = 0.1, under_wires_m = 20;

bool keeps_company(Kind kind) {
  switch (kind) {
    case Kind::stream:
    case Kind::river:
    case Kind::ditch:
    case Kind::wall:
    case Kind::fence:
    case Kind::hedge:
    case Kind::road:
    case Kind::railway:
    case Kind::cliff:
      return true;
    default:
      return false;
  }
}

std::vector<mapdata::LineFeature> companions(const mapdata::MapData& map) {
  std::vector<mapdata::LineFeature> out;
  for (const auto& line : map.lines) {
    if (keeps_company(line.label.kind) && !line.tunnel) out.push_back(line);
  }
  for (const auto& area : map.areas) {
    if (area.label.kind != Kind::lake && area.label.kind != Kind::sea) continue;
    mapdata::LineFeature shore;
    shore.label = area.label;
    shore.points = area.outer;
    if (shore.points.size() < 3) continue;
    shore.points.push_back(area.outer.front());
    out.push_back(std::move(shore));
  }
  return out;
}

struct Sides {
  int left = 0, right = 0;
  bool water = false;
};

/// Which way a leg goes beside running water; empty where the heights do not say.
std::string flow_words(const walking::Course& course, const terrain::Elevation& heights,
                       Language language) {
  constexpr double least_rise_m = 5;
  const double rise = terrain::height_at(heights, course.line.back()) -
                      terrain::height_at(heights, course.line.front());
  if (!(std::abs(rise) >= least_rise_m)) return "";
  return std::string(say(rise > 0 ? Say::upstream : Say::downstream, language)) + ", ";
}

std::string remark_of(const walking::Course& course, const mapdata::LineIndex& index,
                      const std::vector<mapdata::LineFeature>& lines,
                      const terrain::Elevation& heights, Language language) {
  std::map<std::string, Sides> seen;
  int places = 0;
  double left = 0.5 * look_every_m;
  for (std::size_t i = 1; i < course.line.size(); ++i) {
    const GridPoint a = course.line[i - 1], v = course.line[i] - a;
    const double length = earth::grid_distance_m(course.line[i], a);
    for (; left <= length && length > 0; left += look_every_m) {
      const auto p = a + (left / length) * v;
      ++places;
      std::map<std::string, std::pair<double, bool>> nearest;  // name: distance, on the left
      for (const auto& near : index.near(p, seen_within_m)) {
        const auto& label = lines[near.ref.line].label;
        if (near.distance_m < on_it_m || label.kind == course.followed.kind) continue;
        const auto to = near.at - p;
        const bool on_left = v.east_m * to.north_m - v.north_m * to.east_m > 0;
        const auto name = landmarks::thing(label.kind, label.name, language);
        seen[name].water = label.kind == Kind::stream || label.kind == Kind::river;
        const auto [at, fresh] = nearest.try_emplace(name, near.distance_m, on_left);
        if (!fresh && near.distance_m < at->second.first) at->second = {near.distance_m, on_left};
      }
      for (const auto& [name, found] : nearest)
        ++(found.second ? seen[name].left : seen[name].right);
    }
    left -= length;
  }
  std::string best;
  int most = 0;
  bool on_left = false, water = false;
  for (const auto& [name, n] : seen) {
    const int more = std::max(n.left, n.right), fewer = std::min(n.left, n.right);
    if (more <= most || more < most_share * places || fewer > other_share * places) continue;
    most = more;
    best = name;
    on_left = n.left > n.right;
    water = n.water;
  }
  if (best.empty() || places < 4) return "";
  return (water ? flow_words(course, heights, language) : "") +
         say(on_left ? Say::side_left : Say::side_right, language, {best});
}

/// What a leg along a road says of its traffic: by the busiest of the roads that it is made of, and
/// of a quiet one nothing. One whose class the map does not have may be busy.
std::string traffic_words(const walking::Course& course, const mapdata::LineIndex& index,
                          const std::vector<mapdata::LineFeature>& lines, Language language) {
  using mapdata::Traffic;
  const auto weight = [](Traffic t) {
    return t == Traffic::quiet ? 0 : t == Traffic::unknown ? 1 : t == Traffic::busy ? 2 : 3;
  };
  auto worst = Traffic::quiet;
  bool found = false;
  const double length = mapdata::length_m(course.line);
  for (double m = std::min(0.5 * look_every_m, 0.5 * length); m < length; m += look_every_m) {
    for (const auto& near : index.near(mapdata::point_along(course.line, m), on_it_m)) {
      const auto& line = lines[near.ref.line];
      if (line.label.kind != Kind::road) continue;
      found = true;
      if (const auto t = mapdata::traffic_of(line); weight(t) > weight(worst)) worst = t;
    }
  }
  if (!found) worst = Traffic::unknown;
  switch (worst) {
    case Traffic::quiet:
      return "";
    case Traffic::unknown:
      return std::string(say(Say::traffic, language));
    case Traffic::busy:
      return told(language, "busy road: walk facing the traffic, one behind another");
    case Traffic::fast:
      return told(language, "fast road: keep off the carriageway");
  }
  return "";
}

/// Do wires hang over nearly all of a leg that does not follow them?
bool under_wires(const walking::Course& course, const mapdata::LineIndex& wires) {
  int places = 0, under = 0;
  const double length = mapdata::length_m(course.line);
  for (double m = 0.5 * look_every_m; m < length; m += look_every_m) {
    ++places;
    under += wires.near(mapdata::point_along(course.line, m), under_wires_m).empty() ? 0 : 1;
  }
  return places >= 4 && under >= most_share * places;
}

}  // namespace

std::vector<std::string> sides_of(const reckoning::JudgedWay& way, const walking::Ground& ground,
                                  Language language) {
  const auto lines = companions(ground.map);
  const mapdata::LineIndex index(lines);
  std::vector<mapdata::LineFeature> power;
  std::ranges::copy_if(ground.map.lines, std::back_inserter(power), [](const auto& line) {
    return line.label.kind == Kind::power_line && !line.tunnel;
  });
  const mapdata::LineIndex wires(power);
  std::vector<std::string> out;
  for (const auto& leg : way.legs) {
    auto& words = out.emplace_back();
    if (leg.course.followed.kind != Kind::power_line && under_wires(leg.course, wires))
      words = told(language, "power line overhead nearly all the way");
    if (leg.course.kind != walking::LegKind::along) continue;
    if (const auto beside = remark_of(leg.course, index, lines, ground.elevation, language);
        !beside.empty())
      words += (words.empty() ? "" : ", ") + beside;
    if (leg.course.followed.kind != Kind::road) continue;
    const auto traffic = traffic_words(leg.course, index, lines, language);
    if (!traffic.empty()) words += (words.empty() ? "" : ", ") + traffic;
  }
  return out;
}

}  // namespace lodeway::trip
