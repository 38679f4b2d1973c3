// The key of a sheet: a sign is in it if and only if it is on the sheet, and it always fits.
#include <algorithm>
#include <cmath>
#include <limits>

#include <gtest/gtest.h>

#include "lodeway/landmarks/words.hpp"
#include "lodeway/sheet/map/map_sheet.hpp"
#include "lodeway/trip/wording.hpp"
#include "sheet/paper_support.hpp"

namespace lodeway::sheet {
namespace {

using earth::GridPoint;
using mapdata::Kind;
using trip::Say;

/// The texts of the key: those between the map's figures and the foot. A word of two lines is one.
std::string key_of(const Drawing& sheet, const MapFrame& f) {
  std::string out = "|";
  for (const auto& t : texts_of(sheet)) {
    if (t.at.y < f.at.y + f.h + 5 || t.at.y > f.at.y + f.h + 6 + legend_height_mm(f.w)) continue;
    if (t.size_mm == 3.0) continue;  // the grid's figures
    out += t.text + "|";
  }
  return out;
}

/// Its words may stand on two lines.
bool names(const std::string& key, const std::string& sign) {
  std::vector<std::string> forms{sign};
  for (std::size_t i = 0; i < sign.size(); ++i) {
    if (sign[i] != ' ') continue;
    forms.push_back(sign);
    forms.back()[i] = '|';
  }
  return std::ranges::any_of(forms, [&](const std::string& form) {
    return key.find("|" + form) != std::string::npos || key.find(", " + form) != std::string::npos ||
           key.find(",|" + form) != std::string::npos;
  });
}

MapFrame frame_of(const trip::Plan& plan) {
  const auto places = cover(plan.way, plan.trip.map_scale, plan.trip.paper, plan.trip.landscape);
  return places->front().frame;
}

// A lake that only the heights suggest is no lake of the map: it has a word of its own.
TEST(Legend, WaterThatOnlyTheHeightsSuggestIsSaid) {
  auto plan = full_plan();
  const auto f = frame_of(plan);
  auto ground = fells();
  const auto m = f.on_ground({f.at.x + 0.5 * f.w, f.at.y + 0.5 * f.h});
  mapdata::AreaFeature pond;
  pond.label.kind = Kind::lake;
  pond.outer = {m, m + GridPoint{200, 0}, m + GridPoint{200, 200}, m + GridPoint{0, 200}};
  const auto key = [&](mapdata::Origin origin) {
    pond.label.origin = origin;
    std::erase_if(ground.map.areas, [](const auto& a) { return a.label.kind == Kind::lake; });
    ground.map.areas.push_back(pond);
    const auto sheets = draw_map_sheets(plan, ground, measure());
    EXPECT_TRUE(sheets);
    return sheets ? key_of(sheets->front(), f) : std::string();
  };
  EXPECT_TRUE(names(key(mapdata::Origin::from_relief), "probable water"));
  EXPECT_FALSE(names(key(mapdata::Origin::from_relief), "lake"));
  EXPECT_FALSE(names(key(mapdata::Origin::mapped), "probable water"));
  EXPECT_TRUE(names(key(mapdata::Origin::mapped), "lake"));
  plan.trip.language = units::Language::german;
  EXPECT_TRUE(names(key(mapdata::Origin::from_relief), "wohl Wasser"));
}

// Each kind of the map with a corner on the sheet is in the key; one that comes nowhere near is
// not.
TEST(Legend, HasWhatTheSheetHasAndNothingElse) {
  const auto plan = full_plan();
  const auto sheets = draw_map_sheets(plan, fells(), measure());
  ASSERT_TRUE(sheets);
  const auto f = frame_of(plan);
  const auto key = key_of(sheets->front(), f);
  const auto& map = fells().map;
  // Kinds that paper draws no sign for.
  const std::vector<Kind> unsigned_kinds{
      Kind::wood_edge, Kind::shore,  Kind::ridge_line, Kind::valley_line, Kind::grass, Kind::heath,
      Kind::farmland,  Kind::saddle, Kind::settlement, Kind::junction,    Kind::other};
  int there = 0, absent = 0;
  for (int k = 0; k < mapdata::kind_count; ++k) {
    const auto kind = static_cast<Kind>(k);
    if (std::ranges::find(unsigned_kinds, kind) != unsigned_kinds.end() || kind == Kind::forbidden)
      continue;
    bool on = false, near = false;
    const auto corner = [&](GridPoint p) {
      on |= f.near(p, -1);
      near |= f.near(p, 40);
    };
    for (const auto& l : map.lines) {
      if (l.label.kind == kind && !l.tunnel) std::ranges::for_each(l.points, corner);
    }
    for (const auto& a : map.areas) {
      if (a.label.kind == kind) std::ranges::for_each(a.outer, corner);
    }
    for (const auto& p : map.points) {
      if (p.label.kind == kind) corner(p.at);
    }
    const auto words = landmarks::thing(kind, "", units::Language::english);
    if (on) {
      EXPECT_TRUE(names(key, words)) << words << " is on the sheet; the key: " << key;
    }
    if (!near) {
      EXPECT_FALSE(names(key, words)) << words << " is not; the key: " << key;
    }
    there += on ? 1 : 0;
    absent += near ? 0 : 1;
  }
  EXPECT_GE(there, 12);
  EXPECT_GE(absent, 3);
  for (const Say s :
       {Say::sign_handrail, Say::sign_bearing, Say::sign_turn, Say::sign_tick_off,
        Say::sign_catching, Say::sign_aiming_off, Say::sign_escape, Say::sign_magnetic})
    EXPECT_TRUE(names(key, trip::say(s, units::Language::english))) << key;
}

TEST(Legend, OfEmptyGroundNamesNothingThatIsNotThere) {
  auto plan = plan_of(3);
  const auto key = key_of(draw_map_sheets(plan, flat_ground(), measure())->front(), frame_of(plan));
  for (const char* absent : {"path", "cliff", "lake", "wood", "stream", "steeper", "no entry", "aiming off",
                              "Keep off"})
    EXPECT_FALSE(names(key, absent)) << key;
  plan.trip.request.avoid = {
      {"range", {{480100, 6048100}, {480700, 6048100}, {480700, 6048600}, {480100, 6048600}}}};
  EXPECT_TRUE(
      names(key_of(draw_map_sheets(plan, flat_ground(), measure())->front(), frame_of(plan)),
            "Keep off"));
  auto far = plan;  // an area to avoid in another valley is not in the key
  for (auto& p : far.trip.request.avoid[0].ring) p = p + GridPoint{9000, 9000};
  EXPECT_FALSE(names(key_of(draw_map_sheets(far, flat_ground(), measure())->front(), frame_of(far)),
                     "Keep off"));
}

/// All kinds of all forms in the middle of the sheet, and closed ground, and a hole in the heights.
walking::Ground all_at_once() {
  auto ground = flat_ground();
  for (int k = 0; k < mapdata::kind_count; ++k) {
    const double x = 480050 + 12.0 * k, y = 6048050;
    mapdata::LineFeature line;
    line.label.kind = static_cast<Kind>(k);
    line.points = {{x, y}, {x, y + 300}};
    ground.map.lines.push_back(line);
    mapdata::AreaFeature area;
    area.label.kind = static_cast<Kind>(k);
    area.outer = {{x, y - 300}, {x + 200, y - 300}, {x + 200, y - 100}, {x, y - 100}};
    ground.map.areas.push_back(area);
    mapdata::PointFeature point;
    point.label.kind = static_cast<Kind>(k);
    point.at = {x, y + 400};
    ground.map.points.push_back(point);
  }
  ground.elevation[200, 50] = std::numeric_limits<float>::quiet_NaN();
  return ground;
}

TEST(Legend, AllSignsThereAreFitEveryPaper) {
  const auto ground = all_at_once();
  for (const auto paper :
       {trip::Paper::a5, trip::Paper::a4, trip::Paper::a3, trip::Paper::letter}) {
    for (const bool lying : {false, true}) {
      for (const auto language : {units::Language::english, units::Language::german}) {
        auto plan = plan_of(3);
        plan.trip.paper = paper;
        plan.trip.landscape = lying;
        plan.trip.language = language;
        const auto sheets = draw_map_sheets(plan, ground, measure());
        ASSERT_TRUE(sheets);
        const auto& sheet = sheets->front();
        const auto f = frame_of(plan);
        expect_text_on_page(sheet);
        expect_nothing_cut(sheet);
        const auto key = key_of(sheet, f);
        for (const Kind k : {Kind::cliff, Kind::glacier, Kind::aerialway, Kind::wayside_mark,
                             Kind::waterfall, Kind::hedge})
          EXPECT_TRUE(names(key, landmarks::thing(k, "", language))) << key;
        // Only the key is looked at: on this map everything lies on everything.
        Drawing only;
        only.width_mm = f.page_w;
        only.height_mm = f.page_h;
        for (const auto& t : texts_of(sheet)) {
          if (t.at.y > f.at.y + f.h + 1) only.commands.emplace_back(t);
        }
        EXPECT_EQ(overlaps(only), 0);
      }
    }
  }
}

}  // namespace
}  // namespace lodeway::sheet
