#include "lodeway/trip/fords.hpp"

#include <algorithm>
#include <cmath>
#include <optional>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/mapdata/line_index.hpp"
#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/walking/course.hpp"
#include "lodeway/walking/cover.hpp"

namespace lodeway::trip {

namespace {

using earth::GridPoint;
using mapdata::Kind;

constexpr double on_it_m = 2, one_place_m = 20, look_m = 4, of_water_m = 25, at_joint_m = 3;

bool is_water(Kind kind) { return kind == Kind::stream || kind == Kind::river; }

struct Bridge {
  GridPoint at;
  std::string name;
  std::vector<std::uint32_t> over;  ///< of the waters
};

class Waters {
 public:
  Waters(const walking::Ground& ground, const std::vector<GridPoint>& way) : ground_(ground) {
    const auto near_way = [&](const std::vector<GridPoint>& line) {
      const auto [w, e] = std::ranges::minmax(way, {}, &GridPoint::east_m);
      const auto [s, n] = std::ranges::minmax(way, {}, &GridPoint::north_m);
      const auto [lw, le] = std::ranges::minmax(line, {}, &GridPoint::east_m);
      const auto [ls, ln] = std::ranges::minmax(line, {}, &GridPoint::north_m);
      constexpr double more = round_within_m;
      return lw.east_m <= e.east_m + more && le.east_m >= w.east_m - more &&
             ls.north_m <= n.north_m + more && ln.north_m >= s.north_m - more;
    };
    for (const auto& line : ground.map.lines) {
      any_bridge_ = any_bridge_ || line.bridge;
      if (line.tunnel || line.points.size() < 2 || !near_way(line.points)) continue;
      if (is_water(line.label.kind)) waters_.push_back(line);
      if (line.bridge && walking::is_path(line.label.kind)) carried_.push_back(line);
    }
    index_ = mapdata::LineIndex(waters_);
    over_ = mapdata::LineIndex(carried_);
    for (const auto& point : ground.map.points) {
      if (point.label.kind != Kind::bridge) continue;
      any_bridge_ = true;
      Bridge bridge{point.at, point.label.name, {}};
      for (const auto& near : index_.near(point.at, of_water_m))
        bridge.over.push_back(near.ref.line);
      if (!bridge.over.empty()) bridges_.push_back(std::move(bridge));
    }
    for (const auto& line : carried_) {
      for (std::size_t i = 1; i < line.points.size(); ++i) {
        for (const auto& met : index_.crossings(line.points[i - 1], line.points[i]))
          bridges_.push_back({met.at, "", {met.ref.line}});
      }
    }
  }

  [[nodiscard]] const mapdata::LineFeature& water(std::uint32_t line) const {
    return waters_[line];
  }
  [[nodiscard]] std::vector<mapdata::Crossing> met(GridPoint a, GridPoint b) const {
    return index_.crossings(a, b);
  }
  [[nodiscard]] bool bridged(GridPoint at) const {
    return !over_.near(at, on_it_m).empty() ||
           std::ranges::any_of(bridges_, [&](const Bridge& b) {
             return earth::grid_distance_m(b.at, at) <= walking::Cover::at_bridge_m;
           });
  }
  [[nodiscard]] const Bridge* nearest_over(std::uint32_t line, GridPoint at) const {
    const auto& label = waters_[line].label;
    const auto same = [&](std::uint32_t other) {
      return other == line || (!label.name.empty() && waters_[other].label.name == label.name);
    };
    const Bridge* best = nullptr;
    double least = round_within_m;
    for (const auto& bridge : bridges_) {
      const double away = earth::grid_distance_m(bridge.at, at);
      if (away > least || std::ranges::none_of(bridge.over, same)) continue;
      least = away;
      best = &bridge;
    }
    return best;
  }
  [[nodiscard]] bool any_bridge() const { return any_bridge_; }
  /// A ford of the map there: its name, or none where it has none.
  [[nodiscard]] const mapdata::Label* ford_at(GridPoint at) const {
    for (const auto& point : ground_.map.points) {
      if (point.label.kind == Kind::ford &&
          earth::grid_distance_m(point.at, at) <= walking::Cover::at_bridge_m)
        return &point.label;
    }
    return nullptr;
  }

 private:
  const walking::Ground& ground_;
  std::vector<mapdata::LineFeature> waters_, carried_;
  mapdata::LineIndex index_, over_;
  std::vector<Bridge> bridges_;
  bool any_bridge_ = false;
};

/// On which side of water a place lies that is a few metres from where a way meets its segment
/// `met`: by the nearest of the segments about there, so that water which turns where it is crossed
/// is still crossed. Over 0: left of it, downstream as it is drawn.
double side_of(const std::vector<GridPoint>& water, std::size_t met, GridPoint p) {
  const auto unit = [](GridPoint v) { return 1 / std::max(mapdata::length_of(v), 1e-12) * v; };
  const auto way = [&](std::size_t k) { return unit(water[k + 1] - water[k]); };
  std::size_t first = met, last = met;  // as far as 2 look_m to both hands
  for (double room = 2 * look_m; first > 0 && room > 0; --first)
    room -= earth::grid_distance_m(water[first], water[first - 1]);
  for (double room = 2 * look_m; last + 2 < water.size() && room > 0; ++last)
    room -= earth::grid_distance_m(water[last + 1], water[last + 2]);
  double least = 1e300, side = 0;
  for (std::size_t k = first; k <= last; ++k) {
    const double t = mapdata::nearest_fraction(water[k], water[k + 1], p);
    const auto on = water[k] + t * (water[k + 1] - water[k]);
    const double away = earth::grid_distance_m(on, p);
    if (away >= least) continue;
    least = away;
    auto along = way(k);  // at a bend that is nearest, half way between the two
    if (t >= 1 && k < last) along = along + way(k + 1);
    if (t <= 0 && k > first) along = along + way(k - 1);
    side = mapdata::cross(along, p - on);
  }
  return side;
}

/// Straight to the bridge and back, over open ground of no particular kind.
double round_minutes(GridPoint ford, GridPoint bridge, const walking::Ground& ground,
                     const walking::Party& party) {
  walking::Course course;
  course.ground_factor = std::clamp(ground.kinds[Kind::other].speed_factor, 0.05, 1.0);
  double minutes = 0;
  for (const auto& line : {std::vector{ford, bridge}, std::vector{bridge, ford}}) {
    course.line = line;
    minutes += walking::figures_of(course, ground, party).minutes;
  }
  return minutes;
}

}  // namespace

std::vector<std::vector<Ford>> fords_of(const reckoning::JudgedWay& way,
                                        const walking::Ground& ground,
                                        const walking::Party& party, units::Language language) {
  std::vector<std::vector<Ford>> out(way.legs.size());
  std::vector<GridPoint> whole;
  for (const auto& leg : way.legs) {
    for (const auto& p : leg.course.line) {
      if (whole.empty() || !(whole.back() == p)) whole.push_back(p);
    }
  }
  if (whole.size() < 2) return out;
  const mapdata::Measured measured(whole);
  const Waters waters(ground, whole);
  double begins = 0, last_at = -one_place_m;
  std::optional<std::uint32_t> last_water;
  const auto one_water = [&](std::uint32_t a, std::uint32_t b) {
    const auto& name = waters.water(a).label.name;
    return a == b || (!name.empty() && name == waters.water(b).label.name);
  };
  for (std::size_t k = 0; k < way.legs.size(); ++k) {
    const auto& leg = way.legs[k];
    const auto& line = leg.course.line;
    const double length = mapdata::length_m(line);
    const double scale = leg.figures.length_m > 0 && length > 0 ? leg.figures.length_m / length : 1;
    double at = 0;
    for (std::size_t i = 1; i < line.size(); ++i) {
      const double piece = earth::grid_distance_m(line[i - 1], line[i]);
      for (const auto& met : waters.met(line[i - 1], line[i])) {
        const auto& water = waters.water(met.ref.line);
        const auto* ford = waters.ford_at(met.at);
        const auto followed = leg.course.followed.kind;
        if (is_water(followed) || (followed == Kind::road && ford == nullptr)) continue;
        const double here = at + met.at_fraction * piece, on_way = begins + here;
        // Two waters that flow together are two to wade, however near.
        if (on_way - last_at < (last_water && !one_water(*last_water, met.ref.line) ? on_it_m
                                                                                    : one_place_m))
          continue;
        // Who starts or ends at water stands on one of its banks, and on which the map does not say.
        const bool either_bank =
            on_way < at_joint_m || on_way > measured.length_m() - at_joint_m;
        const auto side = [&](double at_m) {
          return side_of(water.points, met.ref.segment, measured.at(at_m));
        };
        const double before = side(on_way - look_m), after = side(on_way + look_m);
        if ((!either_bank && !(before * after < 0)) || waters.bridged(met.at)) continue;
        last_at = on_way;
        last_water = met.ref.line;
        // Water at which a leg begins is where the one before it ended.
        const bool of_before = k > 0 && here < at_joint_m;
        const auto of = of_before ? k - 1 : k;
        Ford found{of_before ? way.legs[of].figures.length_m : here * scale, met.at,
                   ford != nullptr && water.label.name.empty()
                       ? landmarks::thing(Kind::ford, ford->name, language)
                       : landmarks::thing(water.label.kind, water.label.name, language),
                   water.label.kind, waters.any_bridge(), {}};
        if (const auto* bridge = waters.nearest_over(met.ref.line, met.at)) {
          found.round = WayRound{landmarks::thing(Kind::bridge, bridge->name, language),
                                 earth::grid_bearing(met.at, bridge->at),
                                 earth::grid_distance_m(met.at, bridge->at),
                                 round_minutes(met.at, bridge->at, ground, party)};
        }
        out[of].push_back(std::move(found));
      }
      at += piece;
    }
    begins += length;
  }
  return out;
}

}  // namespace lodeway::trip
