// Map sheets: nothing on each other, nothing off the page, all of the margin, bad input.
#include <algorithm>
#include <cmath>
#include <limits>

#include <gtest/gtest.h>

#include "lodeway/sheet/draw/ink.hpp"
#include "lodeway/sheet/map/map_sheet.hpp"
#include "sheet/paper_support.hpp"

namespace lodeway::sheet {
namespace {

using earth::GridPoint;

bool says(const Drawing& d, const std::string& part) {
  return std::ranges::any_of(
      texts_of(d), [&](const TextCommand& t) { return t.text.find(part) != std::string::npos; });
}

/// On the map itself: its key draws each sign once more.
int strokes_of(const Drawing& d, const Ink& ink, double width) {
  int count = 0;
  for (const auto& c : d.commands) {
    if (std::holds_alternative<UnclipCommand>(c)) break;
    const auto* p = std::get_if<PathCommand>(&c);
    if (p != nullptr && p->width_mm > 0 && p->stroke == ink && std::abs(p->width_mm - width) < 1e-9)
      count += static_cast<int>(p->rings.size());
  }
  return count;
}

TEST(Sheets, CheckLineIsHundredMillimetres) {
  const auto sheets = draw_map_sheets(plan_of(3), flat_ground(), measure());
  ASSERT_TRUE(sheets);
  bool found = false;
  for (const auto& c : sheets->front().commands) {
    const auto* p = std::get_if<PathCommand>(&c);
    if (p == nullptr || p->rings.size() != 1 || p->rings[0].size() != 2) continue;
    const auto a = p->rings[0][0], b = p->rings[0][1];
    found |= std::abs(std::hypot(b.x - a.x, b.y - a.y) - 100) < 1e-9 && a.y == b.y;
  }
  EXPECT_TRUE(found);
}

TEST(Sheets, EveryFormKeepsItsTextOnThePageAndApart) {
  const auto ground = flat_ground();
  for (const auto paper :
       {trip::Paper::a5, trip::Paper::a4, trip::Paper::a3, trip::Paper::letter}) {
    for (const bool lying : {false, true}) {
      for (const auto language : {units::Language::english, units::Language::german}) {
        auto plan = plan_of(3);
        plan.trip.paper = paper;
        plan.trip.landscape = lying;
        plan.trip.language = language;
        plan.trip.angles = lying ? trip::AngleUnit::mils : trip::AngleUnit::degrees;
        plan.trip.lengths = lying ? trip::LengthUnit::imperial : trip::LengthUnit::metric;
        plan.trip.shade = lying ? trip::Shade::slope : trip::Shade::relief;
        const auto sheets = draw_map_sheets(plan, ground, measure());
        ASSERT_TRUE(sheets);
        ASSERT_EQ(sheets->size(), 1U);
        expect_text_on_page(sheets->front());
        expect_nothing_cut(sheets->front());
        EXPECT_EQ(overlaps(sheets->front()), 0);
      }
    }
  }
}

TEST(Sheets, NothingOnAnotherOnTheFells) {
  for (const auto language : {units::Language::english, units::Language::german}) {
    const auto sheets = draw_map_sheets(full_plan(language), fells(), measure());
    ASSERT_TRUE(sheets);
    for (const auto& s : *sheets) {
      EXPECT_EQ(overlaps(s), 0);
      expect_text_on_page(s);
      expect_nothing_cut(s);
      EXPECT_TRUE(s.unreadable.empty());
    }
  }
}

TEST(Sheets, ALongWayHasAnIndexAndTheNeighboursNumbers) {
  auto plan = full_plan();
  plan.trip.paper = trip::Paper::a5;
  plan.trip.map_scale = 10000;
  const auto sheets = draw_map_sheets(plan, fells(), measure());
  ASSERT_TRUE(sheets);
  ASSERT_GE(sheets->size(), 4U);  // three of the map and the index at least
  for (const auto& s : *sheets) {
    EXPECT_EQ(overlaps(s), 0);
    expect_text_on_page(s);
    expect_nothing_cut(s);
  }
  const auto of = std::to_string(sheets->size() - 1);
  for (std::size_t i = 0; i + 1 < sheets->size(); ++i)
    EXPECT_TRUE(says((*sheets)[i], "sheet " + std::to_string(i + 1) + " of " + of)) << i;
  EXPECT_TRUE(says(sheets->back(), "The sheets"));
  EXPECT_EQ(legs_text({6}, units::Language::english), "leg 7");
  EXPECT_EQ(legs_text({0, 1, 2, 6}, units::Language::german), "Abschnitte 1–3, 7");
}

TEST(Sheets, AnIndexOfManySheetsNamesThemAll) {
  auto plan = full_plan();
  plan.trip.paper = trip::Paper::a5;
  plan.trip.map_scale = 3200;
  const auto sheets = draw_map_sheets(plan, fells(), measure());
  ASSERT_TRUE(sheets) << sheets.error().what;
  ASSERT_GE(sheets->size(), 30U);
  expect_text_on_page(sheets->back());
  for (std::size_t i = 1; i < sheets->size(); ++i)
    EXPECT_TRUE(says(sheets->back(), std::to_string(i))) << i;
}

TEST(Sheets, MarginSaysWhereTheGridAndTheNorthsAre) {
  const auto sheets = draw_map_sheets(full_plan(), fells(), measure());
  ASSERT_TRUE(sheets);
  const auto& s = sheets->front();
  for (const char* words :
       {"1:25 000", "EPSG:32629", "29UMA", "Norths on Sat 14 Nov 2026", "2.3° W",
        "Map to compass: add 2.3°", "Compass to map: take off 2.3°", "100 mm. Measure it.",
        "Double paces of this party, 62.5 to 100 m", "Romer, 100 m.", "CC0 1.0",
        "World Magnetic Model 2025", "to the end of 2028"})
    EXPECT_TRUE(says(s, words)) << words;
  // Meridians lean by the grid-magnetic angle.
  int meridians = 0;
  for (const auto& c : s.commands) {
    const auto* p = std::get_if<PathCommand>(&c);
    if (p == nullptr || p->dash_mm != std::vector<double>{6, 1.2}) continue;
    const auto a = p->rings[0][0], b = p->rings[0][1];
    if (std::hypot(b.x - a.x, b.y - a.y) < 20) continue;  // the key's own
    EXPECT_NEAR(std::atan2(b.x - a.x, a.y - b.y) * 180 / std::acos(-1.0), -2.3, 1e-9);
    ++meridians;
  }
  EXPECT_GE(meridians, 4);
}

TEST(Sheets, LegsAreMarkedWithAllThatThePlanKnows) {
  const auto sheets = draw_map_sheets(full_plan(), fells(), measure());
  ASSERT_TRUE(sheets);
  const auto& s = sheets->front();
  EXPECT_EQ(strokes_of(s, ink::night, 0.42), 8);   // two rails on each of four handrail legs
  EXPECT_EQ(strokes_of(s, ink::night, 0.32), 16);  // boxes of four ticks on each of them
  EXPECT_EQ(strokes_of(s, ink::night, 0.18), 10);  // two edges of five ribbons
  EXPECT_EQ(strokes_of(s, ink::night, 0.28), 1);   // the ellipse at the turn without a fix
  EXPECT_EQ(strokes_of(s, ink::faint(ink::lamp, 0.7), 1.45), 8);  // what stops the party
  EXPECT_EQ(strokes_of(s, ink::night, 0.60), 1);                  // the bar at the aim
  EXPECT_GT(strokes_of(s, ink::haven, 0.55), 0);                  // ways off
  EXPECT_TRUE(says(s, "89°") || says(s, "089°"));
}

// A place that only the leader calls so stands on the sheet by that name; the map's own once.
TEST(Sheets, TheLeadersOwnPlacesAreNamed) {
  auto plan = plan_of(3);
  auto ground = flat_ground();
  const auto at = plan.way.legs[1].course.line.back();
  plan.trip.request.points = {{"Meeting rock", at}};
  const auto count = [&] {
    const auto sheets = draw_map_sheets(plan, ground, measure());
    EXPECT_TRUE(sheets);
    return std::ranges::count_if(texts_of(sheets->front()), [](const TextCommand& t) {
      return t.text.find("Meeting rock") != std::string::npos;
    });
  };
  EXPECT_EQ(count(), 1);
  ground.map.points.push_back({{mapdata::Kind::cairn, "Meeting rock"}, at, 0});
  EXPECT_LE(count(), 1);
}

TEST(Sheets, UnknownAndForbiddenGroundIsHatched) {
  auto ground = flat_ground();
  auto plan = plan_of(3);
  const auto hatch = [&] {
    const auto sheets = draw_map_sheets(plan, ground, measure());
    EXPECT_TRUE(sheets);
    return std::pair(strokes_of(sheets->front(), ink::rule, 0.2),
                     strokes_of(sheets->front(), ink::rowan, 0.30));
  };
  const auto before = hatch();
  EXPECT_EQ(before.second, 0);
  plan.trip.request.avoid = {
      {"range", {{480100, 6048100}, {480700, 6048100}, {480700, 6048600}, {480100, 6048600}}}};
  // 24 x 20 mm, hatched each 1.7 mm: lines across (24 + 20) / sqrt 2 = 31 mm make 18.
  EXPECT_NEAR(hatch().second, 18, 1);
  for (int r = 150; r < 190; ++r) {
    for (int c = 20; c < 60; ++c) ground.elevation[r, c] = std::numeric_limits<float>::quiet_NaN();
  }
  EXPECT_GT(hatch().first, before.first);
}

TEST(Sheets, WhollyInALakeOrVoidOrBeyondTheGround) {
  auto plan = plan_of(3);
  auto lake = flat_ground();
  lake.elevation = terrain::Elevation(terrain::Frame{470000, 6060000, 50, 400, 400}, 200.0F);
  mapdata::AreaFeature water;
  water.label.kind = mapdata::Kind::lake;
  water.label.name = "Grethe Water";
  water.outer = {{470000, 6040000}, {490000, 6040000}, {490000, 6060000}, {470000, 6060000}};
  lake.map.areas.push_back(water);
  auto nothing = flat_ground();
  std::ranges::fill(nothing.elevation.cells(), std::numeric_limits<float>::quiet_NaN());
  auto elsewhere = flat_ground();
  elsewhere.elevation = terrain::Elevation(terrain::Frame{0, 100, 10, 10, 10}, 1.0F);
  auto no_heights = flat_ground();
  no_heights.elevation = {};
  for (const auto& ground : {lake, nothing, elsewhere, no_heights}) {
    const auto sheets = draw_map_sheets(plan, ground, measure());
    ASSERT_TRUE(sheets);
    expect_text_on_page(sheets->front());
    EXPECT_EQ(overlaps(sheets->front()), 0);
    const bool known = ground.map.areas.size() == 1;
    EXPECT_EQ(says(sheets->front(), "its ground is not known"), !known);
    EXPECT_EQ(says(sheets->front(), "Grethe Water"), known);
  }
}

TEST(Sheets, NamesOfAnySort) {
  std::string long_name;
  for (int i = 0; i < 50; ++i) long_name += "Harrikpike";
  for (const auto& name :
       {long_name, std::string("Όλυμπος"), std::string("جبل"), std::string("玉山"),
        std::string("a\x01\x02\nb"), std::string("\xff\xfe"),
        std::string("\xE2\x80\xAE"
                    "cba"),
        std::string()}) {
    auto ground = flat_ground();
    ground.name = name;
    ground.map.points = {{{mapdata::Kind::summit, name}, {480300, 6048300}, 500},
                         {{mapdata::Kind::hut, name}, {480500, 6048300}, 400}};
    ground.map.lines = {{{mapdata::Kind::stream, name}, {{479000, 6048400}, {482000, 6048450}}}};
    mapdata::AreaFeature wood;
    wood.label = {mapdata::Kind::wood, name};
    wood.outer = {{479000, 6047000}, {481000, 6047000}, {481000, 6047600}, {479000, 6047600}};
    ground.map.areas = {wood};
    const auto sheets = draw_map_sheets(plan_of(3, name), ground, measure());
    ASSERT_TRUE(sheets);
    expect_text_on_page(sheets->front());
    EXPECT_EQ(overlaps(sheets->front()), 0) << name;
    const bool lacks = name == "玉山" && !measure().covers(name, Face::words);
    EXPECT_EQ(!sheets->front().unreadable.empty(), lacks) << name;
    for (const auto& t : texts_of(sheets->front()))
      EXPECT_TRUE(measure().covers(t.text, t.face)) << t.text;  // never a box
  }
}

}  // namespace
}  // namespace lodeway::sheet
