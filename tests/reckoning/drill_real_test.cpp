// On ground that was not made for it: wherever a leg's drill sends a party that missed its end, no
// cliff and no steep band lies in the way. The judge walks the words, metre by metre.
#include <cmath>
#include <cstdlib>
#include <optional>
#include <string>

#include <gtest/gtest.h>

#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/reckoning/judge/judge.hpp"
#include "lodeway/walking/cover.hpp"
#include "real_legs.hpp"
#include "support/support.hpp"

namespace {
using namespace lodeway;
using namespace lodeway::reckoning;
using earth::GridPoint;

bool says(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

/// The metres that stand before some words, or after; nothing where they are not there.
std::optional<double> before(const std::string& text, const std::string& words) {
  const auto at = text.find(words);
  if (at == std::string::npos) return std::nullopt;
  auto from = at;
  while (from > 0 && (std::isdigit(static_cast<unsigned char>(text[from - 1])) != 0)) --from;
  return from == at ? std::nullopt : std::optional(std::atof(text.substr(from, at - from).c_str()));
}
std::optional<double> after(const std::string& text, const std::string& words) {
  const auto at = text.find(words);
  if (at == std::string::npos) return std::nullopt;
  return std::atof(text.c_str() + at + words.size());
}

/// How far straight on a party may go past a bearing leg's end by these words.
double sent_on_m(const std::string& text) {
  if (says(text, "Do not go ")) return 0;
  if (const auto most = after(text, "at most "); most && says(text, "past your count")) return *most;
  if (const auto past = before(text, " m past your count")) return *past;
  if (const auto past = before(text, " m too far")) return *past;
  return 0;
}

bool cross(GridPoint a, GridPoint b, GridPoint c, GridPoint d) {
  const auto side = [](GridPoint p, GridPoint q, GridPoint r) {
    return (q.east_m - p.east_m) * (r.north_m - p.north_m) -
           (q.north_m - p.north_m) * (r.east_m - p.east_m);
  };
  return (side(a, b, c) > 0) != (side(a, b, d) > 0) && (side(c, d, a) > 0) != (side(c, d, b) > 0);
}

/// The first metre of a walk that is on ground over the slope limit or steps over a cliff; nothing:
/// all of it is clear.
class Drops {
 public:
  Drops(const walking::Ground& ground, const walking::Cover& cover) : ground_(ground), cover_(cover) {}

  [[nodiscard]] bool steep(GridPoint p) const {
    return cover_.bar_at(p) == walking::Bar::steep;
  }
  [[nodiscard]] std::optional<double> on(GridPoint from, GridPoint direction, double far) const {
    constexpr double step = 2;
    for (double m = step; m <= far; m += step) {
      const auto a = from + (m - step) * direction, b = from + m * direction;
      if (steep(b)) return m;
      for (const auto& line : ground_.map.lines) {
        if (line.label.kind != mapdata::Kind::cliff || line.tunnel) continue;
        for (std::size_t i = 1; i < line.points.size(); ++i)
          if (cross(a, b, line.points[i - 1], line.points[i])) return m;
      }
    }
    return std::nullopt;
  }

 private:
  const walking::Ground& ground_;
  const walking::Cover& cover_;
};

void walk_the_words(const walking::Ground& ground, double max_slope, std::uint64_t seed, int wanted) {
  const auto fixes =
      std::make_shared<const landmarks::Fixes>(ground.elevation, ground.map, ground.kinds);
  real::Drawer drawer(ground, *fixes, seed);
  walking::Request request;
  request.party.max_slope_deg = max_slope;
  const walking::Cover cover(ground, request);
  const Drops drops(ground, cover);
  std::vector<std::unique_ptr<const Judge>> judges;
  for (const auto visibility : {mapdata::Visibility::clear, mapdata::Visibility::cloud}) {
    for (const auto skill : {walking::Skill::novice, walking::Skill::expert}) {
      walking::Party party = request.party;
      party.visibility = visibility;
      party.skill = skill;
      judges.push_back(std::make_unique<const Judge>(ground, party, forbidden_of(cover), 0, Habits{},
                                                     units::Language::english, fixes));
    }
  }
  int walked = 0, sent = 0, bounded = 0;
  for (int i = 0; i < 40 * wanted && walked < wanted; ++i) {
    const auto& judge = *judges[static_cast<std::size_t>(i) % judges.size()];
    const auto drawn = drawer.draw(i, judge.party());
    if (!drawn) continue;
    Drift carried = judge.at_fix();
    for (const auto& leg : drawn->way.legs) {
      const auto model = judge.weigh(leg, carried);
      const auto judged = judge.judged(leg, model);
      const auto& line = leg.course.line;
      if (leg.course.kind != walking::LegKind::bearing || model.end == EndKind::line ||
          model.end == EndKind::turn || drops.steep(line.back()))
        continue;
      ++walked;
      const double far = sent_on_m(judged.if_lost);
      sent += far > 0 ? 1 : 0;
      bounded += says(judged.if_lost, " beyond") ? 1 : 0;
      const auto v = line.back() - line[line.size() - 2];
      const auto met = drops.on(line.back(), (1 / std::hypot(v.east_m, v.north_m)) * v, far);
      EXPECT_FALSE(met) << ground.name << ", draw " << i << ": a drop after " << met.value_or(0)
                        << " m: " << judged.if_lost;
    }
  }
  std::printf("%s: %d ends, %d sent on, %d of them bounded by what lies there\n",
              ground.name.c_str(), walked, sent, bounded);
  EXPECT_GE(walked, wanted / 2);
  EXPECT_GE(sent, walked / 4);
}

walking::Ground opened(const std::string& path) {
  auto ground = io::open_ground(path);
  EXPECT_TRUE(ground) << ground.error().what;
  return std::move(*ground);
}

TEST(DrillOnRealGround, OnTheSkarrowFells) {
  const support::TemporaryFolder folder;
  ASSERT_EQ(support::run_lodeway({"ground", "demo", folder / "fells.gpkg"}).status, 0);
  const auto ground = opened(folder / "fells.gpkg");
  walk_the_words(ground, 35, 31, support::of_study(1200, 300));
}

TEST(DrillOnRealGround, AtSpearfish) {
  LODEWAY_NEEDS_SHARED(data);
  const std::string sf = data + "/spearfish-sd/";
  const support::TemporaryFolder folder;
  ASSERT_EQ(support::run_lodeway({"ground", "build", folder / "sf.gpkg", "--elevation",
                                  sf + "sfdem.tif", "--features", sf + "roads.shp", "--features",
                                  sf + "streams.shp"})
                .status,
            0);
  const auto ground = opened(folder / "sf.gpkg");
  walk_the_words(ground, 25, 32, support::of_study(1200, 300));
}

TEST(DrillOnRealGround, AboveInterlaken) {
  LODEWAY_NEEDS_SHARED(data);
  const support::TemporaryFolder folder;
  ASSERT_EQ(support::run_lodeway({"ground", "build", folder / "i.gpkg", "--elevation",
                                  data + "/dem-interlaken-25m/dhm25_interlaken_lv95.tif"})
                .status,
            0);
  const auto ground = opened(folder / "i.gpkg");
  walk_the_words(ground, 40, 33, support::of_study(600, 150));
}
}  // namespace
