// On ground that was not made for it: no escape route goes over ground to keep off, and nothing
// that its card says of who misses an end leads over a drop. The judge walks lines and words metre
// by metre; cliffs and water it takes from the map itself.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <memory>
#include <string>

#include <gtest/gtest.h>

#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/mapdata/along_line.hpp"
#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/numeric/random.hpp"
#include "lodeway/reckoning/judge/teller.hpp"
#include "lodeway/reckoning/rehearsal/rehearsal.hpp"
#include "lodeway/route/escape/escape_routes.hpp"
#include "lodeway/terrain/slope.hpp"
#include "reckoning/drops.hpp"
#include "support/support.hpp"

namespace {
using namespace lodeway;
using namespace lodeway::route;
using earth::GridPoint;
using walking::LegKind;

/// What a walk may not come to, found by plain geometry.
class KeepOff {
 public:
  KeepOff(const walking::Ground& ground, const walking::Cover& cover)
      : ground_(ground), drops_(ground, cover) {}

  [[nodiscard]] bool in_water(GridPoint p) const {
    for (const auto& area : ground_.map.areas) {
      if (area.label.kind != mapdata::Kind::lake && area.label.kind != mapdata::Kind::sea) continue;
      bool in = inside(area.outer, p);
      for (const auto& hole : area.holes) in = in != inside(hole, p);
      if (in) return true;
    }
    return false;
  }
  /// Empty: nothing. A leg may begin and end beside water or on a summit's own cell, so a cell's
  /// width there is not looked at.
  [[nodiscard]] std::string on(const std::vector<GridPoint>& line) const {
    const double cell = ground_.elevation.frame().cell_m, all = mapdata::length_m(line);
    const auto at = [&](double m) { return mapdata::point_along(line, cell + m); };
    if (const auto m = drops_.along(at, all - 2 * cell))
      return "a drop after " + std::to_string(*m + cell) + " m";
    for (double m = cell; m < all - cell; m += 2)
      if (in_water(mapdata::point_along(line, m))) return "water after " + std::to_string(m) + " m";
    return "";
  }
  [[nodiscard]] const drops::Drops& drops() const { return drops_; }

 private:
  static bool inside(const std::vector<GridPoint>& ring, GridPoint p) {
    bool in = false;
    for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
      const auto &a = ring[i], &b = ring[j];
      if ((a.north_m > p.north_m) != (b.north_m > p.north_m) &&
          p.east_m <
              a.east_m + (p.north_m - a.north_m) / (b.north_m - a.north_m) * (b.east_m - a.east_m))
        in = !in;
    }
    return in;
  }
  const walking::Ground& ground_;
  drops::Drops drops_;
};

/// A trip of three random places, as the quickest line has it, and what leads off it.
class Trips {
 public:
  /// `parties`: so many walk each route that leaves from a known place.
  Trips(const walking::Ground& ground, double max_slope, mapdata::Visibility visibility,
        std::size_t parties = 0)
      : ground_(ground),
        request_(asked(max_slope, visibility)),
        prepared_(ground, request_),
        parties_(parties) {}

  void walk(numeric::Random& random, int wanted) {
    const KeepOff keep_off(ground_, prepared_.cover);
    for (int i = 0; i < 20 * wanted && trips_ < wanted; ++i) {
      request_.points = {{"A", place(random)}, {"B", place(random)}, {"C", place(random)}};
      const Cutting cutting{ground_, prepared_, around_, request_, units::Language::english};
      walking::Way way;
      bool whole = true;
      for (std::size_t k = 1; k < request_.points.size() && whole; ++k) {
        auto legs = given_stretch(cutting, request_.points[k - 1], request_.points[k]);
        whole = legs.has_value();
        if (whole) std::ranges::move(*legs, std::back_inserter(way.legs));
      }
      if (!whole) continue;
      ++trips_;
      const auto judged = reckoning::Teller(judge_).judged(way);
      const EscapeRoutes routes(cutting, judge_, 0.05, {hazards_, fixes_, slopes_, &kept_});
      numeric::Serial serial;
      const auto found = routes.of({&judged}, serial).of_ways.front();
      for (std::size_t k = 0; k < found.size(); ++k) {
        for (const auto& route : found[k]) {
          judge(route, keep_off);
          if (parties_ > 0 && route.from == reckoning::LeavesAt::start) rehearse(judged, k, route);
        }
      }
    }
  }
  void report(int least_trips) const {
    std::printf("%s: %d trips, %d routes of %d legs, %d on a bearing, %d sent on past their end\n",
                ground_.name.c_str(), trips_, routes_, legs_, straight_, sent_);
    EXPECT_GE(trips_, least_trips);
    EXPECT_GE(straight_, routes_ / 20);
  }

  /// Prints a row of the table in docs/results.md.
  void report_rehearsed() const {
    ASSERT_GE(rehearsed_.routes, 3U);
    const double n = static_cast<double>(rehearsed_.routes);
    std::printf("| %s | %zu | %.1f | %.1f | %zu |", ground_.name.c_str(), rehearsed_.routes,
                100 * rehearsed_.predicted / n, 100 * rehearsed_.kept / n, rehearsed_.known);
    if (const double from = static_cast<double>(rehearsed_.known); from > 0)
      std::printf(" %.1f | %.1f | %.1f |", 100 * rehearsed_.through / from,
                  100 * rehearsed_.keep_off_predicted / from, 100 * rehearsed_.keep_off / from);
    std::printf("\n");
    // What is told is the lesser of two conditions: those who walk keep no less, but for the error
    // of the closed form and of the count.
    EXPECT_GE(rehearsed_.kept / n, rehearsed_.predicted / n - 0.04);
  }

 private:
  /// Walks to the place by the trip's own legs and off it, and counts those that had kept these: so
  /// they leave with the error that they have come to. What becomes of all is counted where the
  /// place is known, by parties that set out there.
  void rehearse(const reckoning::JudgedWay& trip, std::size_t done,
                const reckoning::Escape& route) {
    if (route.legs.empty()) return;
    numeric::Serial serial;
    const bool known = done == 0 || trip.legs[done - 1].judged.fix_at_end;
    const std::size_t before = known ? 0 : done;
    walking::Way way{"",
                     {trip.legs.begin(), trip.legs.begin() + static_cast<std::ptrdiff_t>(before)}};
    way.legs.insert(way.legs.end(), route.legs.begin(), route.legs.end());
    const auto walked = reckoning::rehearse(ground_, judge_, way, {parties_, 7, 0}, serial);
    ASSERT_TRUE(walked);
    const auto set_out = walked->legs[before].walkers_on_course;
    if (set_out < parties_ / 3) return;  // too few to count
    ++rehearsed_.routes;
    rehearsed_.predicted += route.certainty;
    rehearsed_.kept +=
        static_cast<double>(walked->legs.back().kept_on_course) / static_cast<double>(set_out);
    if (!known) return;
    ++rehearsed_.known;
    rehearsed_.through += 1 - walked->turned_back_share;
    rehearsed_.keep_off_predicted += route.hazard_probability;
    rehearsed_.keep_off += walked->hazard_share;
  }
  static walking::Request asked(double max_slope, mapdata::Visibility visibility) {
    walking::Request out;
    out.party.max_slope_deg = max_slope;
    out.party.visibility = visibility;
    return out;
  }
  [[nodiscard]] GridPoint place(numeric::Random& random) const {
    const auto& f = ground_.elevation.frame();
    const double side = 4000;  // within a box in the middle of the ground
    const GridPoint middle{0.5 * (f.west_m + f.east_m()), 0.5 * (f.south_m() + f.north_m)};
    return middle + GridPoint{side * (random.uniform() - 0.5), side * (random.uniform() - 0.5)};
  }
  void judge(const reckoning::Escape& route, const KeepOff& keep_off) {
    routes_ += route.legs.empty() ? 0 : 1;
    for (const auto& leg : route.legs) {
      ++legs_;
      const auto& line = leg.course.line;
      const auto where = [&] {
        return ground_.name + ": to " + route.to + ", leg " + leg.course.from + " - " +
               leg.course.to + ", " + leg.judged.if_lost;
      };
      if (leg.course.kind != LegKind::bearing) continue;  // a path goes where it goes
      ++straight_;
      EXPECT_EQ(keep_off.on(line), "") << where();
      const double far = drops::sent_on_m(leg.judged.if_lost);
      sent_ += far > 0 ? 1 : 0;
      const auto v = line.back() - line[line.size() - 2];
      const double length = std::hypot(v.east_m, v.north_m);
      if (keep_off.drops().steep(line.back()) || length <= 0) continue;
      const auto met = keep_off.drops().on(line.back(), (1 / length) * v, far);
      EXPECT_FALSE(met) << where() << ": a drop after " << met.value_or(0) << " m";
    }
  }

  const walking::Ground& ground_;
  walking::Request request_;
  Prepared prepared_;
  landmarks::Surroundings around_{ground_.elevation, ground_.map, ground_.kinds};
  terrain::Raster<float> slopes_ = terrain::slope_raster(ground_.elevation);
  std::shared_ptr<const reckoning::HazardGround> hazards_ =
      std::make_shared<const reckoning::HazardGround>(reckoning::forbidden_of(prepared_.cover));
  std::shared_ptr<const landmarks::Fixes> fixes_ =
      std::make_shared<const landmarks::Fixes>(ground_.elevation, ground_.map, ground_.kinds);
  reckoning::Judge judge_{ground_,  request_.party,           0.4,   {},
                          hazards_, fixes_};
  KeptFields kept_{1};
  std::size_t parties_;
  struct {
    std::size_t routes = 0, known = 0;
    double predicted = 0, kept = 0, through = 0, keep_off_predicted = 0, keep_off = 0;
  } rehearsed_;
  int trips_ = 0, routes_ = 0, legs_ = 0, straight_ = 0, sent_ = 0;
};

void walk_off(const walking::Ground& ground, double max_slope, std::uint64_t seed, int wanted) {
  numeric::Random random(seed, 0);
  for (const auto visibility : {mapdata::Visibility::clear, mapdata::Visibility::snow}) {
    Trips trips(ground, max_slope, visibility);
    trips.walk(random, wanted);
    trips.report(wanted / 2);
  }
}

/// In cloud, which is what a route is judged in besides the trip's own weather.
void rehearse_off(const walking::Ground& ground, double max_slope, std::uint64_t seed, int wanted) {
  numeric::Random random(seed, 0);
  Trips trips(ground, max_slope, mapdata::Visibility::cloud, 300);
  trips.walk(random, wanted);
  trips.report_rehearsed();
}

/// Built by the program from real data, and opened.
walking::Ground built(const std::vector<std::string>& words) {
  const support::TemporaryFolder folder;
  std::vector<std::string> all{"ground", words.front(), folder / "g.gpkg"};
  all.insert(all.end(), words.begin() + 1, words.end());
  EXPECT_EQ(support::run_lodeway(all).status, 0);
  auto ground = io::open_ground(folder / "g.gpkg");
  EXPECT_TRUE(ground) << ground.error().what;
  return std::move(*ground);
}

walking::Ground fells() {
  const support::TemporaryFolder folder;
  EXPECT_EQ(support::skarrow_ground(folder / "g.gpkg").status, 0);
  auto ground = io::open_ground(folder / "g.gpkg");
  EXPECT_TRUE(ground) << ground.error().what;
  return std::move(*ground);
}
walking::Ground spearfish(const std::string& data) {
  const std::string sf = data + "/spearfish-sd/";
  return built({"build", "--name", "Spearfish", "--elevation", sf + "sfdem.tif", "--features",
                sf + "roads.shp", "--features", sf + "streams.shp"});
}
walking::Ground interlaken(const std::string& data) {
  return built({"build", "--name", "Interlaken", "--elevation",
                data + "/dem-interlaken-25m/dhm25_interlaken_lv95.tif"});
}

TEST(EscapeOnRealGround, OnTheSkarrowFells) { walk_off(fells(), 35, 51, support::of_study(60, 5)); }
TEST(EscapeOnRealGround, AtSpearfish) {
  LODEWAY_NEEDS_SHARED(data);
  walk_off(spearfish(data), 25, 52, support::of_study(40, 8));
}
TEST(EscapeOnRealGround, AboveInterlaken) {
  LODEWAY_NEEDS_SHARED(data);
  walk_off(interlaken(data), 40, 53, support::of_study(40, 6));
}

TEST(EscapesRehearsed, OnTheSkarrowFells) {
  rehearse_off(fells(), 35, 61, support::of_study(30, 3));
}
TEST(EscapesRehearsed, AtSpearfish) {
  LODEWAY_NEEDS_SHARED(data);
  rehearse_off(spearfish(data), 25, 62, support::of_study(30, 8));
}
TEST(EscapesRehearsed, AboveInterlaken) {
  LODEWAY_NEEDS_SHARED(data);
  rehearse_off(interlaken(data), 40, 63, support::of_study(30, 3));
}
}  // namespace
