// Courses on the invented fells: what must never happen, over many seeds.
#include <gtest/gtest.h>

#include <cmath>
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
      EXPECT_LT(f.difficulty, 0.8);
      EXPECT_EQ(f.attack_point, f.length_m < 250);
      EXPECT_TRUE(on_map_piece(day.from, f.at) && on_map_piece(day.from, f.from));
      ++features;
    }
    EXPECT_LE(day.features.size(), 10U);
    for (const auto& b : day.bearings)
      EXPECT_TRUE(on_map_piece(day.from, b.from) && on_map_piece(day.from, b.peg));
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
