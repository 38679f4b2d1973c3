// Courses on the invented fells: what must never happen, over many seeds.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "lodeway/fells/skarrow.hpp"
#include "lodeway/io/kinds/kind_rules.hpp"
#include "lodeway/learn/course/training_day.hpp"
#include "lodeway/numeric/random.hpp"
#include "lodeway/reckoning/defaults.hpp"
#include "lodeway/reckoning/growth/dead_reckoning.hpp"
#include "lodeway/tasks/derive.hpp"
#include "lodeway/terrain/profile.hpp"
#include "lodeway/terrain/slope.hpp"
#include "lodeway/terrain/visibility.hpp"
#include "support/support.hpp"

namespace lodeway::learn {
namespace {

const walking::Ground& fells() {
  static const auto ground = [] {
    auto g = fells::make_skarrow_fells();
    g.kinds = io::built_in_rules().table();
    EXPECT_TRUE(tasks::derive_from_relief(g));
    return g;
  }();
  return ground;
}
const TrainingGround& ready() {
  static const TrainingGround g(fells());
  return g;
}

GridPoint somewhere(numeric::Random& random) {
  const auto& f = fells().elevation.frame();
  return {f.west_m + 1500 + random.uniform() * (f.cell_m * f.cols - 3000),
          f.south_m() + 1500 + random.uniform() * (f.cell_m * f.rows - 3000)};
}

TEST(DistanceTo, IsTheNearestBadCellByBruteForce) {
  numeric::Random random(4);
  terrain::Raster<std::uint8_t> bad({0, 900, 10, 37, 53});
  for (auto& c : bad.cells()) c = random.uniform() < 0.01;
  const auto d = distance_to(bad);
  for (int r = 0; r < bad.rows(); ++r) {
    for (int c = 0; c < bad.cols(); ++c) {
      // the rim outside is bad
      double least = 10 * std::min({r + 1, c + 1, bad.rows() - r, bad.cols() - c});
      for (int y = 0; y < bad.rows(); ++y) {
        for (int x = 0; x < bad.cols(); ++x) {
          if (bad[y, x] != 0) least = std::min(least, 10 * std::hypot(y - r, x - c));
        }
      }
      ASSERT_NEAR((d[r, c]), least, 1e-3) << r << ' ' << c;
    }
  }
}

/// The judge looks at the cells themselves and shares no code with the maker of courses: every cell
/// within three novice sigmas and 60 m of the line.
void keeps_clear(const BearingCourse& b) {
  const auto& z = fells().elevation;
  // A novice, baseplate, clear day: 3 degrees a leg, 4.5 a sighting of 150 m, compass 1.5; count
  // 8 in 100, stride 6 (docs/method/dead-reckoning.md).
  const double degree = 0.017453292519943295, l = b.length_m;
  const double across =
      std::sqrt(l * l * (9 + 2.25) * degree * degree + l * 150 * 20.25 * degree * degree);
  const double along = std::sqrt(l * l * (0.0064 + 0.0036) + l * 0.25);
  EXPECT_NEAR(across, b.cross_sigma_m, 0.01);
  EXPECT_NEAR(along, b.along_sigma_m, 0.01);
  const double rad = b.bearing.in_radians();
  // Shapes are checked at points 10 m apart: the corridor widens from 60 m to that at the peg.
  for (double s = 0; s <= l + 3 * along + 60; s += 10) {
    const double share = std::min(1.0, s / l);
    // never wider than the true corridor at s, which grows at least in proportion
    const double half = 60 + 3 * across * share;
    for (double off = -half; off <= half; off += 10) {
      const GridPoint p{b.from.east_m + s * std::sin(rad) + off * std::cos(rad),
                        b.from.north_m + s * std::cos(rad) - off * std::sin(rad)};
      ASSERT_TRUE(z.frame().contains(p));
      ASSERT_LE(terrain::slope_deg_at(z, p), 30.5);  // between centres, bilinear
      for (const auto& area : fells().map.areas) {
        if (area.label.kind != mapdata::Kind::lake && area.label.kind != mapdata::Kind::sea)
          continue;
        ASSERT_FALSE(mapdata::contains(area, p));
      }
    }
  }
}

TEST(TrainingDays, TheSameSeedGivesTheSameDay) {
  numeric::Random random(1);
  const auto from = somewhere(random);
  const auto a = make_day(ready(), from, "x", -3, 7), b = make_day(ready(), from, "x", -3, 7);
  ASSERT_EQ(a.bearings.size(), b.bearings.size());
  for (std::size_t i = 0; i < a.bearings.size(); ++i)
    EXPECT_EQ(a.bearings[i].peg, b.bearings[i].peg);
  ASSERT_EQ(a.settings.size(), b.settings.size());
  EXPECT_EQ(a.missing, b.missing);
}

// A ground of heights alone has no road to keep off: the day must say that it knows of none. And
// where no place has a name, the desk has places by their references.
TEST(TrainingDays, AMapOfHeightsAloneIsSaidToKnowNoRoadAndStillHasADesk) {
  auto bare = fells();
  std::erase_if(bare.map.lines, [](const auto& line) {
    return line.label.kind < mapdata::Kind::stream;  // paths, tracks, roads, railways
  });
  for (auto& line : bare.map.lines) line.label.name.clear();
  for (auto& point : bare.map.points) point.label.name.clear();
  for (auto& area : bare.map.areas) area.label.name.clear();
  const TrainingGround ground(bare);
  numeric::Random random(3);
  const auto from = somewhere(random);
  const auto day = make_day(ground, from, "x", -3, 7);
  EXPECT_FALSE(day.roads_known);
  EXPECT_TRUE(make_day(ready(), from, "x", -3, 7).roads_known);
  ASSERT_GE(day.settings.size(), 10U);
  std::map<std::string, GridPoint> places;
  for (const auto& s : day.settings) {
    for (const auto& [words, at] : {std::pair{s.from_words, s.from}, {s.to_words, s.to}}) {
      EXPECT_NE(words.find(fmt::format("{:04} {:04}", std::lround(at.east_m / 10) % 10000,
                                       std::lround(at.north_m / 10) % 10000)),
                std::string::npos)
          << words;
      EXPECT_EQ(places.try_emplace(words, at).first->second, at) << words;
    }
  }
  for (const auto& a : places) {
    for (const auto& b : places) {
      if (a.first < b.first) {
        EXPECT_GE(earth::grid_distance_m(a.second, b.second), 400);
      }
    }
  }
}

TEST(TrainingDays, EveryPartKeepsItsRules) {
  numeric::Random random(20);
  int courses = 0, features = 0, forks = 0, drops = 0, settings = 0;
  for (std::uint64_t seed = 1; seed <= 30; ++seed) {
    const double gm = -3.5;
    const auto day = make_day(ready(), somewhere(random), "somewhere", gm, seed);
    for (const auto& b : day.bearings) {
      keeps_clear(b);
      EXPECT_NEAR(b.length_m, 400, 30);
      EXPECT_LE(b.climb_m, 40);
      EXPECT_LE(b.descent_m, 40);
      EXPECT_LE(b.median_slope_deg, 15);
      EXPECT_GE(b.catches_beyond_m, 50);
      EXPECT_LE(b.catches_beyond_m, 200);
      EXPECT_FALSE(b.catches.empty());
      EXPECT_EQ(b.road_words.empty(), !b.road_beside_m);  // a road is named
      EXPECT_EQ(terrain::sees(fells().elevation, b.from, b.peg, {.eye_m = 1.6, .target_m = 0.5}),
                terrain::Seen::hidden);
      ++courses;
    }
    for (std::size_t i = 0; i < day.bearings.size(); ++i) {
      for (std::size_t k = 0; k < i; ++k)
        EXPECT_GE(std::abs((day.bearings[i].bearing - day.bearings[k].bearing).in_degrees()), 60);
    }
    for (const auto& s : day.settings) {
      int right = 0;
      std::set<double> all;
      for (const auto& a : s.answers) {
        right += a.mistake == SettingItem::Mistake::none;
        all.insert(std::round(a.bearing.in_degrees()));
      }
      EXPECT_EQ(right, 1);
      EXPECT_GE(all.size(), 3U);
      // right by hand: the angle on the grid, less grid-magnetic
      const double grid = std::atan2(s.to.east_m - s.from.east_m, s.to.north_m - s.from.north_m) *
                          57.29577951308232;
      EXPECT_NEAR(std::remainder(s.right.in_degrees() - (grid - gm), 360), 0, 1e-9);
      ++settings;
    }
    for (const auto& f : day.features) {
      EXPECT_LE(f.seen_from_m, 60);
      EXPECT_GE(f.difficulty, 0.05);
      EXPECT_EQ(f.road_words.empty(), !f.road);
      EXPECT_LT(f.difficulty, 0.8);
      EXPECT_EQ(f.attack_point, f.length_m < 250);
      EXPECT_TRUE(on_map_piece(day.from, f.at) && on_map_piece(day.from, f.from));
      ++features;
    }
    EXPECT_LE(day.features.size(), 10U);
    for (const auto& b : day.bearings)
      EXPECT_TRUE(on_map_piece(day.from, b.from) && on_map_piece(day.from, b.peg));
    for (const auto& s : day.settings)
      EXPECT_TRUE(on_map_piece(day.from, s.from) && on_map_piece(day.from, s.to));
    if (day.forks) {
      EXPECT_GE(day.forks->forks.size(), 12U);
      for (const auto& p : day.forks->line) EXPECT_TRUE(on_map_piece(day.from, p));
      forks += static_cast<int>(day.forks->forks.size());
    }
    drops += static_cast<int>(day.drops.size());
    EXPECT_TRUE(!day.empty() || !day.missing.empty());
  }
  EXPECT_GT(courses, 20);
  EXPECT_GT(features, 50);
  EXPECT_GT(settings, 100);
  EXPECT_GT(drops, 20);
  RecordProperty("features", features);
  RecordProperty("forks", forks);
}

/// Whether a straight way comes within `within_m` of a road or railway from `from_m` on; the lines
/// themselves, segment by segment.
bool comes_to_road(GridPoint a, GridPoint b, double from_m, double within_m) {
  const double length = std::hypot(b.east_m - a.east_m, b.north_m - a.north_m);
  for (double s = std::min(from_m, length);; s = std::min(s + 5, length)) {
    const GridPoint p{a.east_m + s / length * (b.east_m - a.east_m),
                      a.north_m + s / length * (b.north_m - a.north_m)};
    for (const auto& line : fells().map.lines) {
      if (line.label.kind != mapdata::Kind::road && line.label.kind != mapdata::Kind::railway)
        continue;
      if (line.tunnel) continue;
      for (std::size_t i = 1; i < line.points.size(); ++i) {
        const auto u = line.points[i - 1], v = line.points[i];
        const double e = v.east_m - u.east_m, n = v.north_m - u.north_m;
        const double t = std::clamp(
            ((p.east_m - u.east_m) * e + (p.north_m - u.north_m) * n) / (e * e + n * n), 0.0, 1.0);
        if (std::hypot(u.east_m + t * e - p.east_m, u.north_m + t * n - p.north_m) < within_m)
          return true;
      }
    }
    if (s >= length) return false;
  }
}

/// Every cell within `half_m` of the stretch's middle line keeps the slope rule.
void cells_keep(const terrain::Raster<float>& slopes, GridPoint a, GridPoint b, double half_a,
                double half_b, double beyond_m, std::uint64_t seed) {
  const auto& frame = fells().elevation.frame();
  const double length = std::hypot(b.east_m - a.east_m, b.north_m - a.north_m);
  const double east = (b.east_m - a.east_m) / length, north = (b.north_m - a.north_m) / length;
  for (double s = 0; s <= length + beyond_m; s += 30) {
    const double half = half_a + (half_b - half_a) * std::min(1.0, s / length);
    for (double off = -half; off <= half; off += 30) {
      const GridPoint p{a.east_m + s * east + off * north, a.north_m + s * north - off * east};
      ASSERT_TRUE(frame.contains(p)) << seed;
      const auto [row, col] = frame.cell_of(p);
      ASSERT_LE((slopes[row, col]), 30.0F) << seed;
    }
  }
}

/// All parts of a day, by their own rules: features 60 m and three novice sigmas, pace courses 60
/// m, the fork walk 60 m, drops 150 m; none by a road.
TEST(TrainingDays, NoPartOfADayOfManySeedsComesNearWhatHurtsOrToARoad) {
  numeric::Random random(777);
  const auto slopes = terrain::slope_raster(fells().elevation);
  const auto seeds = static_cast<std::uint64_t>(support::of_study(10000, 60));
  int features = 0, paces = 0, drops = 0, walks = 0, bearings = 0;
  for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
    const auto day = make_day(ready(), somewhere(random), "x", -3, seed);
    const double degree = 0.017453292519943295;
    for (const auto& f : day.features) {
      const double l = f.length_m;
      const double across =
          std::sqrt(l * l * (9 + 2.25) * degree * degree + l * 150 * 20.25 * degree * degree);
      const double along = std::sqrt(l * l * (0.0064 + 0.0036) + l * 0.25);
      cells_keep(slopes, f.from, f.at, 60, 60 + 3 * across, 60 + 3 * along, seed);
      EXPECT_FALSE(comes_to_road(f.from, f.at, 40, 15)) << seed;
      ++features;
    }
    for (const auto& p : day.paces) {
      cells_keep(slopes, p.from, p.to, 60, 60, 0, seed);
      EXPECT_FALSE(comes_to_road(p.from, p.to, 0, 15)) << seed;
      ++paces;
    }
    for (const auto& b : day.bearings) {
      EXPECT_FALSE(comes_to_road(b.from, b.peg, 0, 15)) << seed;
      EXPECT_GE(b.road_beside_m.value_or(20), 20) << seed;
      ++bearings;
    }
    for (const auto& d : day.drops) {
      const GridPoint west{d.at.east_m - 130, d.at.north_m}, east{d.at.east_m + 130, d.at.north_m};
      cells_keep(slopes, west, east, 20, 20, 0, seed);
      // From 1 m on: of the place itself, and of no other.
      EXPECT_FALSE(comes_to_road({d.at.east_m - 1, d.at.north_m}, d.at, 1, 60)) << seed;
      ++drops;
    }
    std::vector<std::vector<GridPoint>> lines;
    if (day.forks) lines.push_back(day.forks->line);
    for (const auto& t : day.times) lines.push_back(t.line);
    for (const auto& line : lines) {
      for (std::size_t i = 1; i < line.size(); ++i) {
        if (line[i - 1] == line[i]) continue;
        cells_keep(slopes, line[i - 1], line[i], 30, 30, 0, seed);
        EXPECT_FALSE(comes_to_road(line[i - 1], line[i], 0, 10)) << seed;
      }
      ++walks;
    }
    if (HasFatalFailure()) return;
  }
  EXPECT_GT(features, static_cast<int>(seeds / 2));
  EXPECT_GT(paces + bearings + drops + walks, static_cast<int>(seeds));
  RecordProperty("days", static_cast<int>(seeds));
  RecordProperty("features", features);
  RecordProperty("pace_courses", paces);
  RecordProperty("bearing_courses", bearings);
  RecordProperty("drops", drops);
  RecordProperty("lines", walks);
}

/// Ten thousand seeds as a whole study, a thousand in the suite; the bearing courses' corridor
/// against the cells, as above but coarser.
TEST(TrainingDays, NoCourseOfManySeedsComesNearWhatHurts) {
  numeric::Random random(10000);
  const auto& z = fells().elevation;
  terrain::Raster<float> slopes = terrain::slope_raster(z);
  int courses = 0;
  const auto seeds = static_cast<std::uint64_t>(support::of_study(10000, 1000));
  for (std::uint64_t seed = 1; seed <= seeds; ++seed) {
    const auto courses_here = make_bearing_courses(ready(), somewhere(random), seed);
    for (const auto& b : courses_here) {
      ++courses;
      const double rad = b.bearing.in_radians();
      for (double s = 0; s <= b.length_m + 3 * b.along_sigma_m + 60; s += 30) {
        const double half = 60 + 3 * b.cross_sigma_m * std::min(1.0, s / b.length_m);
        for (double off = -half; off <= half; off += 30) {
          const GridPoint p{b.from.east_m + s * std::sin(rad) + off * std::cos(rad),
                            b.from.north_m + s * std::cos(rad) - off * std::sin(rad)};
          ASSERT_TRUE(z.frame().contains(p)) << seed;
          const auto [row, col] = z.frame().cell_of(p);
          ASSERT_LE((slopes[row, col]), 30.0F) << seed;
        }
      }
    }
  }
  EXPECT_GT(courses, static_cast<int>(seeds / 10));
  RecordProperty("courses", courses);
}

// Difficulty of a feature against a rehearsal: sightings one after another, own random draws.
TEST(TrainingDays, DifficultyIsWhatARehearsalFinds) {
  numeric::Random random(5);
  const auto e = reckoning::errors_of({});
  int compared = 0;
  for (std::uint64_t seed = 1; seed <= 6; ++seed) {
    const auto day = make_day(ready(), somewhere(random), "x", -3, seed);
    for (const auto& f : day.features) {
      int found = 0;
      constexpr int walkers = 4000;
      for (int w = 0; w < walkers; ++w) {
        const double held = e.bearing_sigma * random.normal() + e.compass_sigma * random.normal();
        const double count =
            1 + e.distance_sigma * random.normal() + e.stride_sigma * random.normal();
        double x = 0, y = 0, left = f.length_m;
        while (left > 0) {
          const double step = std::min(left, e.sighting_every_m);
          const double a = held + e.sighting_sigma * random.normal();
          const double d = step * count + e.distance_random * std::sqrt(step) * random.normal();
          x += d * std::sin(a);
          y += d * std::cos(a);
          left -= step;
        }
        found += std::hypot(x, y - f.length_m) <= f.seen_from_m && random.uniform() < f.known;
      }
      EXPECT_NEAR(f.difficulty, 1 - found / static_cast<double>(walkers), 0.05) << f.length_m;
      ++compared;
    }
  }
  EXPECT_GT(compared, 10);
}

}  // namespace
}  // namespace lodeway::learn
