// On ground that was not made for it: wherever a leg's drill sends a party that missed its end, no
// cliff and no steep band lies in the way. The judge walks the words, metre by metre.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <memory>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include "drops.hpp"
#include "lodeway/io/ground_file/ground_file.hpp"
#include "lodeway/mapdata/along_line.hpp"
#include "lodeway/mapdata/polyline.hpp"
#include "lodeway/reckoning/judge/teller.hpp"
#include "lodeway/walking/cover.hpp"
#include "real_legs.hpp"
#include "support/support.hpp"

namespace drill_real_test {
using namespace lodeway;
using namespace lodeway::reckoning;
using drops::Drops, drops::says, drops::sent_on_m;
using earth::GridPoint;

/// A ground, what drops on it, and who judges legs there: in clear air and in cloud.
struct Scene {
  std::shared_ptr<const landmarks::Fixes> fixes;
  real::Drawer drawer;
  walking::Cover cover;
  Drops drops;
  std::vector<std::unique_ptr<const Judge>> judges;

  Scene(const walking::Ground& ground, double max_slope, std::uint64_t seed,
        const std::vector<walking::Skill>& skills)
      : fixes(std::make_shared<const landmarks::Fixes>(ground.elevation, ground.map, ground.kinds)),
        drawer(ground, *fixes, seed),
        cover(ground, asked(max_slope)),
        drops(ground, cover) {
    for (const auto visibility : {mapdata::Visibility::clear, mapdata::Visibility::cloud}) {
      for (const auto skill : skills) {
        auto party = asked(max_slope).party;
        party.visibility = visibility;
        party.skill = skill;
        judges.push_back(std::make_unique<const Judge>(ground, party, forbidden_of(cover), 0,
                                                       Habits{}, fixes));
      }
    }
  }

  static walking::Request asked(double max_slope) {
    walking::Request out;
    out.party.max_slope_deg = max_slope;
    return out;
  }
};

void walk_the_words(const walking::Ground& ground, double max_slope, std::uint64_t seed,
                    int wanted) {
  Scene scene(ground, max_slope, seed, {walking::Skill::novice, walking::Skill::expert});
  int walked = 0, sent = 0, bounded = 0;
  for (int i = 0; i < 40 * wanted && walked < wanted; ++i) {
    const auto& judge = *scene.judges[static_cast<std::size_t>(i) % scene.judges.size()];
    const auto drawn = scene.drawer.draw(i, judge.party());
    if (!drawn) continue;
    Drift carried = judge.at_fix();
    for (const auto& leg : drawn->way.legs) {
      const auto model = judge.weigh(leg, carried);
      const auto judged = Teller(judge).judged(leg, model);
      const auto& line = leg.course.line;
      if (leg.course.kind != walking::LegKind::bearing || 
          std::holds_alternative<AtLine>(model.end) || nothing_to_see(model.end) || scene.drops.steep(line.back()))
        continue;
      ++walked;
      const double far = sent_on_m(judged.if_lost);
      sent += far > 0 ? 1 : 0;
      bounded += says(judged.if_lost, " beyond") ? 1 : 0;
      const auto v = line.back() - line[line.size() - 2];
      const auto met = scene.drops.on(line.back(), (1 / std::hypot(v.east_m, v.north_m)) * v, far);
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

/// The search along a line that a leg was aimed off to, by parties that met it at the aim and two
/// sigmas to either hand of it: first towards the end, then the other way; and straight on by those
/// who do not meet it.
void search_the_lines(const walking::Ground& ground, double max_slope, std::uint64_t seed,
                      int wanted) {
  Scene scene(ground, max_slope, seed, {walking::Party{}.skill});
  int searched = 0, bounded = 0, no_search = 0, not_met = 0;
  for (int i = 0; i < 60 * wanted && searched < wanted; ++i) {
    const auto& judge = *scene.judges[static_cast<std::size_t>(i) % scene.judges.size()];
    const auto drawn = scene.drawer.draw(i, judge.party());
    if (!drawn) continue;
    Drift carried = judge.at_fix();
    for (const auto& leg : drawn->way.legs) {
      const auto m = judge.weigh(leg, carried);
      const AtLine* end = aimed_off(m.end);
      if (end == nullptr) continue;
      const auto text = Teller(judge).judged(leg, m).if_lost;
      const auto& line = judge.guides().line(end->place.line).points;
      const bool path = walking::is_path(judge.guides().line(end->place.line).label.kind);
      const auto first =
          says(text, "Do not follow ") ? std::optional(0.0) : drops::after(text, "after ");
      ASSERT_TRUE(first) << text;
      if (scene.drops.steep(m.to) || scene.drops.steep(m.aim)) continue;
      ++searched;
      const double all = mapdata::length_m(line), aimed = std::abs(end->offset_m);
      const double towards_aim = end->offset_m > 0 ? 1 : -1;
      const auto most = drops::after(text, "at most ");
      bounded += says(text, "ground to keep off lies beyond") ? 1 : 0;
      no_search += *first < aimed ? 1 : 0;
      for (const double sigmas : {-2.0, 0.0, 2.0}) {
        const double met = end->place.along_m + towards_aim * (aimed + sigmas * end->line_sigma_m);
        const auto walk = [&](double from, double direction, double far) {
          const double left = direction > 0 ? all - from : from;
          return scene.drops.along(
              [&](double d) { return mapdata::point_along(line, from + direction * d); },
              std::min(far, left), path);
        };
        if (met < 0 || met > all || scene.drops.steep(mapdata::point_along(line, met))) continue;
        const auto on = walk(met, -towards_aim, *first);
        EXPECT_FALSE(on) << ground.name << ", draw " << i << ", " << sigmas
                         << " sigmas: a drop after " << on.value_or(0) << " m: " << text;
        const double turned = std::clamp(met - towards_aim * *first, 0.0, all);
        const auto back =
            walk(turned, towards_aim,
                 std::abs(met - turned) + (says(text, "no farther") ? 0 : most.value_or(*first)));
        EXPECT_FALSE(back) << ground.name << ", draw " << i << ", " << sigmas
                           << " sigmas, the other way: a drop after " << back.value_or(0)
                           << " m: " << text;
      }
      const auto past = drops::before(text, " m past your count");
      not_met += says(text, "past your count") || says(text, "by your count") ? 1 : 0;
      if (scene.cover.bar_at(m.aim) != walking::Bar::none) continue;  // the line itself
      const auto v = m.aim - m.from;
      const double far = says(text, "not met by your count") ? 0 : past.value_or(end->beyond_m);
      const auto ahead = scene.drops.on(m.aim, (1 / std::hypot(v.east_m, v.north_m)) * v, far);
      EXPECT_FALSE(ahead) << ground.name << ", draw " << i << ": a drop " << ahead.value_or(0)
                          << " m past the aim: " << text;
    }
  }
  std::printf(
      "%s: %d searches along a line, %d of them bounded by what lies there, %d told what to do "
      "where it is not met; %d where there is no search\n",
      ground.name.c_str(), searched, bounded, not_met, no_search);
  EXPECT_GE(searched, wanted / 2);
}

TEST(DrillOnRealGround, OnTheSkarrowFells) {
  const support::TemporaryFolder folder;
  ASSERT_EQ(support::skarrow_ground(folder / "fells.gpkg").status, 0);
  const auto ground = opened(folder / "fells.gpkg");
  walk_the_words(ground, 35, 31, support::of_study(1200, 300));
  search_the_lines(ground, 35, 41, support::of_study(400, 80));
}

TEST(DrillOnRealGround, AtSpearfish) {
  LODEWAY_NEEDS_SHARED(data);
  const std::string sf = data + "/spearfish-sd/";
  const support::TemporaryFolder folder;
  ASSERT_EQ(
      support::run_lodeway({"ground", "build", folder / "sf.gpkg", "--elevation", sf + "sfdem.tif",
                            "--features", sf + "roads.shp", "--features", sf + "streams.shp"})
          .status,
      0);
  const auto ground = opened(folder / "sf.gpkg");
  walk_the_words(ground, 25, 32, support::of_study(1200, 300));
  search_the_lines(ground, 15, 42, support::of_study(400, 80));
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
  search_the_lines(ground, 40, 43, support::of_study(200, 40));
}
}  // namespace drill_real_test
