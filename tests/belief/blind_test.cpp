// A blind test: tellings by a model of noise that shares nothing with sight: the heights, falls and
// distances are worked out here from the ground itself (bilinear heights, plain geometry), the
// noise is uniform, triangular and heavy-tailed instead of normal, the map is shifted, the
// altimeter drifts and one answer in twenty is about another place. 200 parties; their 90 % area
// must hold at least 80 in 100.
#include <gtest/gtest.h>

#include <numbers>

#include "lodeway/belief/belief.hpp"
#include "lodeway/fells/skarrow.hpp"
#include "lodeway/io/kinds/kind_rules.hpp"
#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/numeric/random.hpp"
#include "lodeway/tasks/derive.hpp"
#include "lodeway/tasks/threads.hpp"
#include "lodeway/terrain/visibility.hpp"

namespace lodeway::belief {
namespace {
using mapdata::Kind;
using mapdata::Visibility;
using sight::Cue;
using units::GridBearing;
constexpr double degrees = 180 / std::numbers::pi;

class Teller {
 public:
  Teller(const walking::Ground& g, numeric::Random& random) : g_(g), random_(random) {
    shift_ = {16 * flat(), 16 * flat()};
    drift_m_ = 18 * flat();
  }
  std::vector<Report> tell(GridPoint truth, const CuePlanes& planes, bool clear) {
    const auto at = [&] {  // one answer in twenty is about a place 300 to 600 m off
      if (random_.uniform() > 0.05) return truth + shift_;
      return earth::step(truth, GridBearing::degrees(360 * random_.uniform()),
                         300 + 300 * random_.uniform());
    };
    std::vector<Report> out;
    Report r;
    r.value = z(at()) + drift_m_ + 12 * (flat() + flat());
    if (std::isfinite(r.value)) out.push_back(r);
    const auto [fall, slope] = lie_of(at());
    r = {};
    r.cue = Cue::fall;
    r.level = slope < 3;
    r.has_direction = !r.level;
    // most are good, some are a compass point out
    r.direction = GridBearing::degrees(fall + 14 * (flat() + flat()) +
                                       (random_.uniform() < 0.1 ? 45 * sign() : 0));
    if (std::isfinite(fall)) out.push_back(r);
    r = {};
    r.cue = Cue::steepness;
    r.value = std::max(0.0, 1.15 * slope + 5 * (flat() + flat()));  // told too steep
    if (std::isfinite(slope)) out.push_back(r);
    for (const Kind kind : {Kind::path, Kind::stream, Kind::wall, Kind::track}) {
      r = {};
      r.cue = Cue::on_line;
      r.kind = kind;
      const auto [d, lie] = nearest(kind, at());
      r.seen = d < 25 && random_.uniform() < 0.85;
      r.has_direction = r.seen;
      if (r.seen) r.direction = GridBearing::degrees(lie + 12 * (flat() + flat()));
      out.push_back(r);
    }
    if (!clear) return out;
    // two named tops that are really in sight over the ground, one in twelve by a wrong name
    int seen = 0;
    for (int k = 0; k < 40 && seen < 2; ++k) {
      const auto t =
          static_cast<std::size_t>(random_.uniform() * static_cast<double>(planes.things.size()));
      const auto& thing = planes.things[t];
      if (thing.kind != Kind::summit || thing.name.empty() || planes.views[t].empty()) continue;
      terrain::Sight sight;
      sight.target_m = 2;
      if (earth::grid_distance_m(truth, thing.at) > 8000 ||
          terrain::sees(g_.elevation, truth, thing.at, sight) != terrain::Seen::seen)
        continue;
      r = {};
      r.cue = Cue::sees_thing;
      r.thing = static_cast<std::int32_t>(t);
      if (random_.uniform() < 1.0 / 12) {
        for (std::size_t o = 0; o < planes.things.size(); ++o) {
          if (o != t && planes.things[o].kind == Kind::summit && !planes.views[o].empty())
            r.thing = static_cast<std::int32_t>(o);
        }
      }
      r.has_direction = true;
      r.direction = GridBearing::degrees(earth::grid_bearing(truth, thing.at).in_degrees() +
                                         4 * (flat() + flat()));
      out.push_back(r);
      ++seen;
    }
    return out;
  }

 private:
  double flat() { return 2 * random_.uniform() - 1; }
  double sign() { return random_.uniform() < 0.5 ? -1 : 1; }
  double z(GridPoint p) const { return terrain::height_at(g_.elevation, p); }
  std::pair<double, double> lie_of(GridPoint p) const {
    const double east = (z(p + GridPoint{18, 0}) - z(p + GridPoint{-18, 0})) / 36;
    const double north = (z(p + GridPoint{0, 18}) - z(p + GridPoint{0, -18})) / 36;
    return {std::atan2(-east, -north) * degrees, std::atan(std::hypot(east, north)) * degrees};
  }
  std::pair<double, double> nearest(Kind kind, GridPoint p) const {
    double best = 1e9, lie = 0;
    for (const auto& line : g_.map.lines) {
      if (line.label.kind != kind) continue;
      for (std::size_t i = 1; i < line.points.size(); ++i) {
        const auto a = line.points[i - 1], b = line.points[i];
        const double d =
            earth::grid_distance_m(p, a + mapdata::nearest_fraction(a, b, p) * (b - a));
        if (d >= best) continue;
        best = d;
        lie = earth::grid_bearing(a, b).in_degrees();
      }
    }
    return {best, lie};
  }
  const walking::Ground& g_;
  numeric::Random& random_;
  GridPoint shift_;
  double drift_m_ = 0;
};

TEST(Blind, TwoHundredPartiesOfAnotherNoise) {
  auto g = fells::make_skarrow_fells();
  g.kinds = io::built_in_rules().table();
  ASSERT_TRUE(tasks::derive_from_relief(g));
  tasks::Threads threads;
  auto planes = sight::cue_planes(g, walking::Cover(g, walking::Request{}), {}, threads);
  std::vector<std::int32_t> tops;
  for (std::size_t t = 0; t < planes.things.size(); ++t) {
    if (planes.things[t].kind == Kind::summit && !planes.things[t].name.empty())
      tops.push_back(static_cast<std::int32_t>(t));
  }
  sight::look_from(planes, tops, threads);
  const auto robust = sight::perception_of(walking::Skill::practised);
  constexpr std::size_t n = 200;
  std::vector<char> in(n, 0);
  threads.for_each_block(n, [&](std::size_t k) {
    numeric::Random random(77, k);
    const Visibility air = k % 2 == 0 ? Visibility::clear : Visibility::cloud;
    GridPoint last, truth;
    double minutes = 0, heading = 0;
    do {  // walked at any pace from 2 to 4.5 km/h, mostly the way that they think, some not at all
      last = {g.elevation.frame().west_m + 12000 * random.uniform(),
              g.elevation.frame().south_m() + 12000 * random.uniform()};
      minutes = 10 + 30 * random.uniform();
      heading = 360 * random.uniform();
      const double off = random.uniform() < 0.15 ? 360 * random.uniform()
                                                 : 40 * (random.uniform() + random.uniform() - 1);
      truth = earth::step(last, GridBearing::degrees(heading + off),
                          minutes * (2 + 2.5 * random.uniform()) * 1000 / 60);
    } while (!planes.cell(last) || !planes.cell(truth) ||
             planes.bar[*planes.cell(truth)] == walking::Bar::water);
    Teller teller(g, random);
    const auto window = sight::cropped(planes, sight::window_about(last, 3000));
    const auto told = teller.tell(truth, window, air == Visibility::clear);
    const auto b =
        locate(window, LastSure{last, minutes, GridBearing::degrees(heading)}, told, robust, air);
    const auto s = summary(b, window);
    const float share = b.share[*window.cell(truth)];
    in[k] = share > 0 && static_cast<double>(share) >= s.level90;
  });
  const auto held = std::count(in.begin(), in.end(), 1);
  RecordProperty("held", static_cast<int>(held));
  std::printf("blind: %d of 200 in their 90 %% area\n", static_cast<int>(held));
  EXPECT_GE(held, 160);
}
}  // namespace
}  // namespace lodeway::belief
