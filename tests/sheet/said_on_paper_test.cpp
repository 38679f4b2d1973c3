// What paper says of units, zones and one-way trips.
#include <cmath>
#include <cstdlib>

#include <gtest/gtest.h>

#include "lodeway/sheet/card/card.hpp"
#include "lodeway/sheet/map/map_sheet.hpp"
#include "lodeway/sheet/notes/home_note.hpp"
#include "lodeway/trip/wording.hpp"
#include "sheet/paper_support.hpp"

namespace lodeway::sheet {
namespace {

bool has(const Drawing& drawing, const std::string& part) {
  for (const auto& t : texts_of(drawing)) {
    if (t.text.find(part) != std::string::npos) return true;
  }
  return false;
}

// A sheet in feet: contours every 50 ft, figures every 250, the scale line in feet and miles.
TEST(SaidOnPaper, AnImperialSheetCountsFeet) {
  auto plan = full_plan();
  plan.trip.lengths = trip::LengthUnit::imperial;
  const auto sheets = draw_map_sheets(plan, fells(), measure());
  ASSERT_TRUE(sheets);
  const auto& sheet = sheets->front();
  EXPECT_TRUE(has(sheet, "contours 50 ft"));
  EXPECT_TRUE(has(sheet, "= 1 mi"));
  EXPECT_TRUE(has(sheet, "1 mm = 82 ft"));
  EXPECT_FALSE(has(sheet, "1 km"));
  int figures = 0;
  for (const auto& t : texts_of(sheet)) {
    if (std::abs(t.size_mm - 2.05) > 1e-9 || t.face != Face::figures) continue;
    const double value = std::atof(t.text.c_str());
    EXPECT_NEAR(std::remainder(value, 250), 0, 1e-9) << t.text;
    EXPECT_LT(value, 3500) << "no ground of the fells is higher than 1000 m";
    ++figures;
  }
  EXPECT_GT(figures, 3);
  EXPECT_NE(card_text(plan).find("82 ft"), std::string::npos);
  EXPECT_EQ(card_text(plan).find("25 m"), std::string::npos);
}

TEST(SaidOnPaper, AStartStandsWithItsZone) {
  auto plan = full_plan();
  plan.trip.zone = "Europe/Dublin";
  EXPECT_NE(card_text(plan).find("(Europe/Dublin)"), std::string::npos);
  EXPECT_TRUE(has(draw_home_note(plan, fells(), measure()), "(Europe/Dublin)"));
  const auto card = draw_card(plan, measure(), {});
  EXPECT_TRUE(has(card.front(), "(Europe/Dublin)"));
}

TEST(SaidOnPaper, WhoDoesNotComeBackIsDue) {
  for (const auto language : {units::Language::english, units::Language::german}) {
    auto plan = full_plan(language);
    const auto said = [&](trip::Say what) {
      return has(draw_home_note(plan, fells(), measure()), trip::say(what, language));
    };
    plan.schedule.one_way = true;
    EXPECT_TRUE(said(trip::Say::due_at));
    EXPECT_FALSE(said(trip::Say::back_at));
    plan.schedule.one_way = false;
    EXPECT_TRUE(said(trip::Say::back_at));
    EXPECT_FALSE(said(trip::Say::due_at));
  }
}

}  // namespace
}  // namespace lodeway::sheet
