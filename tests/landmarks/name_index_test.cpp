// Names are found as people type them: beginnings, words, slips; and told by rank.
#include <gtest/gtest.h>

#include "lodeway/fells/skarrow.hpp"
#include "lodeway/landmarks/name_index.hpp"

namespace {

using namespace lodeway;
using landmarks::Fit;

std::string small(std::string_view text) {
  std::string out(text);
  for (auto& c : out) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return out;
}

const walking::Ground& fells() {
  static const auto made = fells::make_skarrow_fells();
  return made;
}
const landmarks::NameIndex& index() {
  static const landmarks::NameIndex made(fells().elevation, fells().map, small);
  return made;
}
std::vector<landmarks::FoundName> find(std::string_view typed) {
  return index().find(typed, {481949, 6050540}, 8, small);
}
std::string first(std::string_view typed) {
  const auto found = find(typed);
  return found.empty() ? "" : index().all()[found.front().index].name;
}

// Damerau 1964, Comm. ACM 7:171-176: one wrong, one missing, one too many, two turned round.
TEST(NameIndex, EachOfDameraus4SlipsCountsOne) {
  EXPECT_EQ(landmarks::slips_to_begin("harrik", "harrik pike", 2), 0);
  EXPECT_EQ(landmarks::slips_to_begin("harrek", "harrik pike", 2), 1);
  EXPECT_EQ(landmarks::slips_to_begin("harik", "harrik pike", 2), 1);
  EXPECT_EQ(landmarks::slips_to_begin("harrrik", "harrik pike", 2), 1);
  EXPECT_EQ(landmarks::slips_to_begin("harirk", "harrik pike", 2), 1);
  EXPECT_EQ(landmarks::slips_to_begin("horrek", "harrik pike", 2), 2);
  EXPECT_EQ(landmarks::slips_to_begin("borsek", "harrik pike", 2), 3) << "more than is looked for";
}

TEST(NameIndex, AWholeNameIsFirstThenBeginningsThenWords) {
  EXPECT_EQ(first("Harrik Pike"), "Harrik Pike");
  EXPECT_EQ(first("harrik"), "Harrik Pike");
  EXPECT_EQ(find("harrik pike").front().fit, Fit::whole);
  EXPECT_EQ(find("harrik").front().fit, Fit::beginning);
  EXPECT_EQ(find("pike").front().fit, Fit::word);
}

TEST(NameIndex, SlipsAreForgivenOnlyWhereNothingFitsWithout) {
  const auto slip = find("Harirk Pike");
  ASSERT_FALSE(slip.empty());
  EXPECT_EQ(slip.front().fit, Fit::slip);
  EXPECT_EQ(slip.front().slips, 1);
  EXPECT_EQ(index().all()[slip.front().index].name, "Harrik Pike");
  for (const auto& f : find("harrik")) EXPECT_EQ(f.slips, 0);
  EXPECT_TRUE(find("xqz").empty()) << "three letters are too few to be forgiven";
  EXPECT_TRUE(find("xqzwvvbk").empty());
  EXPECT_TRUE(find("").empty());
}

TEST(NameIndex, PiecesOfOneLineAreOneThingWithPlacesAlongIt) {
  int becks = 0;
  for (const auto& n : index().all()) {
    if (n.name != "Fallow Beck") continue;
    ++becks;
    EXPECT_FALSE(n.spots.empty());
    for (const auto& s : n.spots) {
      EXPECT_GE(s.bearing_deg, 0);
      EXPECT_LT(s.bearing_deg, 180);
    }
  }
  EXPECT_EQ(becks, 1);
}

TEST(NameIndex, APartOfTheMapIsToldByRank) {
  const auto& f = fells().elevation.frame();
  const auto all = index().in_box({f.west_m, f.south_m()}, {f.east_m(), f.north_m}, 1000);
  ASSERT_GT(all.size(), 40U);
  int rank = 0;
  for (const auto i : all) {
    EXPECT_GE(landmarks::name_rank(index().all()[i].kind), rank);
    rank = landmarks::name_rank(index().all()[i].kind);
  }
  EXPECT_EQ(index().in_box({f.west_m, f.south_m()}, {f.east_m(), f.north_m}, 5).size(), 5U);
  EXPECT_TRUE(index().in_box({0, 0}, {1, 1}, 10).empty());
}

// A crooked area's name must stand in it: a horseshoe's middle lies outside of it.
TEST(NameIndex, ANamesPlaceLiesInsideACrookedArea) {
  mapdata::MapData map;
  mapdata::AreaFeature horseshoe;
  horseshoe.label = {mapdata::Kind::wood, "Bent Wood", mapdata::Origin::mapped};
  horseshoe.outer = {{0, 0},   {100, 0}, {100, 100}, {80, 100},
                     {80, 20}, {20, 20}, {20, 100},  {0, 100}};
  map.areas.push_back(horseshoe);
  const landmarks::NameIndex names(fells().elevation, map, small);
  ASSERT_EQ(names.all().size(), 1U);
  EXPECT_TRUE(mapdata::contains(horseshoe, names.all().front().at));
}

}  // namespace
