#include "lodeway/learn/course/training_ground.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "lodeway/mapdata/traffic.hpp"
#include "lodeway/reckoning/growth/dead_reckoning.hpp"

namespace lodeway::learn {

namespace {

/// Lower envelope of parabolas: squared distance along one row or column, in cells.
void transform(std::vector<double>& f, std::vector<double>& out, std::vector<std::size_t>& at,
               std::vector<double>& from) {
  const auto n = f.size();
  std::size_t k = 0;
  at[0] = 0;
  from[0] = -std::numeric_limits<double>::infinity();
  from[1] = std::numeric_limits<double>::infinity();
  const auto meet = [&](std::size_t q, std::size_t p) {
    const auto x = static_cast<double>(q), y = static_cast<double>(p);
    return ((f[q] + x * x) - (f[p] + y * y)) / (2 * (x - y));
  };
  for (std::size_t q = 1; q < n; ++q) {
    double s = meet(q, at[k]);
    while (k > 0 && s <= from[k]) s = meet(q, at[--k]);
    if (s <= from[k]) {
      at[k] = q;  // k is 0: the new one is lower everywhere
    } else {
      at[++k] = q;
      from[k] = s;
    }
    from[k + 1] = std::numeric_limits<double>::infinity();
  }
  k = 0;
  for (std::size_t q = 0; q < n; ++q) {
    while (from[k + 1] < static_cast<double>(q)) ++k;
    const double d = static_cast<double>(q) - static_cast<double>(at[k]);
    out[q] = d * d + f[at[k]];
  }
}

walking::Request novice_request(const SafetyRules& rules) {
  walking::Request out;
  out.party.skill = walking::Skill::novice;
  out.party.max_slope_deg = rules.most_slope_deg;
  return out;
}

}  // namespace

terrain::Raster<float> distance_to(const terrain::Raster<std::uint8_t>& bad) {
  constexpr double far = 1e9;  // finite, so that differences of two stay finite
  const auto rows = static_cast<std::size_t>(bad.rows()),
             cols = static_cast<std::size_t>(bad.cols());
  terrain::Raster<float> out(bad.frame());
  const auto longest = std::max(rows, cols) + 2;
  std::vector<double> square(rows * cols), from(longest + 1);
  std::vector<std::size_t> at(longest);
  // One cell of rim on each side, bad.
  std::vector<double> f(rows + 2), d(rows + 2);
  for (std::size_t c = 0; c < cols; ++c) {
    f.front() = f.back() = 0;
    for (std::size_t r = 0; r < rows; ++r)
      f[r + 1] = bad[static_cast<int>(r), static_cast<int>(c)] != 0 ? 0 : far;
    transform(f, d, at, from);
    for (std::size_t r = 0; r < rows; ++r) square[r * cols + c] = d[r + 1];
  }
  f.resize(cols + 2);
  d.resize(cols + 2);
  for (std::size_t r = 0; r < rows; ++r) {
    f.front() = f.back() = 0;
    for (std::size_t c = 0; c < cols; ++c) f[c + 1] = square[r * cols + c];
    transform(f, d, at, from);
    for (std::size_t c = 0; c < cols; ++c)
      out[static_cast<int>(r), static_cast<int>(c)] =
          static_cast<float>(std::sqrt(d[c + 1]) * bad.frame().cell_m);
  }
  return out;
}

TrainingGround::TrainingGround(const walking::Ground& ground, const SafetyRules& rules)
    : ground_(ground),
      rules_(rules),
      novice_(reckoning::errors_of(novice_request(rules).party)),
      cover_(ground, novice_request(rules)),
      fixes_(ground.elevation, ground.map, ground.kinds),
      surroundings_(ground.elevation, ground.map, ground.kinds) {
  terrain::Raster<std::uint8_t> bad(ground.elevation.frame());
  for (int r = 0; r < bad.rows(); ++r) {
    for (int c = 0; c < bad.cols(); ++c) bad[r, c] = cover_.bar(r, c) != walking::Bar::none;
  }
  // Cliffs, rivers and roads where nobody goes on foot bar by their lines: their cells too,
  // whatever bridges there are.
  for (const auto& line : ground.map.lines) {
    const bool fast = (mapdata::traffic_of(line) == mapdata::Traffic::fast ||
                       line.label.kind == mapdata::Kind::forbidden) &&  // a motorway
                      !line.tunnel;
    if (line.label.kind != mapdata::Kind::cliff && line.label.kind != mapdata::Kind::river && !fast)
      continue;
    for (std::size_t i = 1; i < line.points.size(); ++i) {
      const auto a = line.points[i - 1], step = line.points[i] - a;
      const int n = 1 + static_cast<int>(earth::length_of(step) / (0.5 * bad.frame().cell_m));
      for (int k = 0; k <= n; ++k) {
        const auto p = a + (static_cast<double>(k) / n) * step;
        if (!bad.frame().contains(p)) continue;
        const auto [row, col] = bad.frame().cell_of(p);
        bad[row, col] = 1;
      }
    }
  }
  clear_ = distance_to(bad);
}

double TrainingGround::clear_m(earth::GridPoint p) const {
  if (!clear_.frame().contains(p)) return 0;
  const auto [row, col] = clear_.frame().cell_of(p);
  // From the cell's centre to the other cell's: half a diagonal of each may be nearer.
  return std::max(0.0, static_cast<double>(clear_[row, col]) - 1.4143 * clear_.frame().cell_m);
}

std::optional<TrainingGround::RoadNear> TrainingGround::road_near(earth::GridPoint p, double most_m,
                                                                  Roads which) const {
  std::optional<RoadNear> out;
  for (const auto& near : surroundings_.lines().near(p, most_m)) {
    const auto& line = ground_.map.lines[near.ref.line];
    const bool rolls = line.label.kind == mapdata::Kind::road ||
                       line.label.kind == mapdata::Kind::forbidden ||  // a motorway
                       line.label.kind == mapdata::Kind::railway;
    if (!rolls || line.tunnel) continue;
    if (which == Roads::but_quiet && mapdata::traffic_of(line) == mapdata::Traffic::quiet) continue;
    if (!out || near.distance_m < out->distance_m) out = {near.distance_m, near.ref.line};
  }
  return out;
}

std::optional<double> TrainingGround::to_road_m(earth::GridPoint p, double most_m,
                                                Roads which) const {
  const auto road = road_near(p, most_m, which);
  if (!road) return {};
  return road->distance_m;
}

bool TrainingGround::meets_road(earth::GridPoint from, earth::GridPoint to, double from_m,
                                Roads which) const {
  const double length = earth::grid_distance_m(from, to);
  const auto bearing = earth::grid_bearing(from, to);
  // A road right across lies within half a step of one of these.
  for (double s = std::min(from_m, length); s < length; s += rules_.off_road_m) {
    if (by_road(earth::step(from, bearing, s), which)) return true;
  }
  return by_road(to, which);
}

TrainingGround::Corridor TrainingGround::corridor(double length_m) const {
  const auto spread = reckoning::single_leg_spread(novice_, length_m);
  return {rules_.sigmas * std::sqrt(spread.cross_m2) + rules_.more_m,
          rules_.sigmas * std::sqrt(spread.along_m2) + rules_.more_m};
}

bool TrainingGround::safe_leg(earth::GridPoint from, earth::GridPoint to) const {
  const double length = earth::grid_distance_m(from, to);
  const auto whole = corridor(length);
  const auto bearing = earth::grid_bearing(from, to);
  if (clear_m(to) < whole.half_m || clear_m(from) < rules_.more_m) return false;
  for (double s = 0; s <= length + whole.beyond_m; s += 20) {
    const double here = s >= length ? whole.half_m : corridor(std::max(s, 1.0)).half_m;
    if (clear_m(earth::step(from, bearing, s)) < here) return false;
  }
  return clear_m(earth::step(from, bearing, length + whole.beyond_m)) >= whole.half_m;
}

}  // namespace lodeway::learn
