#include "lodeway/route/field/party_ground.hpp"

#include <gtest/gtest.h>

#include <string>
#include <thread>

#include "lodeway/route/choose/way_finder.hpp"
#include "route/made_ground.hpp"

namespace lodeway::route {
namespace {

using made::at;
using mapdata::Kind;

TEST(LastFew, KeepsTheLatest) {
  LastFew<int, std::string> few(2);
  few.keep(1, std::make_shared<const std::string>("one"));
  few.keep(2, std::make_shared<const std::string>("two"));
  const auto one = few.find(1);  // asked for: now the latest
  few.keep(3, std::make_shared<const std::string>("three"));
  EXPECT_EQ(few.find(2), nullptr);
  EXPECT_EQ(few.find(1), one);
  few.keep(1, std::make_shared<const std::string>("uno"));
  EXPECT_EQ(*few.find(1), "uno");
  EXPECT_EQ(*one, "one");  // lives on with who has it
  EXPECT_EQ(*few.find(3), "three");
  LastFew<int, std::string> none(0);
  none.keep(1, one);
  EXPECT_EQ(none.find(1), nullptr);
}

TEST(LastFew, FromManyThreads) {
  constexpr int threads = 4, turns = 3000;
  LastFew<int, int> few(3);
  std::vector<int> wrong(threads, 0), found(threads, 0);
  {
    std::vector<std::jthread> all;
    for (int t = 0; t < threads; ++t) {
      all.emplace_back([&, t] {
        auto& bad = wrong[static_cast<std::size_t>(t)];
        for (int i = 0; i < turns; ++i) {
          const int question = i / 4 * (t + 1) % 5;
          if (const auto answer = few.find(question)) {
            bad += *answer != 10 * question;
            ++found[static_cast<std::size_t>(t)];
          } else {
            few.keep(question, std::make_shared<const int>(10 * question));
          }
        }
      });
    }
  }
  EXPECT_EQ(wrong, std::vector<int>(threads, 0));
  for (const int f : found) EXPECT_GT(f, 0);
}

/// Open ground, a wall and a path over it, a road below, a lake in between.
walking::Ground fells() {
  auto g = made::ground();
  g.kinds[Kind::road].leads = true;
  made::line(g, Kind::wall, {at(300, 900), at(800, 1300), at(1700, 1200)});
  made::line(g, Kind::path, {at(300, 900), at(900, 700), at(1700, 900)});
  made::line(g, Kind::road, {at(100, 200), at(1900, 200)}, "Low road");
  made::box(g, Kind::lake, at(1000, 900), at(1200, 1100), "Mirk Tarn");
  for (const auto fold : {at(300, 900), at(800, 1300), at(1700, 1200), at(1700, 900)})
    g.map.points.push_back({{Kind::sheepfold, "Fold"}, fold, 0});
  return g;
}

/// Trips that are like the one before in this and that.
std::vector<walking::Request> trips() {
  walking::Request r;
  r.points = {{"start", at(320, 890)}, {"end", at(1690, 1190)}};
  std::vector<walking::Request> out{r};
  const auto change = [&](auto&& what) {
    what(r);
    out.push_back(r);
  };
  change([](auto& q) { q.points[0].at = at(500, 500); });
  change([](auto& q) { q.party.skill = walking::Skill::novice; });
  change([](auto& q) { q.party.visibility = mapdata::Visibility::cloud; });
  change([](auto& q) { q.party.flat_speed_kmh = 5; });
  change([](auto& q) { q.avoid = {{"bog", {at(600, 600), at(800, 600), at(700, 800)}}}; });
  change([](auto& q) { q.safe = {{"bothy", at(1000, 1600)}}; });
  change([](auto& q) { q.party.max_slope_deg = 20; });
  change([](auto& q) { q.points.push_back({"on", at(1690, 900)}); });
  out.push_back(out.front());
  return out;
}

void expect_same(const Ways& a, const Ways& b) {
  EXPECT_EQ(a.remarks, b.remarks);
  ASSERT_EQ(a.ways.size(), b.ways.size());
  ASSERT_EQ(a.front.size(), b.front.size());
  for (std::size_t i = 0; i < a.front.size(); ++i) {
    EXPECT_EQ(a.front[i].seconds, b.front[i].seconds);
    EXPECT_EQ(a.front[i].loss, b.front[i].loss);
  }
  for (std::size_t w = 0; w < a.ways.size(); ++w) {
    const auto &x = a.ways[w], &y = b.ways[w];
    EXPECT_EQ(x.way.certainty, y.way.certainty);
    EXPECT_EQ(x.minutes, y.minutes);
    EXPECT_EQ(x.rehearsed, y.rehearsed);
    ASSERT_EQ(x.way.legs.size(), y.way.legs.size());
    for (std::size_t i = 0; i < x.way.legs.size(); ++i) {
      const auto &p = x.way.legs[i], &q = y.way.legs[i];
      EXPECT_EQ(p.course.line, q.course.line);
      EXPECT_EQ(p.course.to, q.course.to);
      const auto &off = x.escapes.at(i), &same = y.escapes.at(i);
      ASSERT_EQ(off.size(), same.size());
      for (std::size_t k = 0; k < off.size(); ++k) {
        EXPECT_EQ(off[k].to, same[k].to);
        EXPECT_EQ(off[k].minutes, same[k].minutes);
        EXPECT_EQ(off[k].certainty, same[k].certainty);
      }
    }
  }
}

Ways found(const WayFinder& finder, const walking::Request& request) {
  numeric::Serial serial;
  Wishes wishes;
  wishes.walkers = 200;
  auto ways = finder.find(request, wishes, serial);
  EXPECT_TRUE(ways) << (ways ? "" : ways.error().what);
  return ways ? *std::move(ways) : Ways{};
}

// No answer rests on who asked before: one finder asked for trip after trip, forth and back, and by
// several at once, against a new finder for each.
TEST(PartyGrounds, TheSameAnswerWhoeverAskedBefore) {
  const auto g = fells();
  const auto all = trips();
  std::vector<Ways> anew;
  bool any_off = false;
  for (const auto& trip : all) {
    anew.push_back(found(WayFinder(g), trip));
    for (const auto& of_leg : anew.back().ways.front().escapes) {
      for (const auto& off : of_leg) any_off |= !off.legs.empty();
    }
  }
  EXPECT_TRUE(any_off);
  const WayFinder finder(g);
  for (std::size_t i = 0; i < all.size(); ++i) expect_same(found(finder, all[i]), anew[i]);
  for (std::size_t i = all.size(); i-- > 0;) expect_same(found(finder, all[i]), anew[i]);
  std::vector<Ways> at_once(all.size());
  {
    std::vector<std::jthread> threads;
    for (std::size_t i = 0; i < all.size(); ++i)
      threads.emplace_back([&, i] { at_once[i] = found(finder, all[i]); });
  }
  for (std::size_t i = 0; i < all.size(); ++i) expect_same(at_once[i], anew[i]);
}

TEST(PartyGrounds, KeptForOneSortOnly) {
  const auto g = fells();
  PartyGrounds grounds(g);
  numeric::Serial serial;
  const terrain::Raster<float> slopes(g.elevation.frame(), 0.0F);
  auto r = trips().front();
  const auto first = grounds.of(g, r, slopes, serial);
  r.party.skill = walking::Skill::expert;
  r.points[0].at = at(900, 300);
  EXPECT_EQ(grounds.of(g, r, slopes, serial), first);
  for (int other = 1; other <= 3; ++other) {
    r.party.max_slope_deg -= 1;
    EXPECT_NE(grounds.of(g, r, slopes, serial), first);
  }
  r.party.max_slope_deg += 3;
  EXPECT_NE(grounds.of(g, r, slopes, serial), first);  // three others since: forgotten
}

}  // namespace
}  // namespace lodeway::route
